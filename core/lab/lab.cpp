// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/lab/lab.h"

#include <fmt/format.h>

#include "core/base/text.h"
#include "core/history/fields.h"
#include "core/history/record.h"
#include "core/units/units.h"

namespace prillbook::lab {
namespace {

namespace person_fields = history::fields::person;
namespace client_fields = history::fields::client;
namespace balance_fields = history::fields::balance;
using history::Entity;
using history::Record;
using readings::cell_of;
using readings::figure_of;

Person person_of(const Record& record) {
  return {PersonId{record.id()}, record.text(person_fields::initials), record.optional_text(person_fields::name)};
}

Client client_of(const Record& record) {
  return {ClientId{record.id()},
          record.text(client_fields::name),
          record.optional_text(client_fields::contact),
          record.optional_text(client_fields::address),
          record.optional_text(client_fields::remarks),
          record.optional_text(client_fields::language)};
}

Result<Balance> balance_of(const Record& record) {
  Balance balance{
      BalanceId{record.id()}, record.text(balance_fields::name), {}, {}, {}, record.optional_text(balance_fields::remarks)};
  PRILLBOOK_ASSIGN(balance.step, figure_of(record, balance_fields::step));
  PRILLBOOK_ASSIGN(balance.capacity, figure_of(record, balance_fields::capacity));
  PRILLBOOK_ASSIGN(balance.repeatability, figure_of(record, balance_fields::repeatability));
  return balance;
}

template <class IdType>
Result<IdType> make(history::Journal& journal, std::string_view gesture, Entity entity,
                    const std::vector<history::Setting>& settings) {
  PRILLBOOK_ASSIGN(const RecordId id,
                   journal.record_for<RecordId>(gesture, [&](history::ChangeSet& set) { return set.make(entity, settings); }));
  return IdType{id};
}

template <class Named>
Result<Named> only_named(const std::vector<Named>& all, std::string_view name, const std::string& kind) {
  const Named* found = nullptr;
  for (const Named& candidate : all) {
    if (candidate.name != name) continue;
    if (found)
      return Error{ErrorCode::ambiguous,
                   kind,
                   fmt::format("two have the name {}: {} and {}; give the id", name, found->id.value, candidate.id.value),
                   {std::string(name)}};
    found = &candidate;
  }
  if (!found) return Error{ErrorCode::not_found, kind, fmt::format("there is no {} named {}", kind, name), {std::string(name)}};
  return *found;
}

}  // namespace

Result<PersonId> add_person(history::Journal& journal, const std::string& initials, const std::optional<std::string>& name) {
  return make<PersonId>(journal, "add person", Entity::person,
                        {{person_fields::initials, cell_of(std::optional(initials))}, {person_fields::name, cell_of(name)}});
}

Result<ClientId> add_client(history::Journal& journal, const std::string& name) {
  return make<ClientId>(journal, "add client", Entity::client, {{client_fields::name, cell_of(std::optional(name))}});
}

Result<BalanceId> add_balance(history::Journal& journal, const std::string& name, const readings::Figure& step) {
  return make<BalanceId>(journal, "add balance", Entity::balance,
                         {{balance_fields::name, cell_of(std::optional(name))}, {balance_fields::step, cell_of(step)}});
}

Result<std::vector<Person>> people(store::Connection& connection) {
  PRILLBOOK_ASSIGN(const auto records, history::load_all(connection, Entity::person));
  std::vector<Person> people;
  for (const Record& record : records) people.push_back(person_of(record));
  return people;
}

Result<std::vector<Client>> clients(store::Connection& connection) {
  PRILLBOOK_ASSIGN(const auto records, history::load_all(connection, Entity::client));
  std::vector<Client> clients;
  for (const Record& record : records) clients.push_back(client_of(record));
  return clients;
}

Result<std::vector<Balance>> balances(store::Connection& connection) {
  PRILLBOOK_ASSIGN(const auto records, history::load_all(connection, Entity::balance));
  std::vector<Balance> balances;
  for (const Record& record : records) {
    PRILLBOOK_ASSIGN(Balance balance, balance_of(record));
    balances.push_back(std::move(balance));
  }
  return balances;
}

Result<Client> client(history::Source source, ClientId id) {
  PRILLBOOK_ASSIGN(const Record record, history::load_record(source, Entity::client, id.value));
  return client_of(record);
}

Result<Balance> balance(store::Connection& connection, BalanceId id) {
  PRILLBOOK_ASSIGN(const Record record, history::load_record(connection, Entity::balance, id.value));
  return balance_of(record);
}

Result<readings::Reading> on_balance(store::Connection& connection, readings::Reading mass, BalanceId id) {
  if (!id) return mass;
  PRILLBOOK_ASSIGN(const Balance used, balance(connection, id));
  mass.balance = id;
  if (used.step) mass.step_g = used.step->mass().in(unit::gram);
  if (used.capacity && mass.mass() > used.capacity->mass())
    return Error{ErrorCode::out_of_range,
                 "mass",
                 fmt::format("{} is more than the balance can carry", mass.typed),
                 {mass.typed, used.capacity->typed}};
  return mass;
}

Result<Person> person_by_initials(store::Connection& connection, std::string_view initials) {
  PRILLBOOK_ASSIGN(const std::vector<Person> all, people(connection));
  for (const Person& person : all)
    if (lower_ascii(person.initials) == lower_ascii(trimmed(initials))) return person;
  return Error{
      ErrorCode::not_found, "initials", fmt::format("nobody here has the initials {}", initials), {std::string(initials)}};
}

Result<Client> client_by_name(store::Connection& connection, std::string_view name) {
  PRILLBOOK_ASSIGN(const std::vector<Client> all, clients(connection));
  return only_named(all, name, "client");
}

Result<Balance> balance_by_name(store::Connection& connection, std::string_view name) {
  PRILLBOOK_ASSIGN(const std::vector<Balance> all, balances(connection));
  return only_named(all, name, "balance");
}

}  // namespace prillbook::lab
