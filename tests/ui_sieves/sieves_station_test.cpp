// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/sieves/sieves_station.h"

#include <gmock/gmock.h>

#include <QtGui/QClipboard>
#include <QtWidgets/QLabel>

#include "core/units/units.h"
#include "tests/support/files.h"
#include "tests/support/sieve_bench.h"
#include "tests/support/window_hand.h"
#include "ui/kit/size_curve.h"
#include "ui/kit/waiting_list.h"

namespace prillbook::ui {
namespace {

using namespace testing_support;
using testing::HasSubstr;

struct Sieves : WithApplication, testing::Test, SieveBench {
  Desk desk{*connection, book};

  // As the window does.
  struct Shown {
    SievesStation station;
    explicit Shown(Sieves& bench) : station(bench.desk.session) {
      QObject::connect(&bench.desk.notifier, &Notifier::written, &station,
                       [this](const auto& written) { station.notebook_changed(written); });
      show(station);
      station.enter();
      settle();
    }
  };

  sieves::Analysis analysis_in_hand() { return record().sieve_analyses.back(); }
  static bool says(QWidget& root, const QString& words) {
    settle();
    for (const QLabel* label : root.findChildren<QLabel*>())
      if (label->isVisible() && label->text().contains(words)) return true;
    return false;
  }
};

TEST_F(Sieves, APortionWaitsAndOnePassDownTheStackMakesItsCurve) {
  cut("100 g", "sieve").value();
  Shown shown(*this);
  SievesStation& station = shown.station;
  EXPECT_EQ(SievesStation::place(desk.session).waiting(), 1);
  ASSERT_EQ(focused(), "Stack");
  type_and_enter("40, 60, 100 ASTM");
  settle();
  ASSERT_EQ(focused(), "On 425 µm");
  type_and_enter("10");
  EXPECT_EQ(focused(), "On 250 µm");
  type_and_enter("30,0");
  type_and_enter("29.9");
  EXPECT_EQ(focused(), "In the pan");
  type_and_enter("30");
  const auto held = analysis_in_hand();
  ASSERT_EQ(held.cuts.size(), 4u);
  EXPECT_DOUBLE_EQ(held.cuts[1].retained->mass().in(unit::gram), 30);
  EXPECT_EQ(SievesStation::place(desk.session).waiting(), 0);
  EXPECT_TRUE(says(station, "80 % passes"));
  EXPECT_TRUE(says(station, "0.10 % lost"));
}

TEST_F(Sieves, TheCurveIsDrawnWhileItIsTyped) {
  sieved(*cut("100 g", "sieve"), stack("s", "425, 250 µm"), {"", "", ""});
  Shown shown(*this);
  const auto* view = shown.station.findChild<CurveView*>();
  ASSERT_EQ(focused(), "On 425 µm");
  EXPECT_TRUE(view->picture().curves[0].points.empty());
  type("10");
  ASSERT_EQ(view->picture().curves[0].points.size(), 1u);
  EXPECT_NEAR(view->picture().curves[0].points[0].passing_pct, 90, 1e-9);
  EXPECT_TRUE(view->picture().curves[0].provisional);
  EXPECT_FALSE(analysis_in_hand().cuts[0].retained) << "nothing is written before Enter";
}

TEST_F(Sieves, AMeshNumberAloneIsAskedAndNothingIsLost) {
  cut("100 g", "sieve").value();
  Shown shown(*this);
  type_and_enter("10, 20");
  auto* line = field<LineField>(shown.station, "Stack");
  EXPECT_TRUE(line->refused());
  EXPECT_THAT(line->error_text().toStdString(), HasSubstr("2 mm in ASTM E11 or 1.7 mm in Tyler"));
  EXPECT_EQ(line->typed(), "10, 20");
  EXPECT_TRUE(sieves::stacks(*connection)->empty());
  type_and_enter(" Tyler");
  settle();
  ASSERT_EQ(focused(), "On 1.7 mm");
}

TEST_F(Sieves, OpeningsTwiceAreRefusedInPlace) {
  cut("100 g", "sieve").value();
  Shown shown(*this);
  type_and_enter("75 µm, 200 ASTM");
  EXPECT_THAT(field<LineField>(shown.station, "Stack")->error_text().toStdString(), HasSubstr("75 µm stands twice"));
}

TEST_F(Sieves, BadMassesStayAsTypedWithTheirReason) {
  sieved(*cut("100 g", "sieve"), stack("s", "425, 250 µm"), {"", "", ""});
  Shown shown(*this);
  const auto refused = [&](const QString& text, const char* reason) {
    enter_in(shown.station, "On 425 µm", text);
    const auto* line = field<LineField>(shown.station, "On 425 µm");
    EXPECT_TRUE(line->refused()) << text.toStdString();
    EXPECT_THAT(line->error_text().toStdString(), HasSubstr(reason));
    EXPECT_EQ(line->typed(), text);
    EXPECT_FALSE(analysis_in_hand().cuts[0].retained);
  };
  refused("-5", "outside what is possible");
  refused("5 µm", "no unit");
  refused("150 g", "100 g was sieved");
  refused("much", "not a number");
}

TEST_F(Sieves, ALineLeftOpenIsNotZero) {
  sieved(*cut("100 g", "sieve"), stack("s", "425, 250 µm"), {"10 g", "60 g", ""});
  Shown shown(*this);
  EXPECT_TRUE(says(shown.station, "Waits for the pan"));
  EXPECT_FALSE(says(shown.station, "P80"));
}

TEST_F(Sieves, AFindingStandsWhereItArose) {
  sieved(*cut("100 g", "sieve"), stack("s", "425, 250, 150 µm"), {"10 g", "30 g", "30 g", "29 g"});
  Shown shown(*this);
  shown.station.take_analysis(analysis_in_hand().id);
  EXPECT_TRUE(says(shown.station, "lost 1.00\u00A0% of the portion"));
}

TEST_F(Sieves, OtherCurvesAreLaidBesideIt) {
  const auto with = stack("s", "425, 250, 150 µm");
  sieved(*cut("100 g", "sieve"), with, {"10 g", "30 g", "30 g", "30 g"});
  sieved(*cut("100 g", "sieve"), with, {"1 g", "20 g", "29 g", "50 g"});
  Shown shown(*this);
  shown.station.take_analysis(record().sieve_analyses[0].id);
  const auto* view = shown.station.findChild<CurveView*>();
  EXPECT_EQ(view->picture().curves.size(), 1u);
  button(shown.station, "Other curves beside it")->click();
  settle();
  for (auto* flag : shown.station.findChildren<FlagField*>())
    if (flag->isVisible()) flag->editor()->setFocus();
  press(Qt::Key_Space);
  ASSERT_EQ(view->picture().curves.size(), 2u);
  EXPECT_EQ(view->picture().curves[1].label, "26-0001/2");
  enter_in(shown.station, "One more, by its number", "26-0009/1");
  EXPECT_TRUE(field<LineField>(shown.station, "One more, by its number")->refused());
}

TEST_F(Sieves, LawsStayFoldedUntilOpened) {
  sieved(*cut("100 g", "sieve"), stack("s", "425, 250, 150, 75 µm"), {"10 g", "30 g", "20 g", "20 g", "20 g"});
  Shown shown(*this);
  shown.station.take_analysis(analysis_in_hand().id);
  const auto* view = shown.station.findChild<CurveView*>();
  EXPECT_TRUE(view->picture().laws.empty());
  EXPECT_FALSE(says(shown.station, "Rosin"));
  button(shown.station, "Laws through the curve")->click();
  settle();
  EXPECT_EQ(view->picture().laws.size(), 2u);
  EXPECT_TRUE(says(shown.station, "r²"));
}

TEST_F(Sieves, PortionsAreMadeOfTheSizes) {
  sieved(*cut("100 g", "sieve"), stack("s", "250, 150 µm"), {"50 g", "20 g", "30 g"});
  Shown shown(*this);
  shown.station.take_analysis(analysis_in_hand().id);
  button(shown.station, "Gold by size")->click();
  settle();
  auto* make = button(shown.station, "Make portions of the sizes");
  ASSERT_NE(make, nullptr);
  make->click();
  EXPECT_EQ(record().portions.size(), 4u);
}

TEST_F(Sieves, TheCurveGoesToTheClipboardAndToAFile) {
  sieved(*cut("100 g", "sieve"), stack("s", "250, 150 µm"), {"10 g", "20 g", "70 g"});
  Shown shown(*this);
  shown.station.take_analysis(analysis_in_hand().id);
  QString news;
  QObject::connect(&shown.station, &Station::said, &shown.station, [&](const QString& words) { news = words; });
  button(shown.station, "Copy")->click();
  EXPECT_FALSE(QApplication::clipboard()->image().isNull());
  EXPECT_THAT(news.toStdString(), HasSubstr("clipboard"));
  desk.prompter.path = desk.folder.filePath("curve");
  button(shown.station, "as SVG")->click();
  EXPECT_THAT(file_text((desk.prompter.path + ".svg").toStdString()), HasSubstr("<svg"));
  EXPECT_THAT(news.toStdString(), HasSubstr("curve.svg"));
  button(shown.station, "Save as PNG")->click();
  EXPECT_THAT(file_text((desk.prompter.path + ".png").toStdString()), HasSubstr("PNG"));
  desk.prompter.path = desk.folder.filePath("no such folder/curve");
  button(shown.station, "as SVG")->click();
  EXPECT_THAT(news.toStdString(), HasSubstr("There is no folder for"));
}

TEST_F(Sieves, GrindsAreComparedInOneSentence) {
  sieved(*cut("100 g", "sieve"), stack("s", "425, 250, 150 µm"), {"10 g", "30 g", "30 g", "30 g"});
  panned("1 kg", "600 µm", "10 mg");
  panned("1 kg", "150 µm", "16 mg");
  fired(*cut("100 g", "fire"), "2 mg");
  Shown shown(*this);
  shown.station.take_analysis(analysis_in_hand().id);
  button(shown.station, "Recovery against P80")->click();
  settle();
  EXPECT_TRUE(says(shown.station, "From P80 600 µm to 150 µm the pan caught"));
  EXPECT_TRUE(says(shown.station, "which is beyond the uncertainty"));
}

TEST_F(Sieves, ASieveDueForInspectionIsSaidBeforeItIsUsed) {
  cut("100 g", "sieve").value();
  stack("gold", "60, 100 ASTM");
  const auto id = sieves::sieves(*connection)->front().id;
  ASSERT_TRUE(
      readings::enter(book, history::fields::sieve::inspect_by, id.value, std::string("2026-05-01T12:00:00.000+02:00")).ok());
  Shown shown(*this);
  EXPECT_TRUE(says(shown.station, "To be inspected before it is used: 250 µm (60 ASTM E11)"));
}

TEST_F(Sieves, WhatIsTakenBackLeavesTheHand) {
  cut("100 g", "sieve").value();
  Shown shown(*this);
  type_and_enter("250, 150 µm");
  settle();
  ASSERT_EQ(focused(), "On 250 µm");
  ASSERT_TRUE(book.undo().ok());
  settle();
  EXPECT_TRUE(in_sight(shown.station, "Stack"));
  EXPECT_FALSE(in_sight(shown.station, "On 250 µm"));
}

TEST_F(Sieves, HasAPlaceForAnalysesAlone) {
  const auto id = sieved(*cut("100 g", "sieve"), stack("s", "250 µm"), {"10 g", "90 g"});
  Shown shown(*this);
  EXPECT_TRUE(shown.station.show_record({history::Entity::sieve_analysis, id.value}));
  EXPECT_TRUE(shown.station.show_record({history::Entity::sieve_cut, analysis_in_hand().cuts[0].id.value}));
  EXPECT_FALSE(shown.station.show_record({history::Entity::sample, sample.value}));
  EXPECT_FALSE(shown.station.show_record({history::Entity::sieve_analysis, 99}));
}

}  // namespace
}  // namespace prillbook::ui
