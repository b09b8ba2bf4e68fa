// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/sieve_records/sieves.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/history/fields.h"
#include "core/history/record.h"
#include "core/lab/settings.h"
#include "core/units/units.h"

namespace prillbook::sieves {
namespace {

namespace sieve_fields = history::fields::sieve;
namespace stack_fields = history::fields::sieve_stack;
namespace member_fields = history::fields::stack_sieve;
using history::Entity;
using history::Record;
using readings::cell_of;

std::optional<std::string> series_cell(std::optional<SieveSeries> series) {
  return series ? std::optional(std::string(contract_name(*series))) : std::nullopt;
}

// An opening as a reading; millimetres from 1 mm up, as it is written elsewhere.
readings::Reading opening_reading(Opening opening) {
  readings::Reading reading;
  reading.measure = Measure::opening;
  reading.typed = opening_in_words(opening);
  const auto again = readings::parse(reading.typed, {Measure::opening, "µm", DecimalMark::point, false});
  return again.ok() ? *again : reading;
}

Result<Sieve> sieve_of(const Record& record) {
  Sieve sieve;
  sieve.id = SieveId{record.id()};
  sieve.name = record.text(sieve_fields::name);
  sieve.series = find_sieve_series(record.text(sieve_fields::series));
  sieve.remarks = record.optional_text(sieve_fields::remarks);
  PRILLBOOK_ASSIGN(const readings::Figure opening, readings::figure_of(record, sieve_fields::opening));
  if (!opening || !(opening->value > 0))
    return Error{ErrorCode::damaged, "sieve.opening", fmt::format("sieve {} has no opening", record.id()), {}};
  sieve.opening = opening->opening();
  PRILLBOOK_ASSIGN(sieve.diameter, readings::figure_of(record, sieve_fields::diameter));
  if (const auto due = record.optional_text(sieve_fields::inspect_by)) {
    PRILLBOOK_ASSIGN(sieve.inspect_by, parse_iso(*due));
  }
  return sieve;
}

bool coarser(const Sieve& a, const Sieve& b) { return a.opening > b.opening; }

Result<void> write_name(history::ChangeSet& set, SieveId id, const NamedSieve& named) {
  PRILLBOOK_TRY(set.set(sieve_fields::name, id.value, named.name));
  PRILLBOOK_TRY(set.set(sieve_fields::series, id.value, cell_of(series_cell(named.series))));
  return set.set(sieve_fields::opening, id.value, cell_of(readings::Figure{opening_reading(named.opening)}));
}

Result<DecimalMark> mark_of(store::Connection& connection) {
  PRILLBOOK_ASSIGN(const lab::Settings settings, lab::settings(connection));
  return settings.decimal_mark;
}

Result<std::vector<Sieve>> members(store::Connection& connection, SieveStackId id) {
  PRILLBOOK_ASSIGN(const auto records, history::load_referring(connection, member_fields::stack, id.value));
  std::vector<Sieve> list;
  for (const Record& member : records) {
    PRILLBOOK_ASSIGN(const Record record, history::load_record(connection, Entity::sieve, member.whole(member_fields::sieve)));
    PRILLBOOK_ASSIGN(Sieve sieve, sieve_of(record));
    list.push_back(std::move(sieve));
  }
  std::sort(list.begin(), list.end(), coarser);
  return list;
}

Result<void> add_members(history::ChangeSet& set, SieveStackId id, const std::vector<SieveId>& sieves) {
  if (sieves.empty()) return Error{ErrorCode::too_small, "sieve_stack.sieves", "a stack has at least one sieve", {}};
  std::vector<Opening> openings;
  for (const SieveId sieve : sieves) {
    PRILLBOOK_ASSIGN(const Record record, history::load_record(set.connection(), Entity::sieve, sieve.value));
    PRILLBOOK_ASSIGN(const Sieve held, sieve_of(record));
    if (std::find(openings.begin(), openings.end(), held.opening) != openings.end())
      return Error{ErrorCode::conflict, "sieve.name", "one opening stands twice", {opening_in_words(held.opening)}};
    openings.push_back(held.opening);
    PRILLBOOK_TRY(set.make(Entity::stack_sieve, {{member_fields::stack, cell_of(id)}, {member_fields::sieve, cell_of(sieve)}}));
  }
  return {};
}

}  // namespace

std::string Stack::openings_in_words(DecimalMark mark) const {
  std::string words;
  for (const Sieve& sieve : sieves) words += (words.empty() ? "" : ", ") + opening_in_words(sieve.opening, mark);
  return words;
}

Result<SieveId> add_sieve(history::ChangeSet& set, const NamedSieve& named) {
  PRILLBOOK_ASSIGN(const RecordId id,
                   set.make(Entity::sieve, {{sieve_fields::name, named.name},
                                            {sieve_fields::series, cell_of(series_cell(named.series))},
                                            {sieve_fields::opening, cell_of(readings::Figure{opening_reading(named.opening)})}}));
  return SieveId{id};
}

Result<SieveId> add_sieve(history::Journal& journal, std::string_view words) {
  PRILLBOOK_ASSIGN(const DecimalMark mark, mark_of(journal.connection()));
  PRILLBOOK_ASSIGN(const NamedSieve named, read_sieve_name(words, std::nullopt, mark));
  return journal.record_for<SieveId>("add sieve", [&](history::ChangeSet& set) { return add_sieve(set, named); });
}

Result<void> rename_sieve(history::Journal& journal, SieveId id, std::string_view words, const std::optional<std::string>& why) {
  PRILLBOOK_ASSIGN(const DecimalMark mark, mark_of(journal.connection()));
  PRILLBOOK_ASSIGN(const Record record, history::load_record(journal.connection(), Entity::sieve, id.value));
  PRILLBOOK_ASSIGN(const NamedSieve named, read_sieve_name(words, find_sieve_series(record.text(sieve_fields::series)), mark));
  return journal.record("enter sieve.name", [&](history::ChangeSet& set) {
    if (why) set.because(*why);
    return write_name(set, id, named);
  });
}

Result<void> set_series(history::Journal& journal, SieveId id, std::optional<SieveSeries> series) {
  PRILLBOOK_ASSIGN(const Record record, history::load_record(journal.connection(), Entity::sieve, id.value));
  PRILLBOOK_ASSIGN(const NamedSieve named, read_sieve_name(record.text(sieve_fields::name), series, DecimalMark::point));
  return journal.record("enter sieve.series", [&](history::ChangeSet& set) { return write_name(set, id, named); });
}

Result<std::vector<SieveId>> sieves_from_words(history::ChangeSet& set, std::string_view words) {
  PRILLBOOK_ASSIGN(const DecimalMark mark, mark_of(set.connection()));
  PRILLBOOK_ASSIGN(const std::vector<NamedSieve> named, read_sieve_names(words, std::nullopt, mark));
  PRILLBOOK_ASSIGN(const std::vector<Sieve> held, sieves(set.connection()));
  std::vector<SieveId> ids;
  for (const NamedSieve& wanted : named) {
    const auto found = std::find_if(held.begin(), held.end(), [&](const Sieve& sieve) {
      return sieve.opening == wanted.opening && (!wanted.series || sieve.series == wanted.series);
    });
    if (found != held.end()) {
      ids.push_back(found->id);
      continue;
    }
    PRILLBOOK_ASSIGN(const SieveId made, add_sieve(set, wanted));
    ids.push_back(made);
  }
  return ids;
}

Result<SieveStackId> add_stack(history::ChangeSet& set, const std::string& name, const std::vector<SieveId>& sieves) {
  PRILLBOOK_ASSIGN(const std::vector<Stack> held, stacks(set.connection()));
  for (const Stack& stack : held)
    if (stack.name == trimmed(name)) return Error{ErrorCode::already_exists, "sieve_stack.name", "the name is taken", {name}};
  PRILLBOOK_ASSIGN(const RecordId id, set.make(Entity::sieve_stack, {{stack_fields::name, cell_of(std::optional(name))}}));
  PRILLBOOK_TRY(add_members(set, SieveStackId{id}, sieves));
  return SieveStackId{id};
}

Result<SieveStackId> add_stack(history::Journal& journal, const std::string& name, std::string_view words) {
  return journal.record_for<SieveStackId>("add stack", [&](history::ChangeSet& set) -> Result<SieveStackId> {
    PRILLBOOK_ASSIGN(const std::vector<SieveId> ids, sieves_from_words(set, words));
    return add_stack(set, trimmed(name).empty() ? std::string(trimmed(words)) : name, ids);
  });
}

Result<void> set_stack(history::Journal& journal, SieveStackId id, std::string_view words) {
  return journal.record("set stack", [&](history::ChangeSet& set) -> Result<void> {
    PRILLBOOK_ASSIGN(const std::vector<SieveId> ids, sieves_from_words(set, words));
    PRILLBOOK_ASSIGN(const auto records, history::load_referring(set.connection(), member_fields::stack, id.value));
    for (const Record& member : records) PRILLBOOK_TRY(set.set(member_fields::struck, member.id(), std::int64_t{1}));
    return add_members(set, id, ids);
  });
}

Result<std::vector<Sieve>> sieves(store::Connection& connection) {
  PRILLBOOK_ASSIGN(const auto records, history::load_all(connection, Entity::sieve));
  std::vector<Sieve> list;
  for (const Record& record : records) {
    PRILLBOOK_ASSIGN(Sieve sieve, sieve_of(record));
    list.push_back(std::move(sieve));
  }
  std::stable_sort(list.begin(), list.end(), coarser);
  return list;
}

Result<Stack> stack(store::Connection& connection, SieveStackId id) {
  PRILLBOOK_ASSIGN(const Record record, history::load_record(connection, Entity::sieve_stack, id.value));
  Stack stack{id, record.text(stack_fields::name), record.optional_text(stack_fields::remarks), {}};
  PRILLBOOK_ASSIGN(stack.sieves, members(connection, id));
  return stack;
}

Result<std::vector<Stack>> stacks(store::Connection& connection) {
  PRILLBOOK_ASSIGN(const auto records, history::load_all(connection, Entity::sieve_stack));
  std::vector<Stack> list;
  for (const Record& record : records) {
    PRILLBOOK_ASSIGN(Stack one, stack(connection, SieveStackId{record.id()}));
    list.push_back(std::move(one));
  }
  return list;
}

Result<Stack> stack_by_name(store::Connection& connection, std::string_view name) {
  PRILLBOOK_ASSIGN(const std::vector<Stack> all, stacks(connection));
  for (const Stack& one : all)
    if (one.name == trimmed(name)) return one;
  return Error{ErrorCode::not_found, "stack", fmt::format("there is no stack {}", name), {std::string(name)}};
}

}  // namespace prillbook::sieves
