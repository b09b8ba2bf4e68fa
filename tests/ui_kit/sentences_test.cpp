// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/kit/sentences.h"

#include <set>

#include "ui/kit/figures.h"

namespace prillbook::ui {
namespace {

constexpr int last_code = int(ErrorCode::cancelled);

TEST(Sentences, EveryCodeHasItsOwn) {
  std::set<std::string> all;
  for (int code = 0; code <= last_code; ++code) {
    const std::string bare = to_core(sentence({ErrorCode(code), "", "detail", {}}));
    EXPECT_FALSE(bare.empty());
    EXPECT_EQ(bare.find('%'), std::string::npos) << bare;
    EXPECT_EQ(bare.find("no name"), std::string::npos) << "code " << code;
    EXPECT_TRUE(all.insert(bare).second) << bare;
  }
}

TEST(Sentences, NameWhatWasTyped) {
  EXPECT_THAT(to_core(sentence({ErrorCode::not_a_number, "", "", {"22,x"}})), testing::HasSubstr("22,x"));
  EXPECT_THAT(to_core(sentence({ErrorCode::unknown_unit, "", "", {"mgg"}})), testing::HasSubstr("mgg"));
  const std::string overdrawn = to_core(sentence({ErrorCode::overdrawn, "", "", {"600 g", "500 g"}}));
  EXPECT_THAT(overdrawn, testing::AllOf(testing::HasSubstr("600 g"), testing::HasSubstr("500 g")));
}

// SQLite reports a full disk as a failed write where it is the journal that does not fit: the two are one code.
TEST(Sentences, FiguresDoNotBreakAcrossLines) {
  const QString nbsp(QChar::Nbsp);
  EXPECT_EQ(unbroken(QStringLiteral("The pan caught 13.8 ± 2.2 g/t of 15 g gold, 12 grains of 3 sizes.")),
            QStringLiteral("The pan caught 13.8_±_2.2_g/t of 15_g gold, 12 grains of 3 sizes.").replace(QLatin1Char('_'), nbsp));
}

TEST(Sentences, CallNoDiskFullThatMayHaveFailed) {
  EXPECT_THAT(to_core(sentence({ErrorCode::disk_full, "", "", {}})), testing::HasSubstr("or writing to it failed"));
}

TEST(Sentences, SayWhatStandsInTheNotebookAllTheSame) {
  EXPECT_THAT(to_core(sentence({ErrorCode::disk_full, "commit_done", "", {}})), testing::HasSubstr("It is written, but"));
}

TEST(Sentences, LeaveMarksInArgumentsAlone) {
  EXPECT_THAT(to_core(sentence({ErrorCode::overdrawn, "", "", {"%2", "x"}})), testing::HasSubstr("%2 is more"));
}

TEST(WrittenFigures, AsTypedKeepsMarkAndUnit) {
  const auto shown = [](const char* typed, const char* unit) {
    return text(as_typed(*readings::parse(typed, {Measure::mass, unit})));
  };
  EXPECT_EQ(shown("0,022 g", "mg"), QString("0,022\u202Fg"));
  EXPECT_EQ(shown("22", "mg"), QString("22\u202Fmg"));
  EXPECT_EQ(shown("<0.01 mg", "g"), QString("<0.01\u202Fmg"));
  EXPECT_EQ(shown("none", "g"), "none");
  EXPECT_FALSE(as_typed(std::nullopt).measured());
}

TEST(WrittenFigures, IntervalInTheLabsMark) {
  EXPECT_EQ(text(interval("16.5", "0.9", "g/t", DecimalMark::point)), QString("16.5 ± 0.9\u202Fg/t"));
  EXPECT_EQ(text(interval("16.5", "0.9", "g/t", DecimalMark::comma)), QString("16,5 ± 0,9\u202Fg/t"));
  EXPECT_EQ(text(figure("-0.5", "g", DecimalMark::point)), QString("\u22120.5\u202Fg"));
}

TEST(WrittenFigures, TimesAreTheInstantsOwn) {
  const Instant when = *parse_iso("2026-05-04T23:30+02:00");
  EXPECT_EQ(date_time_text(when), "4 May 2026, 23:30");
}

}  // namespace
}  // namespace prillbook::ui
