// SPDX-License-Identifier: GPL-3.0-or-later
#include <QtWidgets/QLabel>
#include <QtWidgets/QLineEdit>

#include "tests/support/keys.h"
#include "ui/kit/fields.h"
#include "ui/kit/theme.h"

namespace prillbook::ui {
namespace {

using readings::Reading;
using testing::HasSubstr;
using testing_support::leave;
using testing_support::press;

struct Figures : testing::Test {
  ReadingField field{"Bead", {Measure::mass, "mg", DecimalMark::point}};
  std::vector<std::optional<Reading>> written;

  Figures() {
    field.on_commit([this](const std::optional<Reading>& reading) -> Result<void> {
      written.push_back(reading);
      return {};
    });
  }
  QString unit_shown() const {
    for (const QLabel* label : field.findChildren<QLabel*>())
      if (label->text() == "mg") return label->text();
    return {};
  }
};

TEST_F(Figures, BareNumberTakesTheUnitShown) {
  EXPECT_EQ(unit_shown(), "mg");
  field.type("22");
  EXPECT_EQ(unit_shown(), "mg");
  press(field.line(), Qt::Key_Return);
  ASSERT_EQ(written.size(), 1U);
  EXPECT_EQ(written[0]->typed, "22");
  EXPECT_EQ(written[0]->unit, "mg");
  EXPECT_DOUBLE_EQ(written[0]->value, 0.022);
}

TEST_F(Figures, HugeFieldHasALargerUnit) {
  field.set_huge(true);
  field.show();
  EXPECT_EQ(field.line()->fontInfo().pixelSize(), face(TextSize::weigh_room).pixelSize());
  for (const QLabel* label : field.findChildren<QLabel*>())
    if (label->text() == "mg") {
      EXPECT_EQ(label->fontInfo().pixelSize(), face(TextSize::large).pixelSize());
    }
}

TEST_F(Figures, TypedUnitStandsAlone) {
  field.type("0.022 g");
  EXPECT_EQ(unit_shown(), "");
  EXPECT_TRUE(field.commit());
  EXPECT_EQ(field.typed(), "0.022 g");
}

TEST_F(Figures, EmptyLineIsNotMeasured) {
  field.set_value(*readings::parse("22", {Measure::mass, "mg"}));
  field.type("");
  EXPECT_TRUE(field.commit());
  ASSERT_EQ(written.size(), 1U);
  EXPECT_EQ(written[0], std::nullopt);
}

// A figure once typed bare in g must not turn into mg when it is corrected in a field that expects mg.
TEST_F(Figures, OtherUnitIsCarriedAlong) {
  field.set_value(*readings::parse("0.022", {Measure::mass, "g"}));
  EXPECT_EQ(field.typed(), "0.022 g");
}

TEST_F(Figures, NonsenseAndWrongUnitStay) {
  for (const char* bad : {"abc", "22 furlong", "-3", "1e999", "\xEF\xBF\xBF"}) {
    field.type(bad);
    EXPECT_FALSE(field.commit()) << bad;
    EXPECT_TRUE(field.refused()) << bad;
    EXPECT_EQ(field.typed(), QString(bad));
  }
  EXPECT_TRUE(written.empty());
}

TEST_F(Figures, AmbiguousMarkIsAskedInPlace) {
  field.type("1,234");
  press(field.line(), Qt::Key_Return);
  EXPECT_TRUE(written.empty());
  EXPECT_FALSE(field.refused());
  EXPECT_THAT(field.question_text().toStdString(), testing::AllOf(HasSubstr("1.234"), HasSubstr("1234")));
  leave(field.line());
  EXPECT_TRUE(written.empty());
  press(field.line(), Qt::Key_D, Qt::NoModifier, "d");
  ASSERT_EQ(written.size(), 1U);
  EXPECT_DOUBLE_EQ(written[0]->value, 1.234e-3);
  EXPECT_EQ(written[0]->typed, "1,234");
  EXPECT_EQ(written[0]->mark, DecimalMark::comma);
  EXPECT_TRUE(written[0]->answer.has_value());
  EXPECT_EQ(field.question_text(), "");
  EXPECT_FALSE(field.pending());
}

TEST_F(Figures, AmbiguousMarkMeantAsThousands) {
  field.type("1,234 mg");
  press(field.line(), Qt::Key_Return);
  press(field.line(), Qt::Key_W, Qt::NoModifier, "w");
  ASSERT_EQ(written.size(), 1U);
  EXPECT_DOUBLE_EQ(written[0]->value, 1.234);
  // What is kept reads back as what was meant.
  const auto again = readings::decode(readings::encode(*written[0]), Measure::mass);
  ASSERT_TRUE(again.ok());
  EXPECT_EQ(*again, *written[0]);
}

TEST_F(Figures, OtherKeysTypeOnAndCloseTheQuestion) {
  field.type("1,234");
  press(field.line(), Qt::Key_Return);
  press(field.line(), Qt::Key_5, Qt::NoModifier, "5");
  EXPECT_EQ(field.typed(), "1,2345");
  EXPECT_EQ(field.question_text(), "");
}

struct Doubted : Figures {
  Doubted() {
    field.on_doubt([](const Reading& reading) -> std::optional<ReadingField::Doubt> {
      if (reading.value < 1) return std::nullopt;
      return ReadingField::Doubt{{{QLatin1Char('m'), QStringLiteral("22 mg")}}, {}};
    });
    field.type("22 g");
    press(field.line(), Qt::Key_Return);
  }
};

TEST_F(Doubted, OneKeyTakesTheAlternative) {
  EXPECT_TRUE(written.empty());
  EXPECT_THAT(field.question_text().toStdString(), HasSubstr("22 mg"));
  press(field.line(), Qt::Key_M, Qt::NoModifier, "m");
  ASSERT_EQ(written.size(), 1U);
  EXPECT_DOUBLE_EQ(written[0]->value, 0.022);
  EXPECT_TRUE(written[0]->answer.has_value());
  EXPECT_EQ(field.typed(), "22 mg");
}

TEST_F(Doubted, EnterKeepsWhatWasTyped) {
  press(field.line(), Qt::Key_Return);
  ASSERT_EQ(written.size(), 1U);
  EXPECT_DOUBLE_EQ(written[0]->value, 22);
  EXPECT_THAT(*written[0]->answer, HasSubstr("not 22"));
}

TEST_F(Doubted, LeavingAnswersNothing) {
  leave(field.line());
  EXPECT_TRUE(written.empty());
  EXPECT_FALSE(field.commit());
  EXPECT_EQ(field.typed(), "22 g");
}

TEST_F(Figures, TypingIsToldWithEveryKey) {
  std::vector<double> told;
  int nothing = 0;
  field.on_typing([&](const Reading* reading) { reading ? told.push_back(reading->value) : void(++nothing); });
  field.type("2");
  field.type("22");
  field.type("22 m");
  EXPECT_THAT(told, testing::ElementsAre(0.002, 0.022));
  EXPECT_EQ(nothing, 1);
}

struct Typed {
  const char* text;
  const char* iso;
};
class LocalTime : public testing::TestWithParam<Typed> {};

TEST_P(LocalTime, IsUnderstood) {
  const Instant now = *parse_iso("2026-05-04T09:00+02:00");
  const auto read = parse_local_time(GetParam().text, now);
  ASSERT_TRUE(read.ok()) << GetParam().text;
  EXPECT_EQ(to_iso(*read), std::string(GetParam().iso) + ":00.000+02:00") << GetParam().text;
}

INSTANTIATE_TEST_SUITE_P(AsPeopleType, LocalTime,
                         testing::Values(Typed{"9:30", "2026-05-04T09:30"}, Typed{"now", "2026-05-04T09:00"},
                                         Typed{"yesterday 16:00", "2026-05-03T16:00"},
                                         Typed{"2026-05-02 7:05", "2026-05-02T07:05"}, Typed{"2.5.2026 7:05", "2026-05-02T07:05"},
                                         Typed{"2.5. 7:05", "2026-05-02T07:05"}, Typed{"2 May 2026, 07:05", "2026-05-02T07:05"},
                                         Typed{"2 may", "2026-05-02T12:00"}, Typed{"today", "2026-05-04T12:00"}));

TEST(LocalTimes, NonsenseIsRefused) {
  const Instant now = *parse_iso("2026-05-04T09:00+02:00");
  for (const char* bad : {"", "soon", "25:00", "31.2.2026", "2026-13-01", "4 Foo 2026", "9:7", "9:30:"})
    EXPECT_FALSE(parse_local_time(bad, now).ok()) << bad;
}

// What the field shows after a commit reads back to the same minute.
TEST(LocalTimes, ShownTextReadsBack) {
  SteppingClock clock(*parse_iso("2026-05-04T09:00+02:00"));
  DateTimeField field("Arrived", clock);
  std::optional<Instant> written;
  field.on_commit([&](std::optional<Instant> when) -> Result<void> {
    written = when;
    return {};
  });
  field.type("3.5. 8:15");
  ASSERT_TRUE(field.commit());
  const auto again = parse_local_time(field.typed(), *parse_iso("2026-12-24T09:00+02:00"));
  ASSERT_TRUE(again.ok());
  EXPECT_EQ(again->utc_ms, written->utc_ms);
}

}  // namespace
}  // namespace prillbook::ui
