// SPDX-License-Identifier: GPL-3.0-or-later
#include <gmock/gmock.h>

#include <QtCore/QMimeData>
#include <QtWidgets/QLabel>

#include "core/attachments/attachments.h"
#include "core/findings/finding.h"
#include "core/history/fields.h"
#include "core/units/units.h"
#include "tests/support/window_hand.h"
#include "ui/kit/ledger.h"
#include "ui/kit/thread.h"
#include "ui/photographs/photograph_strip.h"
#include "ui/sheet/result_lines.h"
#include "ui/sheet/sample_sheet.h"

namespace prillbook::ui {
namespace {

using namespace testing_support;

struct Sheet : WithApplication, testing::Test {
  LabWithSample<> lab;
  history::Journal& book = lab.book;
  Desk desk{*lab.connection, book};
  SampleSheet sheet{desk.session};

  void SetUp() override {
    ASSERT_TRUE(sheet.show_record({history::Entity::sample, lab.sample.value}));
    show(sheet);
    sheet.enter();
  }

  results::SampleRecord record() { return *results::load_sample_record(*lab.connection, lab.sample); }
  const std::vector<ResultLine>& lines() { return sheet.findChild<ResultLines*>()->lines(); }
  void take(const std::string& purpose, int place = 0) {
    for (const auto& portion : record().portions)
      if (portion.purpose == purpose && place-- == 0) {
        ASSERT_TRUE(sheet.show_record({history::Entity::portion, portion.id.value}));
        settle();
        return sheet.enter();
      }
    FAIL() << purpose;
  }
  void choose(const QString& label, const QString& key) {
    field<ChoiceField>(sheet, label)->editor()->setFocus();
    type(key);
    settle();
  }
  // A charge on a portion of 30 g, its bead weighed.
  void fire(const QString& bead) {
    ASSERT_TRUE(lab.cut("30 g", "fire").ok());
    settle();
    ASSERT_TRUE(sheet.show_record({history::Entity::portion, record().portions.back().id.value}));
    sheet.enter();
    ASSERT_EQ(focused(), "Put it in a crucible");
    press(Qt::Key_Return);
    ASSERT_EQ(focused(), "Bead");
    type_and_enter(bead);
  }
};

TEST_F(Sheet, MetalThatIsReturnedNamesWhoTookIt) {
  button(sheet, "Metal and rests of the client")->click();
  choose("What it is", "b");
  choose("What became of it", "r");
  enter_in(sheet, "Its mass", "3.2");
  button(sheet, "Write it down")->click();
  EXPECT_TRUE(field<LineField>(sheet, "Who took it")->refused());
  enter_in(sheet, "Who took it", "Ada Fell");
  button(sheet, "Write it down")->click();
  settle();
  const auto metal = record().custody.own_metal;
  ASSERT_EQ(metal.size(), 1u);
  EXPECT_EQ(metal[0].what, "bead");
  EXPECT_EQ(metal[0].fate, "returned");
  EXPECT_EQ(metal[0].to_whom, "Ada Fell");
  EXPECT_EQ(metal[0].written_by, lab.person);
  EXPECT_EQ(field<LineField>(sheet, "Who took it")->typed(), "") << "ready for the next";
}

TEST_F(Sheet, AToldFigureIsWrittenOnce) {
  button(sheet, "Told by telephone")->click();
  choose("Which figure", "g");
  enter_in(sheet, "What was said", "about 45 g/t");
  button(sheet, "Write it as told")->click();
  EXPECT_TRUE(record().custody.told.empty()) << "nobody was told yet";
  enter_in(sheet, "To whom", "Ada Fell");
  button(sheet, "Write it as told")->click();
  settle();
  ASSERT_EQ(record().custody.told.size(), 1u);
  EXPECT_EQ(record().custody.told[0].said, "about 45 g/t");
}

TEST_F(Sheet, APanOnlyJobIsMassEnterEnterBeadEnter) {
  ASSERT_EQ(focused(), "Mass");
  type_and_enter("500");
  ASSERT_EQ(focused(), "Pan it");
  press(Qt::Key_Return);
  ASSERT_EQ(focused(), "Bead");
  type_and_enter("6,21");
  const auto held = record();
  ASSERT_EQ(held.portions.size(), 1u);
  EXPECT_EQ(held.portions[0].purpose, "pan");
  EXPECT_EQ(held.portions[0].cut_by, lab.person);
  ASSERT_EQ(held.pan_tests.size(), 1u);
  ASSERT_EQ(held.pan_tests[0].bead.weighings.size(), 1u);
  EXPECT_DOUBLE_EQ(held.pan_tests[0].bead.weighings[0].mass.mass().in(unit::milligram), 6.21);
  EXPECT_EQ(held.pan_tests[0].bead.weighings[0].balance, lab.balance);
  ASSERT_EQ(lines().size(), 1u);
  EXPECT_THAT(lines()[0].words.toStdString(), testing::HasSubstr("fineness not known"));
  EXPECT_EQ(sheet.findChild<Thread*>()->count(), 4);
}

TEST_F(Sheet, AnOverdrawnCutIsRefusedWithWhatIsLeft) {
  type_and_enter("5 kg");
  const auto* mass = field<LineField>(sheet, "Mass");
  EXPECT_TRUE(mass->refused());
  EXPECT_THAT(mass->error_text().toStdString(), testing::HasSubstr("4 kg"));
  EXPECT_EQ(mass->typed(), "5 kg");
  EXPECT_TRUE(record().portions.empty());
}

TEST_F(Sheet, APortionOfAPortionStandsUnderItWithWhatIsLeftOfBoth) {
  choose("What for", "d");  // duplicate
  enter_in(sheet, "Mass", "1.5 kg");
  ASSERT_EQ(record().portions.size(), 1u);
  choose("What for", "f");
  enter_in(sheet, "Mass", "30");
  const auto held = record();
  ASSERT_EQ(held.portions.size(), 2u);
  EXPECT_EQ(held.portions[1].parent, held.portions[0].id);
  const auto& rows = sheet.findChild<Ledger*>()->rows();
  ASSERT_EQ(rows.rowCount(), 3);
  EXPECT_EQ(rows.row(rows.index(0))->words, text(figure("2.5", "kg", DecimalMark::point)) + " left");
  EXPECT_EQ(rows.row(rows.index(1))->words, text(figure("1.47", "kg", DecimalMark::point)) + " left");
  EXPECT_EQ(rows.row(rows.index(2))->depth, 2);
}

TEST_F(Sheet, WhatThePannerSawIsWrittenFieldByField) {
  type_and_enter("500");
  press(Qt::Key_Return);
  enter_in(sheet, "Grind, P80", "180");
  type_and_enter("7.1");
  type_and_enter("7 fine, 1 coarse");
  type_and_enter("0.8");
  type_and_enter("l");
  type_and_enter("n");
  type_and_enter("42");
  type_and_enter("455");
  const auto held = record();
  const gravity::PanTest& test = held.pan_tests[0].test;
  EXPECT_DOUBLE_EQ(test.grind->value, 180);
  EXPECT_DOUBLE_EQ(test.free_gold->mass().in(unit::milligram), 7.1);
  EXPECT_EQ(test.colours, "7 fine, 1 coarse");
  EXPECT_DOUBLE_EQ(test.largest_colour->value, 800);
  EXPECT_EQ(test.black_sand, "little");
  EXPECT_EQ(test.sulphides, "none");
  ASSERT_EQ(held.portions.size(), 3u);
  EXPECT_EQ(held.portions[1].purpose, "remainder");
  EXPECT_DOUBLE_EQ(held.portions[2].mass->value, 455);
}

TEST_F(Sheet, ProductsHeavierThanThePortionAreRefused) {
  type_and_enter("500");
  press(Qt::Key_Return);
  enter_in(sheet, "Tail", "560");
  EXPECT_TRUE(field<LineField>(sheet, "Tail")->refused());
  EXPECT_EQ(record().portions.size(), 1u);
}

TEST_F(Sheet, ASpoiledChargeKeepsItsReasonAndIsRepeated) {
  ASSERT_TRUE(lab.cut("30 g", "fire").ok());
  ASSERT_TRUE(lab.cut("30 g", "fire").ok());
  settle();
  take("fire", 0);
  press(Qt::Key_Return);
  button(sheet, "Spoiled or left out")->click();
  enter_in(sheet, "Spoiled, because", "the pot cracked");
  EXPECT_EQ(record().charges[0].charge.spoiled, "the pot cracked");
  EXPECT_EQ(lines()[0].words, "spoiled: the pot cracked");
  take("fire", 1);
  auto* repeat =
      button(sheet, QString::fromStdString("It repeats " + record().portion_label(record().portions[0].id) + ", spoiled"));
  ASSERT_NE(repeat, nullptr);
  repeat->setFocus();
  press(Qt::Key_Return);
  ASSERT_EQ(record().charges.size(), 2u);
  EXPECT_EQ(record().charges[1].charge.repeat_of, record().charges[0].charge.id);
}

TEST_F(Sheet, TheChargesFiguresAreWritten) {
  fire("0.62");
  enter_in(sheet, "Collector silver", "8");
  enter_in(sheet, "Silver of litharge and lead", "0.01");
  enter_in(sheet, "Lead button", "28");
  enter_in(sheet, "Look of the slag", "glassy");
  button(sheet, "Recovered or lost in the furnace")->click();
  enter_in(sheet, "Gold loss, estimated", "0.3");
  enter_in(sheet, "Silver loss, estimated", "2");
  const auto held = record();
  const fire::Charge& charge = held.charges[0].charge;
  EXPECT_DOUBLE_EQ(charge.collector->mass().in(unit::milligram), 8);
  EXPECT_DOUBLE_EQ(charge.blank->mass().in(unit::milligram), 0.01);
  EXPECT_DOUBLE_EQ(charge.button->value, 28);
  EXPECT_EQ(charge.slag_look, "glassy");
  EXPECT_DOUBLE_EQ(charge.gold_loss->value, 0.3);
  EXPECT_DOUBLE_EQ(charge.silver_loss->value, 2);
}

TEST_F(Sheet, AStatedFinenessIsWrittenWithItsUncertaintyAndNotBefore) {
  fire("0.62");
  choose("How the fineness was got", "s");
  enter_in(sheet, "Fineness", "840");
  EXPECT_FALSE(record().charges[0].bead.fineness.has_value());
  EXPECT_EQ(focused(), "Its standard uncertainty");
  type_and_enter("10");
  const auto bead = record().charges[0].bead;
  EXPECT_EQ(bead.method, "stated");
  EXPECT_DOUBLE_EQ(bead.fineness->value, 840);
  EXPECT_DOUBLE_EQ(bead.fineness_u->value, 10);
  EXPECT_TRUE(lines()[0].gold.measured());
  EXPECT_EQ(lines()[0].gold.unit, "g/t");
}

TEST_F(Sheet, TouchstoneNeedsNoUncertainty) {
  fire("0.62");
  choose("How the fineness was got", "t");
  EXPECT_FALSE(in_sight(sheet, "Its standard uncertainty"));
  enter_in(sheet, "Fineness", "860");
  EXPECT_EQ(record().charges[0].bead.method, "touchstone");
  EXPECT_TRUE(lines()[0].silver.measured());
}

TEST_F(Sheet, APartedBeadHasTheGoldsOwnWeighings) {
  fire("0.62");
  choose("How the fineness was got", "p");
  enter_in(sheet, "Gold after parting", "0.512");
  enter_in(sheet, "Weigh again", "0.514", 1);
  const auto bead = record().charges[0].bead;
  EXPECT_EQ(bead.method, "parted");
  EXPECT_EQ(bead.valid("gold").size(), 2u);
  enter_in(sheet, "Weigh again", "0.9", 1);
  EXPECT_TRUE(field<LineField>(sheet, "Weigh again", 1)->refused()) << "gold heavier than its bead";
}

TEST_F(Sheet, AWeighingIsRepeatedCorrectedWithAReasonAndLeftOut) {
  fire("0.62");
  enter_in(sheet, "Weigh again", "0.625");
  const QString second = "Bead, weighing 2 · bead balance";
  enter_in(sheet, second, "0.622");
  ASSERT_EQ(focused(), "Why?");
  type_and_enter("misread");
  auto bead = record().charges[0].bead;
  EXPECT_DOUBLE_EQ(bead.weighings[1].mass.mass().in(unit::milligram), 0.622);
  enter_in(sheet, "Left out, because", "the draught moved the pan", 1);
  bead = record().charges[0].bead;
  EXPECT_EQ(bead.weighings[1].excluded, "the draught moved the pan");
  bool told = false;
  for (const QLabel* label : sheet.findChild<Thread*>()->findChildren<QLabel*>())
    told = told || label->text() == "because misread";
  EXPECT_TRUE(told) << "the thread names the reason";
}

TEST_F(Sheet, ABeadTypedInGramsIsAskedAbout) {
  fire("0.62 g");
  auto* bead = field<LineField>(sheet, "Bead");
  EXPECT_FALSE(bead->question_text().isEmpty());
  EXPECT_TRUE(record().charges[0].bead.weighings.empty());
  type("m");
  settle();
  ASSERT_EQ(record().charges[0].bead.weighings.size(), 1u);
  EXPECT_DOUBLE_EQ(record().charges[0].bead.weighings[0].mass.mass().in(unit::milligram), 0.62);
}

TEST_F(Sheet, NoneSeenIsAnAnswer) {
  ASSERT_TRUE(lab.cut("500 g", "pan").ok());
  settle();
  take("pan");
  press(Qt::Key_Return);
  type_and_enter("none");
  EXPECT_TRUE(record().pan_tests[0].bead.none_seen);
  EXPECT_EQ(lines()[0].words, "no bead seen");
}

TEST_F(Sheet, AFindingStandsInTheThreadAndIsExplainedThere) {
  ASSERT_TRUE(readings::enter(book, history::fields::sample::condition, lab.sample.value, std::string("torn")).ok());
  settle();
  auto* explain = button(sheet, "Explain");
  ASSERT_NE(explain, nullptr);
  explain->click();
  ASSERT_EQ(focused(), "What explains it");
  type_and_enter("torn at the counter, nothing lost");
  const auto found = *findings::findings_of(*lab.connection, lab.sample);
  ASSERT_TRUE(found.front().answer.has_value());
  EXPECT_EQ(found.front().answer->who, "HM");
  settle();
  EXPECT_EQ(button(sheet, "Explain"), nullptr);
}

TEST_F(Sheet, EveryRecordOfTheBenchLeadsToItsSheet) {
  fire("0.62");
  const auto held = record();
  const auto& entry = held.charges[0];
  for (const RecordRef& ref :
       {RecordRef{history::Entity::charge, entry.charge.id.value}, RecordRef{history::Entity::bead, entry.bead.id.value},
        RecordRef{history::Entity::weighing, entry.bead.weighings[0].id.value}}) {
    ASSERT_TRUE(sheet.show_record({history::Entity::sample, lab.sample.value}));
    ASSERT_TRUE(sheet.show_record(ref));
    EXPECT_EQ(sheet.in_hand(), entry.charge.portion);
  }
  EXPECT_FALSE(sheet.show_record({history::Entity::client, lab.client.value}));
  EXPECT_FALSE(sheet.show_record({history::Entity::sample, 999}));
}

TEST_F(Sheet, HalfTypedTextOutlivesAnotherPortion) {
  fire("0.62");
  field<LineField>(sheet, "Weigh again")->line()->setFocus();
  type("0.6 furlongs");
  ASSERT_TRUE(lab.cut("500 g", "pan").ok());
  EXPECT_EQ(field<LineField>(sheet, "Weigh again")->typed(), "0.6 furlongs") << "a write elsewhere";
  take("pan");
  take("fire");
  EXPECT_TRUE(desk.drafts.draft(QString("bead/%1/bead").arg(record().charges[0].bead.id.value)).has_value());
}

TEST_F(Sheet, ALongNameDoesNotWidenTheSheet) {
  const SampleId other = lab.log_sample(std::string(200, 'w'), "4 kg");
  ASSERT_TRUE(sheet.show_record({history::Entity::sample, other.value}));
  settle();
  EXPECT_LE(sheet.minimumSizeHint().width(), 1000);
}

TEST_F(Sheet, LabelsAreAskedForTheSampleOrThePortionInHand) {
  std::vector<RecordRef> asked;
  QObject::connect(&sheet, &SampleSheet::labels_requested, &sheet, [&](const RecordRef& of) { asked.push_back(of); });
  button(sheet, "Labels…")->click();
  const PortionId portion = lab.cut("1 kg", "pan").value();
  settle();
  take("pan");
  button(sheet, "Labels…")->click();
  ASSERT_EQ(asked.size(), 2u);
  EXPECT_EQ(asked[0], (RecordRef{history::Entity::sample, lab.sample.value}));
  EXPECT_EQ(asked[1], (RecordRef{history::Entity::portion, portion.value}));
}

TEST_F(Sheet, ShowsThePhotographsOfItsSample) {
  attachments::NewAttachment fresh;
  fresh.owner = {lab.sample, {}};
  fresh.picture = {"no picture at all", 4, 3, false};
  ASSERT_TRUE(attachments::attach(book, fresh).ok());
  settle();
  EXPECT_EQ(sheet.findChild<PhotographStrip*>()->count(), 1) << "one that can't be painted keeps its place";
}

TEST_F(Sheet, ALargePhotographFitsIntoASmallWindow) {
  QImage image(800, 600, QImage::Format_RGB32);
  image.fill(Qt::darkYellow);
  QMimeData data;
  data.setImageData(image);
  auto* strip = sheet.findChild<PhotographStrip*>();
  strip->add_from(data);
  strip->open_large();
  settle();
  EXPECT_TRUE(strip->is_large());
  EXPECT_LE(sheet.minimumSizeHint().height(), 640) << "the window keeps its foot at 1280 by 720";
  EXPECT_FALSE(sheet.findChild<Thread*>()->isVisible());
  strip->close_large();
  settle();
  EXPECT_TRUE(sheet.findChild<Thread*>()->isVisible());
}

TEST_F(Sheet, APortionIsScreenedForMetallics) {
  ASSERT_TRUE(lab.cut("400 g", "metallics").ok());
  take("metallics");
  enter_in(sheet, "Screen, opening", "106");
  enter_in(sheet, "Passed", "399");
  EXPECT_TRUE(record().metallics.empty()) << "the coarse part is not weighed yet";
  enter_in(sheet, "Stayed on it", "1 g");
  enter_in(sheet, "Passed", "399 g");
  settle();
  ASSERT_EQ(record().metallics.size(), 1u);
  EXPECT_EQ(sheet.in_hand(), record().metallics[0].coarse) << "the coarse part is fused first";
  ASSERT_FALSE(lines().empty());
  EXPECT_EQ(lines().back().kind, "metallics");
  EXPECT_TRUE(lines().back().words.contains("waits for")) << lines().back().words.toStdString();
  take("metallics");
  EXPECT_FALSE(in_sight(sheet, "Screen, opening")) << "it is screened";
}

}  // namespace
}  // namespace prillbook::ui
