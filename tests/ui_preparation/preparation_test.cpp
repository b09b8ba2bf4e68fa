// SPDX-License-Identifier: GPL-3.0-or-later
#include <SQLiteCpp/Database.h>
#include <gmock/gmock.h>

#include <QtCore/QFile>
#include <QtCore/QRegularExpression>

#include "core/custody/custody.h"
#include "core/history/fields.h"
#include "core/lab/settings.h"
#include "core/milling/composites.h"
#include "core/milling/plans.h"
#include "tests/support/window_hand.h"
#include "ui/kit/ledger.h"
#include "ui/kit/press_button.h"
#include "ui/kit/waiting_list.h"
#include "ui/preparation/composite_form.h"
#include "ui/preparation/enough_pane.h"
#include "ui/preparation/machine_pane.h"
#include "ui/preparation/mass_picture.h"
#include "ui/preparation/order_pane.h"
#include "ui/preparation/preparation_station.h"
#include "ui/preparation/step_form.h"

namespace prillbook::ui {
namespace {

using namespace testing_support;

struct Preparation : WithApplication, testing::Test {
  LabWithSample<> lab;
  history::Journal& book = lab.book;
  MachineId crusher = *milling::add_machine(book, "jaw crusher", "crusher");
  Desk desk{*lab.connection, book};
  PreparationStation station{desk.session};
  std::vector<RecordRef> opened;

  void SetUp() override {
    QObject::connect(&desk.notifier, &Notifier::written, &station,
                     [this](const auto& written) { station.notebook_changed(written); });
    QObject::connect(&station, &Station::open_requested, &station, [this](const RecordRef& one) { opened.push_back(one); });
    show(station);
  }
  StepForm& form() { return *station.findChild<StepForm*>(); }
  MassPicture& picture() { return *station.findChild<MassPicture*>(); }
  MachinePane& machine() { return *station.findChild<MachinePane*>(); }
  OrderPane& order() { return *station.findChild<OrderPane*>(); }
  void open_fold(const QString& words) {
    for (Fold* fold : station.findChildren<Fold*>())
      if (fold->button()->text().contains(words)) fold->set_open(true);
    settle();
  }
  std::vector<milling::Step> steps() { return *milling::steps_of(*lab.connection, lab.sample); }
  void crush(const QString& in, const QString& out) {
    form().kind()->set_value("crush");
    form().kind()->editor()->setFocus();
    press(Qt::Key_C);
    enter_in(station, "Mass in", in);
    enter_in(station, "Mass out", out);
    form().button()->click();
    settle();
  }
};

TEST_F(Preparation, WhatWaitsIsTakenAndTheStepIsWritten) {
  auto* list = station.findChild<WaitingList*>();
  ASSERT_EQ(list->rows().rowCount(), 1);
  EXPECT_EQ(PreparationStation::place(desk.session).waiting(), 1);
  station.take_sample(lab.sample);
  form().kind()->editor()->setFocus();
  press(Qt::Key_C);
  enter_in(station, "Mass in", "4 kg");
  enter_in(station, "Mass out", "3.95 kg");
  enter_in(station, "Top size after (95 % pass)", "2");
  form().button()->click();
  settle();
  ASSERT_EQ(steps().size(), 1u);
  EXPECT_EQ(steps()[0].kind, "crush");
  EXPECT_EQ(steps()[0].machine, crusher) << "the machine of the queue is proposed";
  EXPECT_EQ(steps()[0].top_size->typed, "2");
  EXPECT_DOUBLE_EQ(steps()[0].top_size->value, 2000);
  ASSERT_EQ(list->rows().rowCount(), 1);
  EXPECT_EQ(list->rows().row(list->rows().index(0))->words, "prepared: crushed");
  EXPECT_EQ(PreparationStation::place(desk.session).waiting(), 0);
  EXPECT_EQ(picture().reaches().size(), 3u) << "as it came in, crushed, lost";
  EXPECT_EQ(focused(), "Next step") << "the hand goes on to what comes next";
}

TEST_F(Preparation, ASplitCutsItsParts) {
  station.take_sample(lab.sample);
  form().kind()->editor()->setFocus();
  press(Qt::Key_S);
  settle();
  ASSERT_EQ(form().kind()->value(), "split");
  EXPECT_TRUE(in_sight(station, "How it is split"));
  EXPECT_FALSE(in_sight(station, "Mass out"));
  enter_in(station, "Mass in", "4 kg");
  form().part_purpose(0)->type("pan");
  ASSERT_TRUE(form().part_purpose(0)->commit());
  form().part_mass(0)->type("1 kg");
  ASSERT_TRUE(form().part_mass(0)->commit());
  EXPECT_TRUE(in_sight(station, "Mass of part 2"));
  form().part_mass(1)->type("2.9 kg");
  ASSERT_TRUE(form().part_mass(1)->commit());
  EXPECT_TRUE(in_sight(station, "Mass of part 3")) << "one row more than is filled";
  field<FlagField>(station, "All of it weighed")->editor()->setFocus();
  press(Qt::Key_Return);
  EXPECT_EQ(focused(), "Begun");
  for (const Field* one : form().findChildren<Field*>()) EXPECT_EQ(one->error_text(), QString()) << one->label().toStdString();
  form().button()->click();
  settle();
  const auto portions = *portions::portions_of(*lab.connection, lab.sample);
  ASSERT_EQ(portions.size(), 2u) << form().refusal_words().toStdString();
  EXPECT_EQ(portions[0].purpose, "pan");
  EXPECT_EQ(portions[1].purpose, "split");
}

TEST_F(Preparation, ARefusedStepSaysWhyAndKeepsWhatWasTyped) {
  station.take_sample(lab.sample);
  form().kind()->editor()->setFocus();
  press(Qt::Key_C);
  enter_in(station, "Mass in", "4 kg");
  enter_in(station, "Done", "2026-05-01 9:00");
  form().button()->click();
  settle();
  EXPECT_TRUE(steps().empty());
  EXPECT_THAT(form().refusal_words().toStdString(), testing::HasSubstr("not there by then"));
  EXPECT_EQ(form().mass_in()->typed(), "4 kg");
}

TEST_F(Preparation, WithoutAKindNothingIsWritten) {
  station.take_sample(lab.sample);
  form().button()->click();
  EXPECT_TRUE(steps().empty());
  EXPECT_TRUE(form().kind()->refused());
}

TEST_F(Preparation, TheRiverIsWalkedWithTheArrowKeysAndOpensRecords) {
  const PortionId pan = *lab.cut("1 kg", "pan");
  station.take_sample(lab.sample);
  picture().setFocus();
  EXPECT_EQ(picture().in_hand(), 0);
  EXPECT_THAT(picture().accessibleDescription().toStdString(), testing::HasSubstr("4"));
  press(Qt::Key_Right);
  EXPECT_EQ(picture().reaches()[std::size_t(picture().in_hand())].portion, pan);
  press(Qt::Key_Return);
  ASSERT_EQ(opened.size(), 1u);
  EXPECT_EQ(opened[0], (RecordRef{history::Entity::portion, pan.value}));
  press(Qt::Key_Down);
  EXPECT_EQ(picture().reaches()[std::size_t(picture().in_hand())].kind, milling::ReachKind::rest);
  press(Qt::Key_Left);
  EXPECT_EQ(picture().in_hand(), 0);
  QTest::mouseClick(&picture(), Qt::LeftButton, {}, picture().place_of(1).center().toPoint());
  EXPECT_EQ(picture().in_hand(), 1);
}

TEST_F(Preparation, ThePictureIsWrittenAsAPage) {
  ASSERT_TRUE(lab.cut("1 kg", "pan").ok());
  station.take_sample(lab.sample);
  TempFolder folder;
  const QString path = QString::fromStdString(folder.file("flow.pdf"));
  ASSERT_TRUE(write_flow_pdf(picture().reaches(), DecimalMark::point, "26-0001", path).ok());
  QFile file(path);
  ASSERT_TRUE(file.open(QIODevice::ReadOnly));
  EXPECT_TRUE(file.readAll().startsWith("%PDF"));
  EXPECT_FALSE(write_flow_pdf(picture().reaches(), DecimalMark::point, "26-0001", path + "/not/there.pdf").ok());
}

// Pages as ISO 32000 counts them: the /Count of the page tree.
TEST_F(Preparation, ATallPictureTakesSeveralPages) {
  std::vector<milling::Reach> reaches(1);
  reaches[0].mass = testing_support::figure("100 kg").mass();
  for (int i = 0; i < 60; ++i) {
    milling::Reach part = reaches[0];
    part.kind = milling::ReachKind::part;
    part.parent = 0;
    part.depth = 1;
    part.mass = testing_support::figure("1 kg").mass();
    reaches.push_back(part);
  }
  TempFolder folder;
  const QString path = QString::fromStdString(folder.file("flow.pdf"));
  ASSERT_TRUE(write_flow_pdf(reaches, DecimalMark::point, "26-0001", path).ok());
  QFile file(path);
  ASSERT_TRUE(file.open(QIODevice::ReadOnly));
  const QRegularExpressionMatch count = QRegularExpression("/Count (\\d+)").match(QString::fromLatin1(file.readAll()));
  ASSERT_TRUE(count.hasMatch());
  EXPECT_GE(count.captured(1).toInt(), 3);
}

TEST_F(Preparation, OneKeyRepeatsTheLastCleaning) {
  open_fold("cleaning");
  EXPECT_FALSE(machine().again()->isEnabled()) << "never cleaned yet";
  machine().way()->editor()->setFocus();
  press(Qt::Key_F);
  settle();
  machine().log()->click();
  EXPECT_TRUE(milling::cleanings_of(*lab.connection, crusher)->empty()) << "a flush has a mass";
  enter_in(station, "Barren rock put through", "500 g");
  machine().log()->click();
  settle();
  ASSERT_EQ(milling::cleanings_of(*lab.connection, crusher)->size(), 1u);
  EXPECT_TRUE(machine().again()->isEnabled());
  machine().again()->click();
  settle();
  const auto all = *milling::cleanings_of(*lab.connection, crusher);
  ASSERT_EQ(all.size(), 2u);
  EXPECT_EQ(all[1].flush_mass->typed, "500 g");
}

TEST_F(Preparation, WhatIsDueGoesFirst) {
  const SampleId poor = lab.log_sample("Poor", "2 kg");
  ASSERT_TRUE(readings::enter(book, history::fields::sample::expected, lab.sample.value,
                              readings::cell_of(std::optional<std::string>("specimen")))
                  .ok());
  ASSERT_TRUE(
      readings::enter(book, history::fields::sample::due, lab.sample.value, readings::cell_of(std::optional(book.clock().now())))
          .ok());
  open_fold("Crushing order");
  order().refresh();
  ASSERT_EQ(order().places()->count(), 3) << "two samples and the flush between them";
  EXPECT_LT(order().places()->rows().row(order().places()->rows().index(1))->id, 0);
  EXPECT_EQ(order().places()->rows().row(order().places()->rows().index(0))->id, lab.sample.value);
  EXPECT_TRUE(order().places()->rows().row(order().places()->rows().index(0))->words.contains("due"));
  ASSERT_TRUE(readings::enter(book, history::fields::sample::due, lab.sample.value, {}).ok());
  settle();
  order().refresh();
  EXPECT_EQ(order().places()->rows().row(order().places()->rows().index(0))->id, poor.value) << "poor to rich";
}

// The labels that Enter and Tab go through, from the mark to the button.
QStringList way_of_keys(CompositeForm& composite) {
  QStringList labels;
  for (QWidget* at = field<LineField>(composite, "Mark of the composite")->editor(); at != composite.button();
       at = at->nextInFocusChain()) {
    if (auto* one = qobject_cast<Field*>(at->parentWidget()); one && at == one->editor()) labels << one->label();
    if (labels.size() > 100) break;  // round and round
  }
  return labels;
}

TEST_F(Preparation, ACompositeIsPutTogether) {
  const SampleId other = lab.log_sample("Other", "2 kg");
  open_fold("Make a composite");
  auto& composite = *station.findChild<CompositeForm*>();
  const auto number = [&](SampleId id) { return QString::fromStdString(custody::sample(*lab.connection, id)->number); };
  const auto typed = [&](const QString& label, const QString& text, int place = 0) {
    auto* one = field<LineField>(station, label, place);
    one->type(text);
    return one->commit();
  };
  const auto make = [&] {
    composite.button()->click();
    settle();
    return composite.refusal_words().toStdString();
  };
  EXPECT_FALSE(make().empty()) << "nothing was typed";
  EXPECT_TRUE(typed("Mark of the composite", "All of the adit"));
  EXPECT_TRUE(typed("Sample 1", number(lab.sample)));
  EXPECT_TRUE(typed("Mass taken", "500,5 g"));
  EXPECT_TRUE(typed("Share wanted", "60 %"));
  EXPECT_THAT(make(), testing::HasSubstr("two samples"));
  EXPECT_TRUE(typed("Sample 2", number(other)));
  EXPECT_TRUE(typed("Share wanted", "40 %", 1));
  EXPECT_THAT(composite.outlook_words().toStdString(), testing::HasSubstr("of " + number(other).toStdString()));
  EXPECT_FALSE(make().empty()) << "not weighed yet";
  EXPECT_FALSE(typed("Mass taken", "0 g", 1)) << "a share weighs something";
  EXPECT_FALSE(typed("Mass taken", "5 mm", 1)) << "no mass";
  EXPECT_TRUE(typed("Mass taken", "300 g", 1));
  EXPECT_THAT(composite.outlook_words().toStdString(), testing::HasSubstr("Together"));
  EXPECT_EQ(make(), "");
  const auto newest = custody::recent_samples(*lab.connection, 1)->front();
  EXPECT_EQ(newest.mark, "All of the adit");
  const auto made = milling::steps_of(*lab.connection, newest.id);
  ASSERT_EQ(made->size(), 1u);
  EXPECT_EQ(milling::shares_of(*lab.connection, made->front().id)->size(), 2u);
}

TEST_F(Preparation, ACompositeOfManyIsFilledRowByRow) {
  open_fold("Make a composite");
  auto& composite = *station.findChild<CompositeForm*>();
  QStringList expected{"Mark of the composite"};
  for (int row = 1; row <= 3; ++row)
    expected << QStringLiteral("Sample %1").arg(row) << "Mass taken"
             << "Share wanted";
  EXPECT_EQ(way_of_keys(composite), expected);
  for (int row = 3; row <= 6; ++row) {
    auto* last = field<LineField>(station, QStringLiteral("Sample %1").arg(row));
    last->type(QString::fromStdString(custody::sample(*lab.connection, lab.sample)->number));
    ASSERT_TRUE(last->commit());
    settle();
    expected << QStringLiteral("Sample %1").arg(row + 1) << "Mass taken"
             << "Share wanted";
    EXPECT_EQ(way_of_keys(composite), expected) << "the row that came later stands before the button too";
  }
}

TEST_F(Preparation, EnterGoesThroughTheWholeComposite) {
  const SampleId other = lab.log_sample("Other", "2 kg"), third = lab.log_sample("Third", "2 kg");
  open_fold("Make a composite");
  auto& composite = *station.findChild<CompositeForm*>();
  const auto enters = [&](const QString& at, const QString& text) {
    ASSERT_EQ(focused(), at);
    if (!text.isEmpty()) type(text);
    press(Qt::Key_Return);
  };
  field<LineField>(composite, "Mark of the composite")->line()->setFocus();
  enters("Mark of the composite", "All of the adit");
  int row = 0;
  for (const SampleId sample : {lab.sample, other, third}) {
    enters(QStringLiteral("Sample %1").arg(++row), QString::fromStdString(custody::sample(*lab.connection, sample)->number));
    enters("Mass taken", "300 g");
    enters("Share wanted", row == 1 ? "34 %" : "33 %");
  }
  EXPECT_EQ(field<LineField>(composite, "Sample 1")->line()->cursorPosition(), 0) << "a long text shows its beginning";
  for (const QString& left_open : {"Sample 4", "Mass taken", "Share wanted"}) enters(left_open, {});
  EXPECT_EQ(focused(), "Make the composite");
  press(Qt::Key_Space);
  ASSERT_EQ(composite.refusal_words(), QString());
  const auto newest = custody::recent_samples(*lab.connection, 1)->front();
  EXPECT_EQ(newest.mark, "All of the adit");
  EXPECT_EQ(milling::shares_of(*lab.connection, milling::steps_of(*lab.connection, newest.id)->front().id)->size(), 3u);
}

TEST_F(Preparation, AShareThatIsTooMuchIsNamed) {
  const SampleId other = lab.log_sample("Other", "2 kg");
  open_fold("Make a composite");
  auto& composite = *station.findChild<CompositeForm*>();
  const auto number = [&](SampleId id) { return QString::fromStdString(custody::sample(*lab.connection, id)->number); };
  enter_in(composite, "Mark of the composite", "Too much");
  enter_in(composite, "Sample 1", number(lab.sample));
  enter_in(composite, "Mass taken", "1 kg");
  enter_in(composite, "Sample 2", number(other));
  enter_in(composite, "Mass taken", "2,5 kg", 1);
  composite.button()->click();
  settle();
  EXPECT_TRUE(composite.refusal_words().startsWith(number(other))) << composite.refusal_words().toStdString();
  EXPECT_EQ(QApplication::focusWidget(), field<LineField>(composite, "Mass taken", 1)->line());
}

TEST_F(Preparation, TheOrderBecomesTheQueue) {
  const auto expect = [&](SampleId id, const std::string& word) {
    ASSERT_TRUE(readings::enter(book, history::fields::sample::expected, id.value, word).ok());
  };
  expect(lab.sample, "specimen");
  const SampleId poor = lab.log_sample("poor", "4 kg");
  expect(poor, "low");
  open_fold("Crushing order");
  settle();
  ASSERT_EQ(order().places()->count(), 2);
  EXPECT_THAT(order().words().toStdString(), testing::HasSubstr("of barren rock in all"));
  auto* list = station.findChild<WaitingList*>();
  EXPECT_EQ(list->rows().row_of(poor.value), 1) << "as they came in";
  lab.connection->database().exec("PRAGMA query_only = ON");
  order().keep()->click();
  EXPECT_THAT(order().refusal_words().toStdString(), testing::HasSubstr("can be read but not written"));
  lab.connection->database().exec("PRAGMA query_only = OFF");
  order().keep()->click();
  settle();
  EXPECT_TRUE(milling::plan_in_force(*lab.connection, crusher)->has_value());
  EXPECT_EQ(list->rows().row_of(poor.value), 0) << "poor first";
}

TEST_F(Preparation, TheSamplingErrorIsToldOnceTheTopSizeIsKnown) {
  station.take_sample(lab.sample);
  auto* enough = station.findChild<EnoughPane*>();
  EXPECT_THAT(enough->words().toStdString(), testing::HasSubstr("Say the top size"));
  milling::NewStep step;
  step.sample = lab.sample;
  step.kind = "crush";
  step.mass_in = testing_support::figure("4 kg");
  step.mass_out = testing_support::figure("3.98 kg");
  step.top_size = testing_support::figure("2 mm", Measure::opening);
  ASSERT_TRUE(milling::do_step(book, step).ok());
  ASSERT_TRUE(lab.cut("1 kg", "pan").ok());
  settle();
  EXPECT_THAT(enough->words().toStdString(), testing::HasSubstr("exponent 1.5"));
  EXPECT_THAT(enough->words().toStdString(), testing::HasSubstr("square-root"));
  EXPECT_EQ(enough->findChild<QWidget*>("nomogram"), nullptr) << "nobody looks at it yet";
  open_fold("How much is enough");
  EXPECT_NE(enough->findChild<QWidget*>("nomogram"), nullptr);
  enough->form()->editor()->setFocus();
  press(Qt::Key_S);
  EXPECT_DOUBLE_EQ(lab::settings(*lab.connection)->sampling_exponent, 2.5);
  EXPECT_THAT(enough->words().toStdString(), testing::HasSubstr("% in the square-root form, exponent 2.5: for 20 % take"));
}

TEST_F(Preparation, TheWayOfSplittingSaysWhatItAdds) {
  milling::NewStep step;
  step.sample = lab.sample;
  step.kind = "crush";
  step.top_size = testing_support::figure("2 mm", Measure::opening);
  ASSERT_TRUE(milling::do_step(book, step).ok());
  station.take_sample(lab.sample);
  form().kind()->editor()->setFocus();
  press(Qt::Key_S);
  form().method()->editor()->setFocus();
  press(Qt::Key_S);
  const auto hint = [&] { return form().method()->editor()->accessibleDescription().toStdString(); };
  EXPECT_THAT(hint(), testing::HasSubstr("5.1 %")) << "scoop";
  press(Qt::Key_R);
  EXPECT_THAT(hint(), testing::HasSubstr("1.0 %"));
  EXPECT_THAT(hint(), testing::HasSubstr("at least 5.0 mm wide")) << "2.5 times the largest piece";
}

TEST_F(Preparation, TheMachinePageTellsWhatWasCarriedOverAndTakesTheFlushAssay) {
  milling::NewStep step;
  step.kind = "crush";
  step.machine = crusher;
  step.mass_in = testing_support::figure("1 kg");
  step.sample = lab.log_sample("specimen", "1 kg");
  ASSERT_TRUE(readings::enter(book, history::fields::sample::expected, step.sample.value, std::string("specimen")).ok());
  open_fold("cleaning");
  machine().way()->editor()->setFocus();
  press(Qt::Key_B);
  enter_in(station, "When", "2026-05-04 8:00");
  machine().log()->click();
  ASSERT_TRUE(milling::do_step(book, step).ok());
  step.sample = lab.sample;
  ASSERT_TRUE(milling::do_step(book, step).ok());
  settle();
  ASSERT_EQ(machine().events()->count(), 3);
  EXPECT_THAT(machine().events()->rows().row(machine().events()->rows().index(0))->title.toStdString(),
              testing::HasSubstr("carried over"));
  machine().way()->editor()->setFocus();
  press(Qt::Key_F);
  enter_in(station, "Barren rock put through", "500 g");
  field<FlagField>(station, "The flush")->editor()->setFocus();
  press(Qt::Key_Space);
  machine().log()->click();
  settle();
  enter_in(station, "Gold in it", "2,7");
  enter_in(station, "Uncertainty of that", "0,15");
  enter_in(station, "Gold in the barren rock", "0,005");
  const auto flush = milling::cleanings_of(*lab.connection, crusher)->back();
  ASSERT_TRUE(flush.flush_grade && flush.flush_grade_u && flush.barren_grade);
  EXPECT_DOUBLE_EQ(flush.flush_grade->value, 2.7);
}

TEST_F(Preparation, ACleaningInsideAUseIsRefusedInPlace) {
  milling::NewStep step;
  step.sample = lab.sample;
  step.kind = "crush";
  step.machine = crusher;
  step.began_at = parse_iso("2026-05-04T09:30+02:00").value();
  step.done_at = parse_iso("2026-05-04T10:00+02:00").value();
  ASSERT_TRUE(milling::do_step(book, step).ok());
  open_fold("cleaning");
  machine().way()->editor()->setFocus();
  press(Qt::Key_B);
  enter_in(station, "When", "2026-05-04 9:45");
  machine().log()->click();
  EXPECT_THAT(machine().refusal_words().toStdString(), testing::HasSubstr("at work at that time"));
  EXPECT_TRUE(milling::cleanings_of(*lab.connection, crusher)->empty());
  EXPECT_TRUE(machine().cleaned_at()->typed().contains("9:45")) << "what was typed stays";
}

struct BarePreparation : WithApplication, testing::Test {};

TEST_F(BarePreparation, ALabWithoutMachinesIsAskedForNothing) {
  LabWithSample<> lab;
  Desk desk{*lab.connection, lab.book};
  PreparationStation station{desk.session};
  show(station);
  EXPECT_EQ(PreparationStation::place(desk.session).waiting(), 0);
  EXPECT_FALSE(in_sight(station, "Queue of the machine"));
  EXPECT_TRUE(station.show_record({history::Entity::step, 99}) == false);
}

}  // namespace
}  // namespace prillbook::ui
