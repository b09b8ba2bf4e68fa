// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/gravity/pan_test.h"

#include "core/gravity/statements.h"
#include "core/history/fields.h"
#include "core/history/record.h"

namespace prillbook::gravity {
namespace {

namespace pan_test_fields = history::fields::pan_test;
using history::Entity;
using history::Record;
using readings::cell_of;
using readings::figure_of;

Result<PanTest> pan_test_of(const Record& record) {
  PanTest test;
  test.id = PanTestId{record.id()};
  test.portion = record.reference<PortionId>(pan_test_fields::portion);
  test.panned_by = record.reference<PersonId>(pan_test_fields::panned_by);
  test.colours = record.optional_text(pan_test_fields::colours);
  test.black_sand = record.optional_text(pan_test_fields::black_sand);
  test.sulphides = record.optional_text(pan_test_fields::sulphides);
  test.remarks = record.optional_text(pan_test_fields::remarks);
  test.spoiled = record.optional_text(pan_test_fields::spoiled);
  test.excluded = record.optional_text(pan_test_fields::excluded);
  if (const auto at = record.optional_text(pan_test_fields::panned_at)) {
    PRILLBOOK_ASSIGN(test.panned_at, parse_iso(*at));
  }
  PRILLBOOK_ASSIGN(test.grind, figure_of(record, pan_test_fields::grind));
  PRILLBOOK_ASSIGN(test.largest_colour, figure_of(record, pan_test_fields::largest_colour));
  PRILLBOOK_ASSIGN(test.free_gold, figure_of(record, pan_test_fields::free_gold));
  PRILLBOOK_ASSIGN(test.magnetite, figure_of(record, pan_test_fields::magnetite));
  test.colours_coarse = record.optional_whole(pan_test_fields::colours_coarse);
  test.colours_middle = record.optional_whole(pan_test_fields::colours_middle);
  test.colours_fine = record.optional_whole(pan_test_fields::colours_fine);
  test.bead_by = record.optional_text(pan_test_fields::bead_by);
  test.mercury = record.optional_text(pan_test_fields::mercury);
  test.grind_from = record.reference<SieveAnalysisId>(pan_test_fields::grind_from);
  test.role = controls::role_named(record.text(pan_test_fields::role));
  test.duplicate_of = record.reference<PanTestId>(pan_test_fields::duplicate_of);
  return test;
}

Result<std::vector<PanLine>> pan_lines(store::Connection& connection, const store::Sql& statement, std::int64_t limit,
                                       std::int64_t offset) {
  std::vector<PanLine> list;
  PRILLBOOK_TRY(connection.rows(statement, {limit, offset}, [&](const store::Row& row) {
    list.push_back({PortionId{row.integer(0)}, PanTestId{row.integer(1)}, row.text(2), row.text(3), row.text(4)});
    return true;
  }));
  return list;
}

}  // namespace

Result<StartedPanTest> start_pan_test(history::ChangeSet& set, const NewPanTest& test) {
  PRILLBOOK_ASSIGN(const auto earlier, pan_tests_of(set.connection(), test.portion));
  if (!earlier.empty())
    return Error{ErrorCode::already_exists, "pan_test.portion_id", "this portion is panned already; cut another", {}};
  PRILLBOOK_ASSIGN(controls::Role role, controls::role_of_portion(set.connection(), test.portion));
  if (role == controls::Role::blank_flux) role = controls::Role::ordinary;  // nothing of it is panned
  PRILLBOOK_ASSIGN(const RecordId made,
                   set.make(Entity::pan_test, {{pan_test_fields::portion, cell_of(test.portion)},
                                               {pan_test_fields::panned_at, to_iso(test.panned_at.value_or(set.when()))},
                                               {pan_test_fields::panned_by, cell_of(test.panned_by)},
                                               {pan_test_fields::grind, cell_of(test.grind)},
                                               {pan_test_fields::role, cell_of(std::optional(std::string(role_name(role))))}}));
  PRILLBOOK_ASSIGN(const RecordId bead, set.make(Entity::bead, {{history::fields::bead::pan_test, made}}));
  return StartedPanTest{PanTestId{made}, BeadId{bead}};
}

Result<StartedPanTest> start_pan_test(history::Journal& journal, const NewPanTest& test) {
  return journal.record_for<StartedPanTest>("start pan test", [&](history::ChangeSet& set) { return start_pan_test(set, test); });
}

Result<PortionId> weigh_product(history::Journal& journal, PanTestId id, const std::string& purpose,
                                const readings::Reading& mass, PersonId by, const std::optional<std::string>& why) {
  if (purpose != "remainder" && purpose != "tail")
    return Error{ErrorCode::out_of_range, "portion.purpose", "a pan test leaves a remainder and a tail", {purpose}};
  store::Connection& connection = journal.connection();
  PRILLBOOK_ASSIGN(const PanTest test, pan_test(connection, id));
  PRILLBOOK_ASSIGN(const portions::Portion panned, portions::portion(connection, test.portion));
  PRILLBOOK_ASSIGN(const auto siblings, portions::portions_of(connection, panned.sample));
  for (const portions::Portion& portion : siblings) {
    if (portion.parent != test.portion || portion.purpose != purpose) continue;
    PRILLBOOK_TRY(portions::set_mass(journal, portion.id, mass, why));
    return portion.id;
  }
  return portions::cut(journal, {panned.sample, test.portion, purpose, mass, {}, by, {}});
}

Result<void> set_grind(history::Journal& journal, PanTestId id, const readings::Figure& grind, SieveAnalysisId from,
                       const std::optional<std::string>& why) {
  return journal.record("set grind", [&](history::ChangeSet& set) -> Result<void> {
    if (why) set.because(*why);
    PRILLBOOK_TRY(set.set(pan_test_fields::grind, id.value, cell_of(grind)));
    return set.set(pan_test_fields::grind_from, id.value, cell_of(from));
  });
}

Result<void> set_spoiled(history::Journal& journal, PanTestId id, const std::string& reason) {
  return readings::enter(journal, pan_test_fields::spoiled, id.value, cell_of(std::optional(reason)));
}

Result<PanTest> pan_test(store::Connection& connection, PanTestId id) {
  PRILLBOOK_ASSIGN(const Record record, history::load_record(connection, Entity::pan_test, id.value));
  return pan_test_of(record);
}

Result<std::vector<PanTest>> pan_tests_of(history::Source source, PortionId portion) {
  PRILLBOOK_ASSIGN(const auto records, history::load_referring(source, pan_test_fields::portion, portion.value));
  std::vector<PanTest> tests;
  for (const Record& record : records) {
    PRILLBOOK_ASSIGN(PanTest test, pan_test_of(record));
    tests.push_back(std::move(test));
  }
  return tests;
}

Result<std::vector<PanLine>> waiting_to_pan(store::Connection& connection, std::int64_t limit, std::int64_t offset) {
  return pan_lines(connection, sql::waiting_to_pan, limit, offset);
}

Result<std::int64_t> count_waiting_to_pan(store::Connection& connection) { return connection.integer(sql::count_waiting_to_pan); }

Result<std::vector<PanLine>> pan_tests_made(store::Connection& connection, std::int64_t limit, std::int64_t offset) {
  return pan_lines(connection, sql::pan_tests_made, limit, offset);
}

}  // namespace prillbook::gravity
