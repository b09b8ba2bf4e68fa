// SPDX-License-Identifier: GPL-3.0-or-later
#include <SQLiteCpp/Database.h>
#include <gmock/gmock.h>

#include <QtCore/QMimeData>
#include <QtWidgets/QLabel>
#include <QtWidgets/QListWidget>
#include <QtWidgets/QScrollArea>

#include "core/attachments/attachments.h"
#include "core/custody/custody_record.h"
#include "core/findings/finding.h"
#include "core/history/fields.h"
#include "core/units/units.h"
#include "tests/support/window_hand.h"
#include "ui/kit/waiting_list.h"
#include "ui/photographs/photograph_strip.h"
#include "ui/receiving/receiving_station.h"

namespace prillbook::ui {
namespace {

using namespace testing_support;

struct Receiving : WithApplication, testing::Test {
  MemoryNotebook notebook;
  history::Journal& book = *notebook.journal;
  PersonId person = *lab::add_person(book, "HM");
  ClientId client = *lab::add_client(book, "Larch Adit Syndicate");
  Desk desk{*notebook.connection, book};
  ReceivingStation station{desk.session};

  void SetUp() override {
    QObject::connect(&desk.notifier, &Notifier::written, &station,
                     [this](const auto& written) { station.notebook_changed(written); });
    show(station);
    station.enter();
  }

  std::vector<custody::Sample> samples() {
    const auto consignments = *custody::consignments(*notebook.connection, 5);
    return consignments.empty() ? std::vector<custody::Sample>{}
                                : *custody::samples_of(*notebook.connection, consignments.front().id);
  }

  // From the client's name to the first mark, leaving open what is not asked for.
  void log_consignment(const QString& name) {
    type_and_enter(name);
    for (int i = 0; i < 6; ++i) press(Qt::Key_Return);
    ASSERT_EQ(focused(), "Client's mark");
  }
};

TEST_F(Receiving, NamingTheClientLogsTheConsignment) {
  type_and_enter("larch");
  const auto list = *custody::consignments(*notebook.connection, 5);
  ASSERT_EQ(list.size(), 1u);
  EXPECT_EQ(list[0].client, "Larch Adit Syndicate");
  EXPECT_EQ(custody::consignment(*notebook.connection, list[0].id)->received_by, person);
  EXPECT_EQ(focused(), "Carrier");
  type_and_enter("the post");
  type_and_enter("3");
  type_and_enter("2");
  const auto held = *custody::consignment(*notebook.connection, list[0].id);
  EXPECT_EQ(held.carrier, "the post");
  EXPECT_EQ(held.pieces_declared, 3);
  EXPECT_EQ(held.pieces_found, 2);
}

TEST_F(Receiving, EnterWaitsForTheClientsName) {
  ASSERT_EQ(focused(), "Client");
  press(Qt::Key_Return);
  EXPECT_EQ(focused(), "Client") << "there is nothing else to type yet";
}

TEST_F(Receiving, TabGoesOnFromTheClientToTheFieldThatTheNameOpens) {
  type("larch");
  press(Qt::Key_Tab);
  EXPECT_EQ(focused(), "Carrier");
  EXPECT_EQ(custody::consignments(*notebook.connection, 5)->size(), 1u);
  type("the post");
  press(Qt::Key_Backtab);
  EXPECT_EQ(focused(), "Client");
  EXPECT_EQ(custody::consignment(*notebook.connection, custody::consignments(*notebook.connection, 5)->front().id)->carrier,
            "the post");
}

// The list of clients is open over the field, and has the keys. The entry brings it new words while it hears this one.
TEST_F(Receiving, TabOnTheOpenListGoesOnAsWell) {
  type("larch");
  QWidget* offers = QApplication::activePopupWidget();
  ASSERT_NE(offers, nullptr);
  QTest::keyClick(offers, Qt::Key_Tab);
  settle();
  EXPECT_FALSE(offers->isVisible());
  EXPECT_EQ(focused(), "Carrier");
  ASSERT_EQ(custody::consignments(*notebook.connection, 5)->size(), 1u);
  EXPECT_EQ(custody::consignments(*notebook.connection, 5)->front().client, "Larch Adit Syndicate");
}

TEST_F(Receiving, AnUnknownNameIsANewClient) {
  type_and_enter("Fernhill claim");
  EXPECT_EQ(lab::clients(*notebook.connection)->back().name, "Fernhill claim");
  EXPECT_EQ(custody::consignments(*notebook.connection, 5)->front().client, "Fernhill claim");
}

TEST_F(Receiving, SamplesAreEnteredOneAfterAnotherFromTheKeyboard) {
  log_consignment("larch");
  for (const QString mark : {"Larch adit N", "Larch adit S"}) {
    type_and_enter(mark);
    type_and_enter("north drive");
    type_and_enter("c");  // chip
    type_and_enter("o");  // ordinary
    type_and_enter("s");  // sealed
    type_and_enter("4,55");
    type_and_enter("4,5");
    ASSERT_EQ(focused(), "Next sample");
    press(Qt::Key_Return);
    ASSERT_EQ(focused(), "Client's mark");
  }
  const auto all = samples();
  ASSERT_EQ(all.size(), 2u);
  EXPECT_EQ(all[0].number, "26-0001");
  EXPECT_EQ(all[1].number, "26-0002");
  EXPECT_EQ(all[1].mark, "Larch adit S");
  EXPECT_EQ(all[0].place, "north drive");
  EXPECT_EQ(all[0].kind, "chip");
  EXPECT_EQ(all[0].expected, "ordinary");
  EXPECT_EQ(all[0].condition, "sealed");
  EXPECT_DOUBLE_EQ(all[0].mass_declared->mass().in(unit::kilogram), 4.55);
  EXPECT_DOUBLE_EQ(all[1].mass_received->mass().in(unit::kilogram), 4.5);
  EXPECT_EQ(ReceivingStation::place(desk.session).waiting(), 2);
}

TEST_F(Receiving, ALeakingBagIsNoticedAndItsSweepingsAreTiedToIt) {
  log_consignment("larch");
  type_and_enter("Larch adit N");
  field<ChoiceField>(station, "Condition on receipt")->editor()->setFocus();
  type("l");
  settle();
  ASSERT_EQ(samples().front().condition, "leaking");
  auto* explain = button(station, "Explain");
  ASSERT_NE(explain, nullptr) << "the finding stands in place";
  auto* sweep = button(station, "Log its sweepings");
  ASSERT_NE(sweep, nullptr);
  sweep->setFocus();
  press(Qt::Key_Return);
  EXPECT_EQ(focused(), "Mass received");
  type_and_enter("35 g");
  const auto all = samples();
  ASSERT_EQ(all.size(), 2u);
  EXPECT_EQ(all[1].kind, "sweepings");
  EXPECT_EQ(all[1].swept_from, all[0].id);
  EXPECT_DOUBLE_EQ(all[1].mass_received->mass().in(unit::gram), 35);
}

TEST_F(Receiving, AFindingIsAnsweredInPlace) {
  log_consignment("larch");
  type_and_enter("Larch adit N");
  enter_in(station, "Mass declared", "4.55");
  type_and_enter("4.10");
  button(station, "Explain")->click();
  ASSERT_EQ(focused(), "What explains it");
  type_and_enter("weighed wet by the client");
  const auto found = *findings::findings_of(*notebook.connection, samples().front().id);
  ASSERT_EQ(found.size(), 1u);
  ASSERT_TRUE(found[0].answer.has_value());
  EXPECT_EQ(found[0].answer->explanation, "weighed wet by the client");
  settle();
  EXPECT_EQ(button(station, "Explain"), nullptr);
}

TEST_F(Receiving, ACorrectedMassAsksWhyAndKeepsTheWords) {
  log_consignment("larch");
  type_and_enter("Larch adit N");
  enter_in(station, "Mass received", "4.1");
  const SampleId id = samples().front().id;
  enter_in(station, "Mass received", "4.2");
  EXPECT_EQ(focused(), "Why?");
  EXPECT_DOUBLE_EQ(custody::sample(*notebook.connection, id)->mass_received->value, 4100) << "not written before the why";
  type_and_enter("tare of the bag forgotten");
  EXPECT_DOUBLE_EQ(custody::sample(*notebook.connection, id)->mass_received->value, 4200);
  settle();
  EXPECT_EQ(focused(), "Next sample");
}

TEST_F(Receiving, EscapeAtTheWhyLeavesTheOldFigure) {
  log_consignment("larch");
  type_and_enter("Larch adit N");
  enter_in(station, "Mass received", "4.1");
  enter_in(station, "Mass received", "4.2");
  press(Qt::Key_Escape);
  EXPECT_EQ(focused(), "Mass received");
  EXPECT_EQ(field<LineField>(station, "Mass received")->typed(), "4.1");
  EXPECT_DOUBLE_EQ(samples().front().mass_received->value, 4100);
}

TEST_F(Receiving, AMassBelowWhatWasCutIsRefusedWithWhatThereIs) {
  log_consignment("larch");
  type_and_enter("Larch adit N");
  enter_in(station, "Mass received", "4.1");
  ASSERT_TRUE(portions::cut(book, {samples().front().id, {}, "pan", figure("3 kg"), {}, person, {}}).ok());
  enter_in(station, "Mass received", "2");
  press(Qt::Key_Return);
  settle();
  const auto* mass = field<LineField>(station, "Mass received");
  EXPECT_TRUE(mass->refused());
  EXPECT_EQ(mass->typed(), "2");
  EXPECT_THAT(mass->error_text().toStdString(), testing::HasSubstr("2 kg"));
  EXPECT_DOUBLE_EQ(samples().front().mass_received->value, 4100);
}

TEST_F(Receiving, TypedTextOutlivesAChangeElsewhere) {
  log_consignment("larch");
  type("half a ma");
  ASSERT_TRUE(lab::add_client(book, "Somebody else").ok());
  EXPECT_EQ(field<LineField>(station, "Client's mark")->typed(), "half a ma");
}

TEST_F(Receiving, WhatIsTakenBackLeavesTheHand) {
  log_consignment("larch");
  type_and_enter("Larch adit N");
  ASSERT_TRUE(book.undo().ok());
  settle();
  EXPECT_EQ(ReceivingStation::place(desk.session).waiting(), 0);
  ASSERT_TRUE(book.undo().ok());
  settle();
  EXPECT_FALSE(in_sight(station, "Client's mark"));
  EXPECT_TRUE(in_sight(station, "Client"));
}

TEST_F(Receiving, OnlyAConsignmentHasItsPlaceHere) {
  log_consignment("larch");
  type_and_enter("Larch adit N");
  const auto consignment = custody::consignments(*notebook.connection, 1)->front().id;
  EXPECT_TRUE(station.show_record({history::Entity::consignment, consignment.value}));
  EXPECT_FALSE(station.show_record({history::Entity::sample, samples().front().id.value}));
  EXPECT_FALSE(station.show_record({history::Entity::consignment, 99}));
}

TEST_F(Receiving, LabelsAreAskedForTheWholeConsignmentOrOneSample) {
  EXPECT_EQ(button(station, "Labels…"), nullptr) << "nothing to label yet";
  log_consignment("larch");
  type_and_enter("Larch adit N");
  std::vector<RecordRef> asked;
  QObject::connect(&station, &ReceivingStation::labels_requested, &station, [&](const RecordRef& of) { asked.push_back(of); });
  ASSERT_NE(button(station, "Labels…"), nullptr);
  button(station, "Labels…")->click();
  ASSERT_NE(button(station, "Label of 26-0001…"), nullptr);
  button(station, "Label of 26-0001…")->click();
  ASSERT_EQ(asked.size(), 2u);
  EXPECT_EQ(asked[0].entity, history::Entity::consignment);
  EXPECT_EQ(asked[1], (RecordRef{history::Entity::sample, samples().front().id.value}));
}

TEST_F(Receiving, PhotographsGoToWhatIsInHand) {
  log_consignment("larch");
  auto* strip = station.findChild<PhotographStrip*>();
  QImage image(20, 10, QImage::Format_RGB32);
  image.fill(Qt::darkGreen);
  QMimeData data;
  data.setImageData(image);
  strip->add_from(data);
  type_and_enter("Larch adit N");
  EXPECT_EQ(strip->count(), 0) << "the sample has none yet";
  image.fill(Qt::darkRed);
  data.setImageData(image);
  strip->add_from(data);
  const ConsignmentId consignment = custody::consignments(*notebook.connection, 1)->front().id;
  EXPECT_EQ(attachments::attachments_of(*notebook.connection, {{}, consignment})->size(), 1u);
  EXPECT_EQ(attachments::attachments_of(*notebook.connection, {samples().front().id, {}})->size(), 1u);
  EXPECT_EQ(strip->count(), 1);
}

TEST_F(Receiving, APieceThatIsNotWrittenIsSaid) {
  log_consignment("larch");
  button(station, "Pieces and seals")->click();
  notebook.connection->database().exec("PRAGMA query_only = ON");
  button(station, "Add a piece")->click();
  const auto says = [this](const QString& words) {
    for (const QLabel* label : station.findChildren<QLabel*>())
      if (label->isVisible() && label->text().contains(words)) return true;
    return false;
  };
  EXPECT_TRUE(says("can be read but not written"));
  notebook.connection->database().exec("PRAGMA query_only = OFF");
  button(station, "Add a piece")->click();
  EXPECT_FALSE(says("can be read but not written"));
}

TEST_F(Receiving, PiecesAreAddedWithTheirSeals) {
  log_consignment("larch");
  button(station, "Pieces and seals")->click();
  button(station, "Add a piece")->click();
  enter_in(station, "Seal named", "4471");
  enter_in(station, "Seal found", "4471");
  field<ChoiceField>(station, "State of the seal")->editor()->setFocus();
  type("i");
  settle();
  const auto pieces = *custody::pieces_of(*notebook.connection, custody::consignments(*notebook.connection, 1)->front().id);
  ASSERT_EQ(pieces.size(), 1u);
  EXPECT_EQ(pieces[0].seal_declared, "4471");
  EXPECT_EQ(pieces[0].seal, "4471");
  EXPECT_EQ(pieces[0].seal_state, "intact");
}

TEST_F(Receiving, GrossAndTareGiveTheMassReceived) {
  log_consignment("larch");
  type_and_enter("Larch adit N");
  button(station, "Bag, tests, due, price, keeping")->click();
  enter_in(station, "Gross, with the bag", "4.5");
  enter_in(station, "Tare, the empty bag", "5");
  EXPECT_TRUE(field<LineField>(station, "Tare, the empty bag")->refused());
  enter_in(station, "Tare, the empty bag", "0.1");
  EXPECT_DOUBLE_EQ(samples().front().mass_received->value, 4400);
  enter_in(station, "Tests wanted", "fire pan");
  EXPECT_EQ(samples().front().tests_wanted, "pan, fire");
  enter_in(station, "Tests wanted", "taste");
  EXPECT_TRUE(field<LineField>(station, "Tests wanted")->refused());
  EXPECT_EQ(field<LineField>(station, "Tests wanted")->error_text(),
            "“taste” is not one of: pan, fire, sieve, metallics, moisture.");
}

TEST_F(Receiving, SeveralSamplesAreHandedOverAtOnce) {
  log_consignment("larch");
  type_and_enter("Larch adit N");
  button(station, "Next sample")->click();
  type_and_enter("Larch adit S");
  button(station, "Who has it")->click();
  EXPECT_EQ(field<LineField>(station, "From")->typed(), "HM");
  auto* list = station.findChild<QListWidget*>();
  ASSERT_NE(list, nullptr);
  ASSERT_EQ(list->count(), 2);
  list->setFocus();
  list->setCurrentRow(0);
  press(Qt::Key_Space);
  enter_in(station, "To", "TB");
  enter_in(station, "Where it goes", "crusher bench");
  button(station, "Write the hand-over of 2 samples")->click();
  settle();
  for (const custody::Sample& sample : samples()) {
    const auto chain =
        custody::chain_of(*notebook.connection, sample, *custody::consignment(*notebook.connection, sample.consignment));
    EXPECT_EQ(chain->holder(), "TB") << sample.number;
    EXPECT_EQ(chain->place(), "crusher bench") << "a new name is a new place";
  }
  EXPECT_EQ(field<LineField>(station, "From")->typed(), "TB") << "the next one starts where the last ended";
  ASSERT_TRUE(book.undo().ok());
  settle();
  EXPECT_EQ(field<LineField>(station, "From")->typed(), "HM") << "what was taken back is no holder";
}

TEST_F(Receiving, AWholeConsignmentIsTakenAlongAtOnce) {
  log_consignment("larch");
  for (const char* mark : {"Larch adit N", "Larch adit S", "Larch dump"}) {
    type_and_enter(mark);
    button(station, "Next sample")->click();
  }
  station.take_sample(samples().front().id);
  button(station, "Who has it")->click();
  button(station, "Take all along")->click();
  enter_in(station, "To", "TB");
  button(station, "Write the hand-over of 3 samples")->click();
  settle();
  for (const custody::Sample& sample : samples())
    EXPECT_EQ(custody::chain_of(*notebook.connection, sample, *custody::consignment(*notebook.connection, sample.consignment))
                  ->holder(),
              "TB")
        << sample.number;
  EXPECT_NE(button(station, "Write the hand-over"), nullptr) << "the next hand-over is of the sample in hand alone";
}

TEST_F(Receiving, ALargePhotographStandsInViewWhole) {
  log_consignment("larch");
  type_and_enter("Larch adit N");
  auto* strip = station.findChild<PhotographStrip*>();
  QImage picture(600, 800, QImage::Format_RGB32);
  picture.fill(Qt::red);
  QMimeData pasted;
  pasted.setImageData(picture);
  strip->add_from(pasted);
  strip->open_large();
  settle();
  const QLabel* large = nullptr;
  for (const QLabel* label : strip->findChildren<QLabel*>())
    if (label->accessibleName() == "The photograph") large = label;
  ASSERT_NE(large, nullptr);
  const QWidget* view = station.findChild<QScrollArea*>()->viewport();
  const QRect seen(large->mapTo(view, QPoint()), large->size());
  EXPECT_TRUE(view->rect().contains(seen)) << seen.top() << " to " << seen.bottom() << " of " << view->height();
}

TEST_F(Receiving, AHandOverToNobodyIsRefusedInPlace) {
  log_consignment("larch");
  type_and_enter("Larch adit N");
  button(station, "Who has it")->click();
  button(station, "Write the hand-over")->click();
  EXPECT_TRUE(field<LineField>(station, "To")->refused());
  EXPECT_EQ(focused(), "To");
}

TEST_F(Receiving, AHandOverByNobodyIsRefusedAtTheGiver) {
  log_consignment("larch");
  const ConsignmentId held = custody::consignments(*notebook.connection, 1)->front().id;
  ASSERT_TRUE(readings::enter(book, history::fields::consignment::received_by, held.value, history::Value{}).ok());
  type_and_enter("Larch adit N");
  button(station, "Who has it")->click();
  enter_in(station, "To", "TB");
  button(station, "Write the hand-over")->click();
  EXPECT_TRUE(field<LineField>(station, "From")->refused());
  EXPECT_FALSE(field<LineField>(station, "To")->refused());
  EXPECT_EQ(focused(), "From");
}

TEST_F(Receiving, WhatIsDueAndWhatIsKeptTooLongStandInTheList) {
  namespace f = history::fields::sample;
  log_consignment("larch");
  type_and_enter("Larch adit N");
  const SampleId id = samples().front().id;
  auto& rows = station.findChild<WaitingList*>()->rows();
  ASSERT_TRUE(readings::enter(book, f::due, id.value, std::string("2026-05-01T12:00:00.000+02:00")).ok());
  settle();
  EXPECT_THAT(rows.row(rows.index(0))->words.toStdString(), testing::HasSubstr("overdue since 1 May 2026"));
  ASSERT_TRUE(portions::cut(book, {id, {}, "retain", {}, {}, person, {}}).ok());
  settle();
  EXPECT_EQ(rows.rowCount(), 0);
  ASSERT_TRUE(readings::enter(book, f::retain_until, id.value, std::string("2026-05-01T12:00:00.000+02:00")).ok());
  settle();
  ASSERT_EQ(rows.rowCount(), 1);
  EXPECT_THAT(rows.row(rows.index(0))->words.toStdString(), testing::HasSubstr("return it or dispose of it"));
}

TEST_F(Receiving, AConsignmentWithoutSamplesWaitsAsWell) {
  type_and_enter("larch");
  station.new_consignment();
  const auto* list = station.findChild<WaitingList*>();
  ASSERT_EQ(const_cast<WaitingList*>(list)->rows().rowCount(), 1);
}

}  // namespace
}  // namespace prillbook::ui
