// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/gravity/panning.h"

#include <fmt/format.h>

#include <algorithm>

#include "core/gravity/pan_test.h"
#include "core/gravity/statements.h"
#include "core/history/fields.h"
#include "core/history/record.h"

namespace prillbook::gravity {
namespace {

namespace panning_fields = history::fields::panning;
using history::Entity;
using readings::cell_of;

Result<Panning> panning_of(const history::Record& record) {
  Panning made;
  made.id = PanningId{record.id()};
  made.test = record.reference<PanTestId>(panning_fields::pan_test);
  made.number = record.whole(panning_fields::number);
  made.kind = record.text(panning_fields::kind);
  made.panned_by = record.reference<PersonId>(panning_fields::panned_by);
  made.remarks = record.optional_text(panning_fields::remarks);
  if (const auto at = record.optional_text(panning_fields::panned_at)) {
    PRILLBOOK_ASSIGN(made.panned_at, parse_iso(*at));
  }
  PRILLBOOK_ASSIGN(made.concentrate, readings::figure_of(record, panning_fields::concentrate));
  return made;
}

Result<void> check_concentrate(store::Connection& connection, PortionId id, const readings::Figure& mass) {
  if (!mass) return {};
  PRILLBOOK_ASSIGN(const portions::Portion panned, portions::portion(connection, id));
  if (!panned.mass || !(mass->mass() > panned.mass->mass())) return {};
  return Error{ErrorCode::inconsistent,
               "panning.concentrate",
               fmt::format("{} of a portion of {}", mass->typed, panned.mass->typed),
               {mass->typed, panned.mass->typed}};
}

}  // namespace

Result<PanningId> add_panning(history::ChangeSet& set, const NewPanning& fresh) {
  store::Connection& connection = set.connection();
  PRILLBOOK_ASSIGN(const PanTest test, pan_test(connection, fresh.test));
  if (test.spoiled) return Error{ErrorCode::conflict, "panning.pan_test_id", "the pan test is spoiled", {*test.spoiled}};
  PRILLBOOK_ASSIGN(const auto earlier, pannings_of(connection, fresh.test));
  for (const Panning& one : earlier)
    if (fresh.kind == "first" && one.kind == "first")
      return Error{ErrorCode::already_exists, "panning.kind", "the first pan is noted already", {}};
  PRILLBOOK_TRY(check_concentrate(connection, test.portion, fresh.concentrate));
  // Numbers of those struck out are not given again.
  PRILLBOOK_ASSIGN(const std::int64_t last, connection.integer(sql::last_panning, {fresh.test.value}));
  PRILLBOOK_ASSIGN(const RecordId made,
                   set.make(Entity::panning, {{panning_fields::pan_test, cell_of(fresh.test)},
                                              {panning_fields::number, last + 1},
                                              {panning_fields::kind, fresh.kind},
                                              {panning_fields::panned_at, to_iso(fresh.panned_at.value_or(set.when()))},
                                              {panning_fields::panned_by, cell_of(fresh.panned_by)},
                                              {panning_fields::concentrate, cell_of(fresh.concentrate)}}));
  return PanningId{made};
}

Result<PanningId> add_panning(history::Journal& journal, const NewPanning& fresh) {
  return journal.record_for<PanningId>("add panning", [&](history::ChangeSet& set) { return add_panning(set, fresh); });
}

Result<void> set_concentrate(history::Journal& journal, PanningId id, const readings::Figure& mass,
                             const std::optional<std::string>& why) {
  store::Connection& connection = journal.connection();
  PRILLBOOK_ASSIGN(const auto record, history::load_record(connection, Entity::panning, id.value));
  PRILLBOOK_ASSIGN(const PanTest test, pan_test(connection, record.reference<PanTestId>(panning_fields::pan_test)));
  PRILLBOOK_TRY(check_concentrate(connection, test.portion, mass));
  return readings::enter(journal, panning_fields::concentrate, id.value, cell_of(mass), why);
}

Result<std::vector<Panning>> pannings_of(history::Source source, PanTestId test) {
  PRILLBOOK_ASSIGN(const auto records, history::load_referring(source, panning_fields::pan_test, test.value));
  std::vector<Panning> list;
  for (const history::Record& record : records) {
    PRILLBOOK_ASSIGN(Panning one, panning_of(record));
    list.push_back(std::move(one));
  }
  std::sort(list.begin(), list.end(), [](const Panning& a, const Panning& b) { return a.number < b.number; });
  return list;
}

}  // namespace prillbook::gravity
