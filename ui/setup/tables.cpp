// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/setup/tables.h"

#include <QtCore/QCoreApplication>

#include "core/custody/places.h"
#include "core/fire/lots.h"
#include "core/history/fields.h"
#include "core/lab/lab.h"
#include "core/milling/machines.h"
#include "core/sieve_records/sieves.h"
#include "ui/kit/sentences.h"

namespace prillbook::ui {
namespace {

namespace fields = history::fields;

struct Tables {
  Q_DECLARE_TR_FUNCTIONS(Tables)
};

template <class IdType>
Result<RecordId> bare(const Result<IdType>& made) {
  if (!made.ok()) return made.error();
  return made->value;
}

std::vector<PickField::Item> flux_lots(Session& session) {
  std::vector<PickField::Item> items;
  if (const auto lots = fire::lots(session.connection); lots.ok())
    for (const fire::Lot& lot : *lots)
      if (lot.kind == "flux" && !lot.used_up_at) items.push_back({lot.id.value, to_qt(lot.name)});
  return items;
}

}  // namespace

RecordTable* people_table(Session& session, Columns) {
  return new RecordTable(
      session, history::Entity::person,
      {{fields::person::initials, Tables::tr("Initials"), "", 1}, {fields::person::name, Tables::tr("Name"), "", 4}},
      [&session](const std::string& initials) { return bare(lab::add_person(session.journal, initials)); }, Tables::tr("add"));
}

RecordTable* balances_table(Session& session, Columns columns) {
  std::vector<TableColumn> shown{{fields::balance::name, Tables::tr("Balance"), "", 3},
                                 {fields::balance::step, Tables::tr("Step"), "mg", 2}};
  if (columns == Columns::all) {
    shown.push_back({fields::balance::capacity, Tables::tr("Capacity"), "g", 2});
    shown.push_back({fields::balance::repeatability, Tables::tr("Repeatability (standard deviation)"), "mg", 2});
  }
  return new RecordTable(
      session, history::Entity::balance, std::move(shown),
      [&session](const std::string& name) { return bare(lab::add_balance(session.journal, name, {})); },
      Tables::tr("add a balance"));
}

RecordTable* machines_table(Session& session) {
  return new RecordTable(
      session, history::Entity::machine,
      {{fields::machine::name, Tables::tr("Machine"), "", 3},
       {fields::machine::kind, Tables::tr("crusher, pulveriser, splitter, screen, oven, other"), "", 4},
       {fields::machine::hold_up, Tables::tr("Hold-up, where it is known"), "g", 2}},
      [&session](const std::string& name) { return bare(milling::add_machine(session.journal, name, {})); },
      Tables::tr("add a machine"));
}

RecordTable* clients_table(Session& session, Columns columns) {
  std::vector<TableColumn> shown{{fields::client::name, Tables::tr("Client"), "", 3},
                                 {fields::client::contact, Tables::tr("Contact"), "", 2}};
  if (columns == Columns::all) {
    shown.push_back({fields::client::address, Tables::tr("Address"), "", 2});
    shown.push_back({fields::client::remarks, Tables::tr("Remarks"), "", 2});
  }
  return new RecordTable(
      session, history::Entity::client, std::move(shown),
      [&session](const std::string& name) { return bare(lab::add_client(session.journal, name)); }, Tables::tr("add a client"));
}

RecordTable* sieves_table(Session& session) {
  auto* table = new RecordTable(
      session, history::Entity::sieve,
      {{fields::sieve::name, Tables::tr("Number or opening"), "", 3},
       {fields::sieve::series, Tables::tr("Series"), "", 4},
       {fields::sieve::diameter, Tables::tr("Diameter"), "mm", 2},
       {fields::sieve::inspect_by, Tables::tr("Inspection due"), "", 3}},
      [&session](const std::string& words) { return bare(sieves::add_sieve(session.journal, words)); },
      Tables::tr("200 ASTM, 75 µm"));
  table->rename_by([&session](RecordId id, const std::string& words, const RecordFields::Why& why) {
    return sieves::rename_sieve(session.journal, SieveId{id}, words, why);
  });
  table->choose_by([&session](RecordId id, const std::optional<std::string>& series) {
    return sieves::set_series(session.journal, SieveId{id}, series ? find_sieve_series(*series) : std::nullopt);
  });
  return table;
}

RecordTable* places_table(Session& session) {
  return new RecordTable(
      session, history::Entity::place,
      {{fields::place::name, Tables::tr("Place"), "", 2}, {fields::place::remarks, Tables::tr("Remarks"), "", 3}},
      [&session](const std::string& name) { return bare(custody::add_place(session.journal, name)); }, Tables::tr("add a place"));
}

// A lot begins as litharge, the kind that most are of.
RecordTable* lots_table(Session& session) {
  return new RecordTable(
      session, history::Entity::lot,
      {{fields::lot::name, Tables::tr("Lot"), "", 3},
       {fields::lot::kind, Tables::tr("flux, litharge, lead"), "", 4},
       {fields::lot::silver, Tables::tr("Silver by its blank"), "mg/100 g", 3},
       {fields::lot::used_up_at, Tables::tr("Used up"), "", 2}},
      [&session](const std::string& name) { return bare(fire::add_lot(session.journal, name, "litharge")); },
      Tables::tr("add a lot"));
}

RecordTable* pots_table(Session& session) {
  return new RecordTable(
      session, history::Entity::pot,
      {{fields::pot::name, Tables::tr("Pot"), "", 2},
       {fields::pot::millilitres, Tables::tr("Holds, ml"), "", 1},
       {fields::pot::broken_at, Tables::tr("Broken"), "", 2},
       {fields::pot::remarks, Tables::tr("Remarks"), "", 3}},
      [&session](const std::string& name) { return bare(fire::add_pot(session.journal, name)); }, Tables::tr("add a pot"));
}

RecordTable* recipes_table(Session& session) {
  return new RecordTable(
      session, history::Entity::recipe,
      {{fields::recipe::name, Tables::tr("Recipe"), "", 3},
       {fields::recipe::ore, Tables::tr("For ore"), "g", 2},
       {fields::recipe::litharge, Tables::tr("Litharge"), "g", 2},
       {fields::recipe::soda_ash, Tables::tr("Soda ash"), "g", 2},
       {fields::recipe::borax, Tables::tr("Borax glass"), "g", 2},
       {fields::recipe::silica, Tables::tr("Silica"), "g", 2},
       {fields::recipe::flour, Tables::tr("Flour"), "g", 2},
       {fields::recipe::nitre, Tables::tr("Nitre"), "g", 2},
       {fields::recipe::flux_lot, Tables::tr("Mixed flux, lot"), "", 3, [&session] { return flux_lots(session); }},
       {fields::recipe::flux, Tables::tr("Mixed flux"), "g", 2}},
      [&session](const std::string& name) { return bare(fire::add_recipe(session.journal, name)); }, Tables::tr("add a recipe"));
}

}  // namespace prillbook::ui
