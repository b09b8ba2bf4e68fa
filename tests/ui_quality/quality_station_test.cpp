// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/quality/quality_station.h"

#include <gmock/gmock.h>

#include <QtWidgets/QLabel>

#include "core/controls/insertion.h"
#include "core/exchange/records.h"
#include "core/fire/runs.h"
#include "core/history/fields.h"
#include "core/lab/settings.h"
#include "core/milling/machines.h"
#include "core/units/units.h"
#include "tests/support/files.h"
#include "tests/support/quality_bench.h"
#include "tests/support/window_hand.h"
#include "ui/kit/waiting_list.h"
#include "ui/quality/control_picture.h"
#include "ui/quality/pairs_picture.h"
#include "ui/quality/row_list.h"

namespace prillbook::ui {
namespace {

using namespace testing_support;
using testing_support::show;

// As the window does.
struct ShownStation {
  QualityStation station;
  explicit ShownStation(Desk& desk) : station(desk.session) {
    QObject::connect(&desk.notifier, &Notifier::written, &station,
                     [this](const auto& written) { station.notebook_changed(written); });
    show(station);
    station.enter();
    settle();
  }
  bool says(const QString& words) {
    settle();
    for (const QLabel* label : station.findChildren<QLabel*>())
      if (label->isVisible() && label->text().contains(words)) return true;
    return false;
  }
  std::vector<WaitingRow> rows() {
    const auto lists = station.findChildren<WaitingList*>();
    const auto list = *std::find_if(lists.begin(), lists.end(), [](auto* one) { return !qobject_cast<RowList*>(one); });
    std::vector<WaitingRow> all;
    for (int i = 0; i < list->rows().rowCount(); ++i) all.push_back(*list->rows().row(list->rows().index(i)));
    return all;
  }
  QString controls() {
    QStringList words;
    for (RowList* list : station.findChildren<RowList*>())
      for (int i = 0; list->isVisible() && i < list->rows().rowCount(); ++i) {
        const WaitingRow* row = list->rows().row(list->rows().index(i));
        words << row->number + QLatin1Char(' ') + row->title + QLatin1Char(' ') + row->words;
      }
    return words.join(QLatin1Char('\n'));
  }
};

struct QualityStationTest : WithApplication, testing::Test, QualityBench {
  Desk desk{*connection, book};
  FurnaceRunId run = *fire::start_run(book, {"fusion 1", "fusion", person});
};

TEST_F(QualityStationTest, AnEmptyLabIsTaughtAndMakesItsFirstMaterial) {
  ShownStation shown(desk);
  EXPECT_TRUE(shown.says("Nothing controls the furnace yet"));
  EXPECT_EQ(QualityStation::place(desk.session).waiting(), 0);
  ASSERT_EQ(focused(), "Name on its label");
  type_and_enter("quarry quartz");
  ASSERT_EQ(focused(), "It is");
  press(Qt::Key_B);
  settle();
  const auto made = *controls::materials(*connection);
  ASSERT_EQ(made.size(), 1u);
  EXPECT_EQ(made[0].kind, "blank_rock");
  EXPECT_TRUE(shown.says("quarry quartz"));
  ASSERT_EQ(focused(), "Weigh a charge of it");
  enter_in(shown.station, "Stock received", "5 kg");
  enter_in(shown.station, "Weigh a charge of it", "50,00");
  EXPECT_TRUE(shown.says("4.95")) << "the portion waits at the furnace";
  EXPECT_EQ(portions::portions_of(*connection, made[0].stock)->at(0).purpose, "fire");
}

TEST_F(QualityStationTest, WrongFiguresAreSaidInPlaceAndNothingIsWritten) {
  const ControlMaterialId quartz = add_material("quartz", "blank_rock", "100 g");
  ShownStation shown(desk);
  shown.station.take(QualityStation::Part::material, quartz.value);
  for (const char* wrong : {"200 g", "50 furlongs", "much"}) {
    enter_in(shown.station, "Weigh a charge of it", wrong);
    EXPECT_TRUE(field<LineField>(shown.station, "Weigh a charge of it")->pending()) << wrong;
  }
  EXPECT_TRUE(portions::portions_of(*connection, controls::material(*connection, quartz)->stock)->empty());
}

TEST_F(QualityStationTest, AMaterialNeedsANameAndOneOfItsOwn) {
  add_material("quartz", "blank_rock");
  ShownStation shown(desk);
  shown.station.take(QualityStation::Part::due);
  field<Field>(shown.station, "It is")->setFocus();
  press(Qt::Key_B);
  EXPECT_EQ(controls::materials(*connection)->size(), 1u) << "without a name";
  enter_in(shown.station, "Name on its label", "quartz");
  field<Field>(shown.station, "It is")->setFocus();
  press(Qt::Key_B);
  EXPECT_EQ(controls::materials(*connection)->size(), 1u) << "the name is taken";
}

TEST_F(QualityStationTest, ALoadIsDecidedOnByKeyboard) {
  gold_of(of_stock(add_material("quartz", "blank_rock"), "50 g", run), "0.012 mg");
  charge("30 g", run);
  ShownStation shown(desk);
  EXPECT_EQ(QualityStation::place(desk.session).waiting(), 1);
  EXPECT_EQ(shown.rows().at(2).number, "fusion 1");
  EXPECT_EQ(shown.rows().at(2).urgency, Urgency::now);
  EXPECT_TRUE(shown.controls().contains("outside")) << shown.controls().toStdString();
  EXPECT_TRUE(shown.says("outside, to be decided"));
  EXPECT_TRUE(shown.says("Charges of samples in it: 26-0001/1."));
  ASSERT_EQ(focused(), "Accept");
  press(Qt::Key_Return);
  ASSERT_EQ(focused(), "Why is it accepted although a control is outside?");
  press(Qt::Key_Escape);
  EXPECT_FALSE(controls::standing_decision(*connection, run)->has_value()) << "Escape leaves everything as it was";
  ASSERT_EQ(focused(), "Accept");
  press(Qt::Key_Return);
  type_and_enter("the samples hold much more");
  EXPECT_EQ((*controls::standing_decision(*connection, run))->decision, "accepted");
  EXPECT_EQ((*controls::standing_decision(*connection, run))->reason, "the samples hold much more");
  EXPECT_TRUE(shown.says("accepted by HM: the samples hold much more"));
  EXPECT_EQ(QualityStation::place(desk.session).waiting(), 0);
}

TEST_F(QualityStationTest, WhatSomebodyChoseStaysInHand) {
  gold_of(of_stock(add_material("quartz", "blank_rock"), "50 g", run), "0.012 mg");
  ShownStation shown(desk);
  shown.station.take(QualityStation::Part::due);
  shown.station.enter();
  EXPECT_EQ(focused(), "Name on its label") << "the load outside comes first once, not always";
}

TEST_F(QualityStationTest, HoldingAsksWhy) {
  gold_of(of_stock(add_material("quartz", "blank_rock"), "50 g", run), "0.002 mg");
  ShownStation shown(desk);
  shown.station.take(QualityStation::Part::load, run.value);
  button(shown.station, "Hold…")->click();
  ASSERT_EQ(focused(), "Why are its results held back?");
  type_and_enter("slag kept its lead");
  EXPECT_EQ((*controls::standing_decision(*connection, run))->decision, "held");
  EXPECT_TRUE(shown.says("Their summaries are held back."));
}

TEST_F(QualityStationTest, TheChartShowsResultsRulesAndBias) {
  const ControlMaterialId pulp = reference("5.00 g/t", "0.20 g/t", "0.12 g/t", "expanded");
  for (const char* gold : {"0.150 mg", "0.151 mg", "0.171 mg"}) gold_of(of_stock(pulp, "30 g", run), gold);
  ShownStation shown(desk);
  shown.station.take(QualityStation::Part::material, pulp.value);
  auto* picture = shown.station.findChild<ControlPicture*>();
  EXPECT_EQ(picture->points_drawn(), 3);
  EXPECT_TRUE(picture->accessibleName().contains("1-3s"));
  EXPECT_TRUE(shown.says("The newest result breaks 1-3s: beyond 3 s."));
  EXPECT_TRUE(shown.says("as stated with the material; Westgard’s rules."));
  EXPECT_TRUE(shown.says("the mean of 3; certified"));
  enter_in(shown.station, "s of one charge", "0,5");
  press(Qt::Key_Return);  // no reason is given for the other figure
  EXPECT_FALSE(shown.says("The newest result breaks")) << "the limits are wider now";
}

TEST_F(QualityStationTest, APairIsNamedByItsTwoNumbers) {
  const auto first = charge("30 g", run), second = charge("30 g", run);
  gold_of(first, "0.150 mg");
  gold_of(second, "0.190 mg");
  ShownStation shown(desk);
  shown.station.take(QualityStation::Part::pairs);
  EXPECT_TRUE(shown.says("No pair can be compared yet."));
  enter_in(shown.station, "The duplicate", "26-0001/9");
  enter_in(shown.station, "of", "26-0001/1");
  field<Field>(shown.station, "It is a duplicate")->setFocus();
  press(Qt::Key_P);
  EXPECT_FALSE(fire::charge(*connection, second.charge)->duplicate_of) << "there is no such portion";
  enter_in(shown.station, "The duplicate", "26-0001/2");
  field<Field>(shown.station, "It is a duplicate")->setFocus();
  press(Qt::Key_Backspace);
  press(Qt::Key_P);
  settle();
  EXPECT_EQ(fire::charge(*connection, second.charge)->duplicate_of, first.charge);
  EXPECT_EQ(shown.station.findChild<PairsPicture*>()->points_drawn(), 1);
  EXPECT_TRUE(shown.controls().contains("outside · 5.00 and 6.33 g/t · 24 % apart, 10 let pass"))
      << shown.controls().toStdString();
}

TEST_F(QualityStationTest, ThePairThatScattersMostIsNamed) {
  for (const char* gold : {"0.152 mg", "0.148 mg", "0.151 mg", "0.149 mg", "0.170 mg"}) {
    const auto first = charge("30 g", run), second = charge("30 g", run);
    gold_of(first, "0.150 mg");
    gold_of(second, gold);
    ASSERT_TRUE(controls::set_duplicate(book, second.charge, first.charge, controls::Role::duplicate_pulp).ok());
  }
  ShownStation shown(desk);
  shown.station.take(QualityStation::Part::pairs);
  EXPECT_TRUE(shown.says("The pair 26-0001/10 holds 97 % of the scatter"));
  EXPECT_TRUE(shown.says("Cochran, 5 %: 84 %"));
}

TEST_F(QualityStationTest, TheOftennessIsSetWhereItIsRead) {
  ShownStation shown(desk);
  enter_in(shown.station, "Rock blank, one in", "8");
  EXPECT_EQ(lab::settings(*connection)->blank_one_in, 8);
  enter_in(shown.station, "Rock blank, one in", "-3");
  EXPECT_EQ(lab::settings(*connection)->blank_one_in, 8);
  EXPECT_TRUE(shown.controls().contains("wanted: one in 8")) << shown.controls().toStdString();
}

TEST_F(QualityStationTest, TheSilverOfAFluxBlankGoesToItsLotByOneKey) {
  const LotId litharge = *fire::add_lot(book, "litharge 7", "litharge");
  const auto blank = of_stock(add_material("flux", "blank_flux", ""), "", run);
  ASSERT_TRUE(fire::set_lot(book, blank.charge, history::fields::charge::litharge_lot, litharge).ok());
  ASSERT_TRUE(fire::set_reagent(book, blank.charge, history::fields::charge::litharge, testing_support::figure("60 g")).ok());
  weigh(blank.bead, "1.200 mg");
  weigh(blank.bead, "0.003 mg", "gold");
  ShownStation shown(desk);
  shown.station.take(QualityStation::Part::load, run.value);
  auto* take = button(shown.station, "Write its silver with the lot litharge 7");
  ASSERT_NE(take, nullptr);
  take->click();
  settle();
  EXPECT_TRUE(fire::lot(*connection, litharge)->silver);
  EXPECT_EQ(button(shown.station, "Write its silver with the lot litharge 7"), nullptr) << "it is there";
}

TEST_F(QualityStationTest, ARockBlankBecomesTheAssayOfAFlush) {
  const MachineId crusher = *milling::add_machine(book, "jaw crusher", "crusher");
  const CleaningId flushed = *milling::clean(book, {crusher, "flush", {}, {}, testing_support::figure("500 g"), true, {}});
  const auto assay = of_stock(add_material("quartz", "blank_rock"), "50 g", run);
  gold_of(assay, "0.100 mg");
  ShownStation shown(desk);
  shown.station.take(QualityStation::Part::load, run.value);
  enter_in(shown.station, "The rock blank came out of a machine, of the flush", "jaw");
  EXPECT_EQ(fire::charge(*connection, assay.charge)->cleaning, flushed);
  EXPECT_TRUE(shown.controls().contains("flush of a machine"));
  auto* take = button(shown.station, "Write the gold of the flush with its machine");
  ASSERT_NE(take, nullptr);
  take->click();
  EXPECT_NEAR(milling::cleaning(*connection, flushed)->flush_grade->grade().in(unit::gram_per_tonne), 2, 1e-9);
}

TEST_F(QualityStationTest, WhatWasTakenBackIsGone) {
  const ControlMaterialId quartz = add_material("quartz", "blank_rock");
  ShownStation shown(desk);
  shown.station.take(QualityStation::Part::material, quartz.value);
  ASSERT_TRUE(book.undo().ok());
  settle();
  EXPECT_TRUE(shown.says("what is due"));
}

TEST_F(QualityStationTest, OpensMaterialsAndDecisions) {
  const ControlMaterialId quartz = add_material("quartz", "blank_rock");
  ASSERT_TRUE(results::decide_run(book, run, "held", "x", person).ok());
  ShownStation shown(desk);
  EXPECT_TRUE(shown.station.show_record({history::Entity::control_material, quartz.value}));
  EXPECT_TRUE(shown.says("quartz"));
  EXPECT_TRUE(shown.station.show_record({history::Entity::run_decision, 1}));
  EXPECT_TRUE(shown.says("fusion 1"));
  EXPECT_FALSE(shown.station.show_record({history::Entity::control_material, 99}));
  EXPECT_FALSE(shown.station.show_record({history::Entity::sample, 1}));
}

// The blank that went high behind the specimen is what the station opens with.
TEST(QualityOfTheDemonstration, OpensWithTheBlankBehindTheSpecimen) {
  need_application();
  MemoryNotebook notebook;
  const auto loaded = exchange::load_records(*notebook.journal, file_text(PRILLBOOK_SOURCE_DIR "/sample-data/demo.json"));
  ASSERT_TRUE(loaded.ok()) << loaded.error().field << ": " << loaded.error().detail;
  Desk desk(*notebook.connection, *notebook.journal);
  ShownStation shown(desk);
  EXPECT_TRUE(shown.says("fusion 7 May"));
  EXPECT_TRUE(shown.controls().contains("rock blank, quarry quartz outside · 0.24 ± 0.08 g/t gold · allowed: at most 0.1 g/t"))
      << shown.controls().toStdString();
  EXPECT_TRUE(shown.controls().contains("reference material, house pulp 3"));
  shown.station.take(QualityStation::Part::material, 2);
  EXPECT_TRUE(shown.station.findChild<ControlPicture*>()->accessibleName().contains("2-2s"));
  shown.station.take(QualityStation::Part::pairs);
  EXPECT_EQ(shown.station.findChild<PairsPicture*>()->points_drawn(), 3);
  EXPECT_TRUE(shown.controls().contains("outside · 5.62 and 8.24 g/t · 38 % apart, 20 let pass"))
      << shown.controls().toStdString();
}

}  // namespace
}  // namespace prillbook::ui
