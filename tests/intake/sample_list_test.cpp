// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/intake/sample_list.h"

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <rapidcheck/gtest.h>

#include "core/history/fields.h"
#include "core/history/record.h"
#include "core/history/search_index.h"
#include "core/intake/statements.h"
#include "core/units/units.h"
#include "tests/support/files.h"
#include "tests/support/records.h"

namespace prillbook::intake {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing_support::file_text;
using testing_support::LabWithSample;

SampleList list_of(const std::string& text, ListContext context = {}, const ListOptions& options = {}) {
  auto list = SampleList::read(text, std::move(context), options);
  EXPECT_TRUE(list.ok()) << list.error().detail;
  return std::move(list).value();
}

std::vector<std::string> uses_of(const SampleList& list) {
  std::vector<std::string> uses;
  for (const ListColumn& column : list.columns())
    uses.push_back(std::string(list_field_name(column.use.field)) + (column.use.unit.empty() ? "" : " " + column.use.unit));
  return uses;
}

// "row.field code" of every refusal.
std::vector<std::string> refusals_of(const SampleList& list) {
  std::vector<std::string> all;
  for (std::size_t row = 0; row < list.rows(); ++row)
    for (const RowNote& note : list.notes(row))
      if (!note.warning) all.push_back(fmt::format("{}.{} {}", row, list_field_name(note.field), contract_name(note.error.code)));
  return all;
}

std::string broken(const std::string& name) {
  return file_text(std::string(PRILLBOOK_SOURCE_DIR) + "/tests/broken/lists/" + name);
}

TEST(Columns, AreKnownByTheirWords) {
  const std::vector<std::string> headings{"Client's mark", "Sample type",      "Location",     "Expected class", "Condition",
                                          "Weight (g)",    "mass_received_kg", "Moisture [%]", "Comments",       "Invoice"};
  const auto uses = match_columns(headings, {});
  EXPECT_THAT(uses, ElementsAre(ColumnUse{ListField::mark, ""}, ColumnUse{ListField::kind, ""}, ColumnUse{ListField::place, ""},
                                ColumnUse{ListField::expected, ""}, ColumnUse{ListField::condition, ""},
                                ColumnUse{ListField::mass_declared, "g"}, ColumnUse{ListField::mass_received, "kg"},
                                ColumnUse{ListField::moisture, "%"}, ColumnUse{ListField::remarks, ""}, ColumnUse{}));
}

TEST(Columns, AUnitStandsInTheHeadingInManyWays) {
  for (const auto& [heading, unit] : std::vector<std::pair<std::string, std::string>>{{"Mass (kg)", "kg"},
                                                                                      {"weight g", "g"},
                                                                                      {"Mass, lb", "lb"},
                                                                                      {"mass in g", "g"},
                                                                                      {"MASS_KG", "kg"},
                                                                                      {"Mass", "kg"},
                                                                                      {"Mass (stone)", "stone"}}) {
    const std::vector<std::string> headings{heading};
    EXPECT_THAT(match_columns(headings, {}), ElementsAre(ColumnUse{ListField::mass_declared, unit})) << heading;
  }
}

TEST(Columns, AFieldStandsInOneColumnAndTheBetterWordWins) {
  const std::vector<std::string> headings{"No", "Sample", "Client mark", "Mark"};
  const auto uses = match_columns(headings, {});
  EXPECT_EQ(uses[2].field, ListField::mark);
  EXPECT_EQ(std::count_if(uses.begin(), uses.end(), [](const ColumnUse& use) { return use.field == ListField::mark; }), 1);
}

TEST(SampleList, ReadsWhatAPersonWouldSend) {
  const auto list = list_of(file_text(PRILLBOOK_SOURCE_DIR "/sample-data/client-list.csv"));
  EXPECT_EQ(list.encoding(), tables::Encoding::windows_1252);
  EXPECT_EQ(list.delimiter(), ';');
  EXPECT_EQ(list.mark(), DecimalMark::comma);
  EXPECT_TRUE(list.has_heading());
  EXPECT_THAT(uses_of(list), ElementsAre("mark", "kind", "place", "expected", "mass_declared kg", "moisture %", "remarks"));
  EXPECT_THAT(refusals_of(list), IsEmpty());
  ASSERT_EQ(list.rows(), 10u);
  const auto first = *list.draft(0);
  EXPECT_EQ(first.mark, "HC-01");
  EXPECT_EQ(first.place, "Höllgraben, north wall");
  EXPECT_EQ(first.kind, "chip");
  EXPECT_EQ(first.mass_declared->typed, "4,250");
  EXPECT_DOUBLE_EQ(first.mass_declared->mass().in(unit::kilogram), 4.25);
  EXPECT_DOUBLE_EQ(first.moisture->share().in(unit::percent), 3.5);
  EXPECT_EQ(list.draft(3)->remarks, "visible gold; \"three colours\"");
  EXPECT_EQ(list.draft(2)->remarks, "loose blocks – not in place");
  EXPECT_DOUBLE_EQ(list.draft(5)->mass_declared->mass().in(unit::kilogram), 8) << "a unit in the cell goes before the column's";
  EXPECT_EQ(list.draft(6)->remarks, "=same as HC-06") << "a formula is text";
  EXPECT_EQ(list.draft(8)->remarks, "two bags;\r\none torn");
  EXPECT_DOUBLE_EQ(list.draft(9)->mass_declared->mass().in(unit::gram), 350);
  EXPECT_EQ(list.draft(9)->remarks, "price agreed: 40 €");
}

TEST(SampleList, EntersTheWholeListInOneGesture) {
  LabWithSample<> lab;
  auto context = context_of(*lab.connection, lab.consignment).value();
  const auto list = list_of(file_text(PRILLBOOK_SOURCE_DIR "/sample-data/client-list.csv"), context);
  int gestures = 0;
  lab.book.listen([&](const history::Written&) { ++gestures; });
  const auto ids = enter_list(lab.book, lab.consignment, list);
  ASSERT_TRUE(ids.ok()) << ids.error().detail;
  EXPECT_EQ(ids->size(), 10u);
  EXPECT_EQ(gestures, 1);
  const auto samples = *custody::samples_of(*lab.connection, lab.consignment);
  ASSERT_EQ(samples.size(), 11u);
  EXPECT_EQ(samples[1].number, "26-0002");
  EXPECT_EQ(samples[10].number, "26-0011");
  EXPECT_EQ(samples[7].remarks, "=same as HC-06") << "kept as it came";
  ASSERT_TRUE(lab.book.undo().ok());
  EXPECT_EQ(custody::samples_of(*lab.connection, lab.consignment)->size(), 1u);
  EXPECT_THAT(*remembered_matches(*lab.connection, lab.client), IsEmpty());
  ASSERT_TRUE(lab.book.redo().ok());
  EXPECT_EQ(custody::samples_of(*lab.connection, lab.consignment)->size(), 11u);
  const SampleId next = lab.log_sample("one more", "1 kg");
  EXPECT_EQ(custody::sample(*lab.connection, next)->number, "26-0012");
}

TEST(SampleList, ShowsItsFirstRowsBeforeAllAreRead) {
  LabWithSample<> lab;
  const std::string text = "mark;mass (kg)\nA;1,5\nB;2\nC;x\n";
  auto list = SampleList::read(text, {}, {}, 3);
  ASSERT_TRUE(list.ok());
  EXPECT_FALSE(list->is_whole());
  EXPECT_EQ(list->rows(), 2u);
  EXPECT_EQ(list->refused_rows(), 0u);
  EXPECT_EQ(enter_list(lab.book, lab.consignment, *list).error().code, ErrorCode::inconsistent) << "a part is not entered";
  ASSERT_TRUE(list->read_rest().ok());
  EXPECT_TRUE(list->is_whole());
  EXPECT_EQ(list->rows(), 3u);
  EXPECT_EQ(list->refused_rows(), 1u);
  EXPECT_TRUE(SampleList::read(text, {}, {}, 100)->is_whole());
}

TEST(SampleList, IsTheSameAsLoggingOneByOne) {
  LabWithSample<> lab;
  const auto list = list_of("mark;kind;mass (kg)\nA;chip;1,5\nB;grab;\n");
  ASSERT_TRUE(enter_list(lab.book, lab.consignment, list).ok());
  LabWithSample<> other;
  for (std::size_t row = 0; row < list.rows(); ++row) {
    auto draft = *list.draft(row);
    draft.consignment = other.consignment;
    ASSERT_TRUE(custody::log_sample(other.book, draft).ok());
  }
  const auto one = *history::load_all(*lab.connection, history::Entity::sample);
  const auto two = *history::load_all(*other.connection, history::Entity::sample);
  ASSERT_EQ(one.size(), two.size());
  for (std::size_t i = 0; i < one.size(); ++i)
    for (const history::Field* field : history::fields::sample::all)
      EXPECT_EQ(one[i].value(*field), two[i].value(*field)) << field->column;
}

TEST(SampleList, OneRefusedRowKeepsAllOut) {
  LabWithSample<> lab;
  const auto list = list_of("mark,mass (kg)\nA,1.5\nB,x\nC,2.5\n");
  const auto outcome = enter_list(lab.book, lab.consignment, list);
  ASSERT_FALSE(outcome.ok());
  EXPECT_EQ(outcome.error().field, "rows[1].mass_declared");
  EXPECT_EQ(outcome.error().code, ErrorCode::not_a_number);
  EXPECT_THAT(outcome.error().detail, HasSubstr("line 3"));
  EXPECT_EQ(custody::samples_of(*lab.connection, lab.consignment)->size(), 1u);
  EXPECT_THAT(*remembered_matches(*lab.connection, lab.client), IsEmpty());
}

TEST(SampleList, TheNextListOfThisClientMatchesByItself) {
  LabWithSample<> lab;
  auto list = list_of("Probe;Fundort;Gewicht\nA;north;1,5\n", *context_of(*lab.connection, lab.consignment), {{}, {}, {}, true});
  EXPECT_THAT(uses_of(list), ElementsAre("none", "none", "none"));
  list.use_column(0, {ListField::mark, ""});
  list.use_column(1, {ListField::place, ""});
  list.use_column(2, {ListField::mass_declared, "g"});
  ASSERT_TRUE(enter_list(lab.book, lab.consignment, list).ok());
  const std::string next = "GEWICHT;Probe;Fundort\n2,5;B;south\n";
  EXPECT_THAT(uses_of(list_of(next, *context_of(*lab.connection, lab.consignment))),
              ElementsAre("mass_declared g", "mark", "place"));
  const ClientId other = *lab::add_client(lab.book, "Somebody else");
  EXPECT_THAT(uses_of(list_of(next, *context_for(*lab.connection, other), {{}, {}, {}, true})),
              ElementsAre("none", "none", "none"));
  auto again = list_of(next, *context_of(*lab.connection, lab.consignment));
  again.use_column(0, {ListField::mass_received, "kg"});
  ASSERT_TRUE(enter_list(lab.book, lab.consignment, again).ok());
  EXPECT_THAT(uses_of(list_of(next, *context_of(*lab.connection, lab.consignment))),
              ElementsAre("mass_received kg", "mark", "place"));
}

TEST(SampleList, AsksForTheDecimalMarkWhereNothingSettlesIt) {
  auto list = list_of("mark;mass (kg)\nA;1,234\nB;12\n");
  EXPECT_TRUE(list.mark_is_open());
  EXPECT_THAT(refusals_of(list), ElementsAre("0.mass_declared ambiguous"));
  list.say_mark(DecimalMark::comma);
  EXPECT_DOUBLE_EQ(list.draft(0)->mass_declared->mass().in(unit::kilogram), 1.234);
  list.say_mark(DecimalMark::point);
  EXPECT_THAT(refusals_of(list), ElementsAre("0.mass_declared ambiguous")) << "by a point 1,234 may still be a slip";
}

TEST(SampleList, ACorrectedCellIsReadAgainAndStaysCorrected) {
  auto list = list_of("mark,mass (kg),kind\nA,1.x,chip\n,2,grab\nC,3,pebble\n");
  EXPECT_THAT(refusals_of(list), ElementsAre("0.mass_declared out_of_range", "1.mark missing_key", "2.kind out_of_range"));
  EXPECT_EQ(list.refused_rows(), 3u);
  EXPECT_EQ(list.next_refused(1), 1u);
  list.set_cell(0, 1, "1.5");
  list.set_cell(1, 0, "B");
  list.set_cell(2, 2, "Grab");
  EXPECT_EQ(list.refused_rows(), 0u);
  EXPECT_EQ(list.next_refused(0), list.rows());
  ASSERT_TRUE(list.read_as({tables::Encoding::windows_1252, {}, {}, {}}).ok());
  EXPECT_EQ(list.cell(0, 1), "1.5");
  EXPECT_EQ(list.draft(2)->kind, "grab");
}

TEST(SampleList, ARefusedReadingLeavesTheListAsItWas) {
  auto list = list_of("mark|\"place\nA|x\n", {}, {{}, ',', {}, {}});
  const auto outcome = list.read_as({{}, '|', {}, {}});
  ASSERT_FALSE(outcome.ok());
  EXPECT_EQ(outcome.error().field, "quote");
  EXPECT_EQ(list.delimiter(), ',');
  EXPECT_EQ(list.cell(0, 0), "mark|\"place");
}

TEST(SampleList, ARowWithoutAHeadingIsARow) {
  auto list = list_of("A\tnorth\nB\tsouth\n");
  EXPECT_FALSE(list.has_heading());
  EXPECT_EQ(list.rows(), 2u);
  list.use_column(0, {ListField::mark, ""});
  EXPECT_EQ(list.refused_rows(), 0u);
  list.say_heading(true);
  EXPECT_EQ(list.rows(), 1u);
  list.say_heading(false);
  EXPECT_EQ(list.rows(), 2u);
}

struct BrokenList {
  const char* file;
  std::vector<std::string> refusals;  // or one text that names the field of the file's own fault
};
class Broken : public testing::TestWithParam<BrokenList> {};

TEST_P(Broken, IsToldInPlace) {
  const auto list = SampleList::read(broken(GetParam().file), {});
  if (!list.ok()) {
    EXPECT_THAT(GetParam().refusals, ElementsAre(list.error().field)) << list.error().detail;
    return;
  }
  EXPECT_EQ(refusals_of(*list), GetParam().refusals);
}

INSTANTIATE_TEST_SUITE_P(
    Lists, Broken,
    testing::Values(BrokenList{"quote-never-closed.csv", {"quote"}}, BrokenList{"zero-bytes.csv", {"nul"}},
                    BrokenList{"empty.csv", {"rows"}}, BrokenList{"blank-lines.csv", {"rows"}},
                    BrokenList{"heading-only.csv", {}}, BrokenList{"utf16-odd.csv", {"1.mark wrong_type"}},
                    BrokenList{"utf16-lone-half.csv", {"0.mark wrong_type"}},
                    BrokenList{"mixed-delimiters.csv", {"1.none inconsistent"}},
                    BrokenList{"mixed-marks.csv", {"2.mass_declared ambiguous"}},
                    BrokenList{"ragged.csv", {"1.none inconsistent"}}, BrokenList{"overlong-utf8.csv", {}},
                    BrokenList{"undefined-1252.csv", {"0.place wrong_type"}}, BrokenList{"not-a-list.csv", {"nul"}},
                    BrokenList{"formulas.csv", {"1.mass_declared wrong_type"}}, BrokenList{"twice.csv", {}},
                    BrokenList{"no-mark.csv", {"0.mark missing_key"}}, BrokenList{"quotes-inside.csv", {}},
                    BrokenList{"letters-after-quote.csv", {"after_quote"}},
                    BrokenList{"bad-figures.csv",
                               {"0.mass_declared out_of_range", "1.mass_declared out_of_range", "1.moisture out_of_range",
                                "2.mass_declared not_finite", "2.moisture wrong_type", "3.mass_declared out_of_range",
                                "3.moisture out_of_range", "4.mass_declared wrong_type", "4.moisture wrong_type"}}));

TEST(SampleList, AMarkThatOccursTwiceIsSaidAndCanBeEntered) {
  LabWithSample<> lab;
  const auto list = list_of("mark\nA\na \nlarch ADIT n\n", *context_of(*lab.connection, lab.consignment));
  ASSERT_EQ(list.rows(), 3u);
  EXPECT_EQ(list.notes(0).size(), 0u);
  ASSERT_EQ(list.notes(1).size(), 1u);
  EXPECT_TRUE(list.notes(1)[0].warning);
  EXPECT_EQ(list.notes(1)[0].error.arguments[1], "2") << "the line of the first";
  EXPECT_EQ(list.notes(2)[0].error.arguments[1], "0") << "in the consignment already";
  EXPECT_EQ(list.refused_rows(), 0u);
  EXPECT_TRUE(enter_list(lab.book, lab.consignment, list).ok());
}

TEST(SampleList, ShortRowsAreSaidAndLongOnesRefused) {
  const auto list = list_of(broken("ragged.csv"));
  ASSERT_EQ(list.notes(0).size(), 1u);
  EXPECT_TRUE(list.notes(0)[0].warning);
  EXPECT_EQ(list.notes(1)[0].error.arguments, (std::vector<std::string>{"4", "3"}));
}

TEST(SampleList, AnUnknownUnitOfAColumnIsRefusedAtEveryBareNumber) {
  const auto list = list_of("mark,mass (stone)\nA,1\nB,2 kg\n");
  EXPECT_THAT(refusals_of(list), ElementsAre("0.mass_declared out_of_range"));
}

// Bytes as they may come: never anything but a list or a refusal, and what is not refused is entered.
RC_GTEST_PROP(SampleList, AnyBytesAreAListOrARefusal, ()) {
  auto bytes = *rc::gen::container<std::string>(rc::gen::weightedOneOf<char>(
      {{4, rc::gen::element('"', ',', ';', '\t', '\n', '1', '.', 'A')}, {2, rc::gen::arbitrary<char>()}}));
  if (*rc::gen::arbitrary<bool>()) bytes = "mark,mass (kg),kind\n" + bytes;
  auto list = SampleList::read(bytes, {});
  if (!list.ok()) return;
  for (std::size_t row = 0; row < list->rows(); ++row) RC_ASSERT(list->draft(row).ok() == !list->refused(row));
  LabWithSample<> lab;
  const auto ids = enter_list(lab.book, lab.consignment, *list);
  RC_ASSERT(ids.ok() == (list->refused_rows() == 0));
}

// Cells are corrected in any order: the notes are those of a list read with these cells.
RC_GTEST_PROP(SampleList, NotesFollowTheCells, ()) {
  auto list = list_of("mark,mass (kg),kind\nA,1.5,chip\nB,2.5,grab\nC,3.5,dump\n");
  const auto edits = *rc::gen::container<std::vector<std::tuple<int, int, std::string>>>(
      rc::gen::tuple(rc::gen::inRange(0, 3), rc::gen::inRange(0, 3),
                     rc::gen::element<std::string>("A", "B", "", "1,5", "1.5", "1,234", "x", "chip", "grab")));
  for (const auto& [row, column, text] : edits) list.set_cell(std::size_t(row), std::size_t(column), text);
  std::string whole = "mark,mass (kg),kind\n";
  for (std::size_t row = 0; row < 3; ++row)
    whole += fmt::format("\"{}\",\"{}\",\"{}\"\n", list.cell(row, 0), list.cell(row, 1), list.cell(row, 2));
  std::size_t blank = 0;
  for (std::size_t row = 0; row < 3; ++row)
    blank += list.cell(row, 0).empty() && list.cell(row, 1).empty() && list.cell(row, 2).empty();
  if (blank > 0) return;
  const auto fresh = list_of(whole);
  RC_ASSERT(refusals_of(list) == refusals_of(fresh));
  RC_ASSERT(list.refused_rows() == fresh.refused_rows());
}

TEST(IntakeStatements, AllCompile) {
  const auto connection = store::Connection::in_memory().value();
  for (const store::Sql* statement : sql::all) EXPECT_TRUE(connection->prepare_only(*statement).ok()) << statement->name;
}

}  // namespace
}  // namespace prillbook::intake
