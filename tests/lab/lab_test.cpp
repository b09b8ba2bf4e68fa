// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/lab/lab.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <iterator>

#include "core/lab/numbering.h"
#include "core/lab/settings.h"
#include "tests/support/notebook.h"

namespace prillbook::lab {
namespace {

using testing_support::MemoryNotebook;

TEST(Numbering, CountsOnWithinTheYearAndStartsAgainInTheNext) {
  const Instant in_26 = *parse_iso("2026-12-31T10:00+01:00"), in_27 = *parse_iso("2027-01-01T00:30+01:00");
  EXPECT_EQ(next_number("{yy}-{nnnn}", in_26, ""), "26-0001");
  EXPECT_EQ(next_number("{yy}-{nnnn}", in_26, "26-0041"), "26-0042");
  EXPECT_EQ(next_number("{yy}-{nnnn}", in_26, "26-9999"), "26-10000");
  EXPECT_EQ(next_number("{yy}-{nnnn}", in_27, ""), "27-0001") << "the year is the local one";
  EXPECT_EQ(next_number("LAB{yyyy}/{nn}", in_26, ""), "LAB2026/01");
}

TEST(Numbering, RefusesPatternsThatCouldRepeatANumber) {
  for (const char* pattern : {"", "26-", "{yy}", "{nn}{yy}", "{nn}-{nn}", "{yy}-{nnnnnnnnnn}", "a*{nn}"})
    EXPECT_FALSE(is_number_pattern(pattern)) << pattern;
  EXPECT_TRUE(is_number_pattern("{nnnnn}"));
}

TEST(People, InitialsAreUniqueAndFoundWhateverTheirCase) {
  MemoryNotebook notebook;
  ASSERT_TRUE(add_person(*notebook.journal, "HM", "Hanna Moss").ok());
  EXPECT_EQ(add_person(*notebook.journal, "HM").error().code, ErrorCode::already_exists);
  EXPECT_EQ(add_person(*notebook.journal, "  ").error().code, ErrorCode::missing_key);
  EXPECT_EQ(person_by_initials(*notebook.connection, "hm")->name, "Hanna Moss");
  EXPECT_EQ(person_by_initials(*notebook.connection, "xx").error().code, ErrorCode::not_found);
}

TEST(Clients, TwoOfOneNameAreAmbiguous) {
  MemoryNotebook notebook;
  ASSERT_TRUE(add_client(*notebook.journal, "Fern").ok());
  EXPECT_EQ(client_by_name(*notebook.connection, "Fern")->name, "Fern");
  ASSERT_TRUE(add_client(*notebook.journal, "Fern").ok());
  EXPECT_EQ(client_by_name(*notebook.connection, "Fern").error().code, ErrorCode::ambiguous);
}

TEST(Settings, DefaultsUntilSetAndBackAgain) {
  MemoryNotebook notebook;
  EXPECT_EQ(settings(*notebook.connection)->decimal_mark, DecimalMark::point);
  ASSERT_TRUE(set_setting(*notebook.journal, "decimal_mark", ",").ok());
  EXPECT_EQ(settings(*notebook.connection)->decimal_mark, DecimalMark::comma);
  ASSERT_TRUE(set_setting(*notebook.journal, "decimal_mark", "").ok());
  EXPECT_EQ(settings(*notebook.connection)->decimal_mark, DecimalMark::point);
}

TEST(Settings, TheValueInForceIsTextThatCanBeSetAgain) {
  MemoryNotebook notebook;
  const Settings held = *settings(*notebook.connection);
  for (const SettingSpec& spec : setting_specs()) {
    const std::string text = setting_text(held, spec.name);
    EXPECT_TRUE(set_setting(*notebook.journal, spec.name, text).ok()) << spec.name << ": " << text;
  }
  ASSERT_TRUE(set_setting(*notebook.journal, "receiving.short_mass_limit_pct", "2.5").ok());
  EXPECT_EQ(setting_text(*settings(*notebook.connection), "receiving.short_mass_limit_pct"), "2.5");
  EXPECT_EQ(setting_text(held, "colour"), "");
}

TEST(Settings, RefusesWhatItCanNotTake) {
  MemoryNotebook notebook;
  EXPECT_EQ(set_setting(*notebook.journal, "colour", "red").error().code, ErrorCode::unknown_key);
  EXPECT_EQ(set_setting(*notebook.journal, "decimal_mark", ";").error().code, ErrorCode::out_of_range);
  EXPECT_EQ(set_setting(*notebook.journal, "sample.number_pattern", "{nn}x").error().code, ErrorCode::out_of_range);
  EXPECT_EQ(set_setting(*notebook.journal, "receiving.short_mass_limit_pct", "-1").error().code, ErrorCode::out_of_range);
  EXPECT_EQ(set_setting(*notebook.journal, "preparation.sampling_exponent", "3.5").error().code, ErrorCode::out_of_range);
}

TEST(Settings, TheDocumentListsThemAll) {
  std::ifstream file(std::string(PRILLBOOK_SOURCE_DIR) + "/docs/settings.md");
  const std::string document((std::istreambuf_iterator<char>(file)), {});
  for (const SettingSpec& spec : setting_specs()) {
    const std::string row = "| `" + std::string(spec.name) + "` |";
    EXPECT_NE(document.find(row), std::string::npos) << row;
  }
  EXPECT_EQ(std::size_t(std::count(document.begin(), document.end(), '\n')), setting_specs().size() + 6);
}

}  // namespace
}  // namespace prillbook::lab
