// SPDX-License-Identifier: GPL-3.0-or-later
// A tray weighed by hand: every figure goes through the keyboard and is looked up in the notebook afterwards.
#include "ui/weigh_room/weigh_room.h"

#include <gmock/gmock.h>

#include <QtWidgets/QApplication>
#include <QtWidgets/QLabel>
#include <QtWidgets/QLineEdit>

#include "core/history/fields.h"
#include "tests/support/desk.h"
#include "tests/support/keys.h"
#include "ui/kit/choice_row.h"
#include "ui/kit/reason_line.h"
#include "ui/weigh_room/fineness_form.h"
#include "ui/weigh_room/mass_field.h"
#include "ui/weigh_room/recent_readings.h"
#include "ui/weigh_room/tray_row.h"

namespace prillbook::ui {
namespace {

using testing::HasSubstr;
using testing_support::Desk;
using testing_support::figure;
using testing_support::press;
using testing_support::write;

struct AtTheBalance : testing::Test, Desk {
  gravity::StartedPanTest first = pan("1 kg");
  fire::StartedCharge second = fire("30 g");
  fire::StartedCharge third = fire("30 g");
  WeighRoom room{session};
  MassField& field = *room.findChild<MassField*>();

  AtTheBalance() {
    QObject::connect(&notifier, &Notifier::written, &room, &WeighRoom::notebook_changed);
    room.resize(1000, 640);
    room.show();
    room.enter();
  }
  void type(const QString& text) { write(field.line(), text); }
  void enter(const QString& text) {
    type(text);
    press(field.line(), Qt::Key_Return);
  }
  weighing::Bead held(BeadId id) { return *weighing::bead(*connection, id); }
  std::vector<std::string> typed(BeadId id, std::string_view what = weighing::of_bead) {
    std::vector<std::string> list;
    const weighing::Bead bead = held(id);
    for (const auto* one : bead.valid(what)) list.push_back(one->mass.typed);
    return list;
  }
  std::string label_with(const QString& part) {
    for (const QLabel* label : room.findChildren<QLabel*>())
      if (label->isVisibleTo(&room) && label->text().contains(part)) return label->text().toStdString();
    return "";
  }
};

TEST_F(AtTheBalance, ATrayByKeyboardAlone) {
  EXPECT_EQ(room.in_hand(), first.bead);
  EXPECT_EQ(room.focusWidget(), field.line());
  enter("22");
  EXPECT_EQ(room.in_hand(), second.bead);
  EXPECT_TRUE(field.typed().isEmpty());
  enter("0,9");
  enter("1.1 mg");
  EXPECT_EQ(typed(first.bead), std::vector<std::string>{"22"});
  EXPECT_DOUBLE_EQ(held(first.bead).weighings[0].mass.value, 0.022);
  EXPECT_DOUBLE_EQ(held(second.bead).weighings[0].mass.value, 0.0009);
  EXPECT_EQ(held(second.bead).weighings[0].mass.mark, DecimalMark::comma);
  EXPECT_DOUBLE_EQ(held(third.bead).weighings[0].mass.value, 0.0011);
  EXPECT_EQ(held(third.bead).weighings[0].balance, balance);
  EXPECT_EQ(held(third.bead).weighings[0].weighed_by, person);
  EXPECT_FALSE(room.in_hand());
  EXPECT_EQ(WeighRoom::place(session).waiting(), 0);
  EXPECT_THAT(label_with("done"), HasSubstr("tray is done"));
}

TEST_F(AtTheBalance, TheGradeAppearsWhileTyping) {
  type("22");
  // Common practice, no source: 1 kg with a bead of 22 mg is 22 g/t of bead.
  EXPECT_THAT(label_with("g/t"), HasSubstr("22.00"));
  EXPECT_THAT(label_with("as typed"), HasSubstr("gold and silver together"));
  press(field.line(), Qt::Key_Escape);
  EXPECT_EQ(label_with("g/t"), "");
  EXPECT_TRUE(typed(first.bead).empty());
}

TEST_F(AtTheBalance, GramsForMilligramsAreAnsweredByOneKey) {
  enter("22 g");
  EXPECT_TRUE(typed(first.bead).empty());
  EXPECT_THAT(field.question_text().toStdString(), HasSubstr("22000 g/t"));
  EXPECT_THAT(field.question_text().toStdString(), HasSubstr("22 mg"));
  press(field.line(), Qt::Key_M, Qt::NoModifier, "m");
  ASSERT_EQ(held(first.bead).weighings.size(), 1u);
  EXPECT_DOUBLE_EQ(held(first.bead).weighings[0].mass.value, 0.022);
  EXPECT_EQ(held(first.bead).weighings[0].mass.answer, "22 mg, not 22\u202Fg");
  EXPECT_EQ(room.in_hand(), second.bead);
}

TEST_F(AtTheBalance, ADoubtfulFigureIsKeptByEnterWithItsAnswer) {
  enter("22.0005");
  EXPECT_THAT(field.question_text().toStdString(), HasSubstr("step"));
  press(field.line(), Qt::Key_Return);
  ASSERT_EQ(held(first.bead).weighings.size(), 1u);
  EXPECT_THAT(held(first.bead).weighings[0].mass.answer.value_or(""), HasSubstr("no multiple"));
}

TEST_F(AtTheBalance, ABeadHeavierThanItsPortionIsRefusedAndStaysTyped) {
  press(field.line(), Qt::Key_Down);
  EXPECT_EQ(room.in_hand(), second.bead);
  enter("31000 mg");
  EXPECT_THAT(field.error_text().toStdString(), HasSubstr("30 g"));
  EXPECT_EQ(field.typed(), "31000 mg");
  EXPECT_TRUE(held(second.bead).weighings.empty());
}

TEST_F(AtTheBalance, PlusWeighsTheSameBeadAgain) {
  type("22");
  press(field.line(), Qt::Key_Plus, Qt::NoModifier, "+");
  EXPECT_EQ(room.in_hand(), first.bead);
  EXPECT_THAT(label_with("weighing 2"), HasSubstr("22"));
  enter("22.003");
  EXPECT_EQ(typed(first.bead), (std::vector<std::string>{"22", "22.003"}));
  EXPECT_EQ(room.in_hand(), second.bead);
}

TEST_F(AtTheBalance, DigitsExchangedAgainstTheFirstWeighingAreAnsweredByOneKey) {
  type("22.134");
  press(field.line(), Qt::Key_Plus, Qt::NoModifier, "+");
  enter("22.314");
  EXPECT_EQ(typed(first.bead), std::vector<std::string>{"22.134"});
  EXPECT_THAT(field.question_text().toStdString(), HasSubstr("0.18 mg off what was weighed before"));
  press(field.line(), Qt::Key_D, Qt::NoModifier, "d");
  ASSERT_EQ(held(first.bead).weighings.size(), 2u);
  EXPECT_EQ(held(first.bead).weighings[1].mass.answer, "22.134 mg, not 22.314 mg");
}

TEST_F(AtTheBalance, NoneSeenIsAskedOnce) {
  press(field.line(), Qt::Key_N, Qt::NoModifier, "n");
  EXPECT_FALSE(held(first.bead).none_seen);
  press(field.line(), Qt::Key_O, Qt::NoModifier, "o");  // not meant: the figure goes on
  EXPECT_EQ(room.in_hand(), first.bead);
  press(field.line(), Qt::Key_Backspace);
  press(field.line(), Qt::Key_N, Qt::NoModifier, "n");
  press(field.line(), Qt::Key_Return);
  EXPECT_TRUE(held(first.bead).none_seen);
  EXPECT_EQ(room.in_hand(), second.bead);
}

TEST_F(AtTheBalance, ALostBeadKeepsItsReason) {
  press(field.line(), Qt::Key_S, Qt::NoModifier, "s");
  auto* reason = room.findChild<ReasonLine*>();
  ASSERT_TRUE(reason->open());
  press(reason->field()->line(), Qt::Key_Return);  // no reason, no entry
  EXPECT_FALSE(gravity::pan_test(*connection, first.test)->spoiled);
  write(reason->field()->line(), "sprang off the tweezers");
  press(reason->field()->line(), Qt::Key_Return);
  QApplication::processEvents();
  EXPECT_EQ(gravity::pan_test(*connection, first.test)->spoiled, "sprang off the tweezers");
  EXPECT_EQ(room.in_hand(), second.bead);
  EXPECT_EQ(room.focusWidget(), field.line());
  press(field.line(), Qt::Key_S, Qt::NoModifier, "s");
  press(reason->field()->line(), Qt::Key_Escape);
  EXPECT_FALSE(reason->open());
  EXPECT_FALSE(fire::charge(*connection, second.charge)->spoiled);
}

TEST_F(AtTheBalance, BackspaceOnTheEmptyFieldGoesBack) {
  enter("22");
  press(field.line(), Qt::Key_Backspace);
  EXPECT_EQ(room.in_hand(), first.bead);
  EXPECT_THAT(label_with("weighing 2"), HasSubstr("22"));
}

TEST_F(AtTheBalance, TypedTextOutlivesALookAtAnotherBead) {
  type("22");
  ASSERT_TRUE(room.show_record({history::Entity::charge, second.charge.value}));
  EXPECT_TRUE(field.typed().isEmpty());
  ASSERT_TRUE(room.show_record({history::Entity::pan_test, first.test.value}));
  press(field.line(), Qt::Key_Z, Qt::ControlModifier);
  EXPECT_EQ(field.typed(), "22");
  EXPECT_TRUE(typed(first.bead).empty());
}

TEST_F(AtTheBalance, ACorrectionKeepsTheOldReadingInTheHistory) {
  enter("22");
  press(field.line(), Qt::Key_Up);
  auto& recent = *room.findChild<RecentReadings*>();
  ASSERT_EQ(room.focusWidget(), recent.corrected()->line());
  write(recent.corrected()->line(), "23");
  press(recent.corrected()->line(), Qt::Key_Return);
  EXPECT_EQ(typed(first.bead), std::vector<std::string>{"22"});  // not before the reason
  write(recent.why()->line(), "read the wrong line");
  press(recent.why()->line(), Qt::Key_Return);
  QApplication::processEvents();
  EXPECT_EQ(typed(first.bead), std::vector<std::string>{"23"});
  EXPECT_EQ(room.focusWidget(), field.line());
  ASSERT_TRUE(book.undo().ok());
  EXPECT_EQ(typed(first.bead), std::vector<std::string>{"22"});
}

TEST_F(AtTheBalance, PartedGoldComesFromTheSameField) {
  enter("22");
  auto* what = room.findChild<ChoiceRow*>();
  press(what, Qt::Key_G, Qt::NoModifier, "g");
  room.enter();
  EXPECT_EQ(room.in_hand(), first.bead);
  enter("23");
  EXPECT_THAT(field.error_text().toStdString(), HasSubstr("22"));  // more gold than bead
  field.line()->clear();
  field.type("");
  enter("16.5");
  EXPECT_EQ(typed(first.bead, weighing::of_gold), std::vector<std::string>{"16.5"});
  EXPECT_EQ(held(first.bead).method, "parted");
}

TEST_F(AtTheBalance, FinenessIsOneEntry) {
  auto& form = *room.findChild<FinenessForm*>();
  auto* method = form.findChild<ChoiceRow*>();
  press(method, Qt::Key_D, Qt::NoModifier, "d");
  EXPECT_FALSE(held(first.bead).method);
  write(form.fineness()->line(), "750");
  press(form.fineness()->line(), Qt::Key_Return);
  EXPECT_FALSE(held(first.bead).method);  // density needs its uncertainty
  write(form.uncertainty()->line(), "12");
  press(form.uncertainty()->line(), Qt::Key_Return);
  const auto bead = held(first.bead);
  EXPECT_EQ(bead.method, "density");
  EXPECT_EQ(bead.fineness->value, 750);
  EXPECT_EQ(bead.fineness_u->value, 12);
}

TEST_F(AtTheBalance, WeightsInAirAndWaterGiveTheFineness) {
  auto& form = *room.findChild<FinenessForm*>();
  press(form.findChild<ChoiceRow*>(), Qt::Key_D, Qt::NoModifier, "d");
  write(form.in_air()->line(), "22");
  press(form.in_air()->line(), Qt::Key_Return);
  EXPECT_FALSE(held(first.bead).method) << "half an entry";
  write(form.in_water()->line(), "21,9");  // too little lost: no alloy of the two is so heavy
  press(form.in_water()->line(), Qt::Key_Return);
  EXPECT_FALSE(form.in_water()->error_text().isEmpty());
  EXPECT_FALSE(held(first.bead).method);
  form.in_water()->line()->clear();
  write(form.in_water()->line(), "20.63");
  press(form.in_water()->line(), Qt::Key_Return);
  EXPECT_EQ(held(first.bead).method, "density");
  EXPECT_EQ(held(first.bead).in_water->typed, "20.63");
  EXPECT_FALSE(form.fineness()->typed().isEmpty());
  EXPECT_FALSE(form.uncertainty()->typed().isEmpty());
}

TEST_F(AtTheBalance, UnitAndBalanceAreRemembered) {
  ASSERT_TRUE(lab::add_balance(book, "bench balance", figure("0.1 g")).ok());
  const auto balance_of = [](WeighRoom& one) {
    for (PickField* pick : one.findChildren<PickField*>())
      if (pick->label() == QStringLiteral("Balance")) return pick;
    return static_cast<PickField*>(nullptr);
  };
  auto* balance_line = balance_of(room)->line();
  balance_line->selectAll();
  write(balance_line, "bench");
  press(balance_line, Qt::Key_Return);
  press(room.findChildren<ChoiceRow*>().at(1), Qt::Key_G, Qt::NoModifier, "g");
  WeighRoom later(session);
  EXPECT_EQ(balance_of(later)->typed(), "bench balance");
  auto* later_field = later.findChild<MassField*>();
  write(later_field->line(), "0.3");
  press(later_field->line(), Qt::Key_Return);
  press(later_field->line(), Qt::Key_Return);  // three steps: asked about, and kept
  ASSERT_EQ(held(first.bead).weighings.size(), 1u);
  EXPECT_DOUBLE_EQ(held(first.bead).weighings[0].mass.value, 0.3);
}

TEST_F(AtTheBalance, TheTrayShowsWhatBecameOfEachBead) {
  enter("22");
  press(field.line(), Qt::Key_N, Qt::NoModifier, "n");
  press(field.line(), Qt::Key_Return);
  const auto& places = room.findChild<TrayRow*>()->places();
  ASSERT_EQ(places.size(), 3u);
  EXPECT_EQ(places[0].state, TrayPlace::State::weighed);
  EXPECT_EQ(places[1].state, TrayPlace::State::none_seen);
  EXPECT_EQ(places[2].state, TrayPlace::State::waiting);
}

}  // namespace
}  // namespace prillbook::ui
