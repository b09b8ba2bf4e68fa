// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/pan/pan_station.h"

#include <gmock/gmock.h>

#include <QtWidgets/QLabel>

#include "core/units/units.h"
#include "tests/support/sieve_bench.h"
#include "tests/support/window_hand.h"
#include "ui/kit/waiting_list.h"

namespace prillbook::ui {
namespace {

using namespace testing_support;

struct PanBench : WithApplication, testing::Test, SieveBench {
  Desk desk{*connection, book};

  // As the window does.
  struct Shown {
    PanStation station;
    explicit Shown(PanBench& bench) : station(bench.desk.session) {
      QObject::connect(&bench.desk.notifier, &Notifier::written, &station,
                       [this](const auto& written) { station.notebook_changed(written); });
      show(station);
      station.enter();
      settle();
    }
  };

  results::PanEntry in_hand() { return record().pan_tests.back(); }
  static bool says(QWidget& root, const QString& words) {
    settle();
    for (const QLabel* label : root.findChildren<QLabel*>())
      if (label->isVisible() && label->text().contains(words)) return true;
    return false;
  }
};

TEST_F(PanBench, APortionWaitsAndEnterBeginsItsTest) {
  cut("1 kg", "pan").value();
  Shown shown(*this);
  EXPECT_EQ(PanStation::place(desk.session).waiting(), 1);
  press(Qt::Key_Return);
  EXPECT_EQ(PanStation::place(desk.session).waiting(), 0);
  ASSERT_EQ(record().pan_tests.size(), 1u);
  ASSERT_EQ(in_hand().pannings.size(), 1u);
  EXPECT_EQ(in_hand().pannings[0].kind, "first");
  ASSERT_EQ(focused(), "Grind, P80");
  type_and_enter("300");
  EXPECT_EQ(in_hand().test.grind->opening(), Opening(300, unit::micrometre));
}

TEST_F(PanBench, WhatThePannerSawIsWritten) {
  panned("1 kg", "300 um", "5 mg");
  Shown shown(*this);
  enter_in(shown.station, "above 1 mm", "1");
  enter_in(shown.station, "0.25 to 1 mm", "7");
  enter_in(shown.station, "below 0.25 mm", "40");
  enter_in(shown.station, "Magnetite pulled", "1,2");
  enter_in(shown.station, "Free gold, raw", "5.8");
  const gravity::PanTest test = in_hand().test;
  EXPECT_EQ(test.colours_coarse, 1);
  EXPECT_EQ(test.colours_middle, 7);
  EXPECT_EQ(test.colours_fine, 40);
  EXPECT_NEAR(test.magnetite->mass().in(unit::gram), 1.2, 1e-12);
  EXPECT_NEAR(test.free_gold->mass().in(unit::milligram), 5.8, 1e-12);
}

TEST_F(PanBench, ABadCountStaysAsTyped) {
  panned("1 kg", "300 um", "5 mg");
  Shown shown(*this);
  enter_in(shown.station, "below 0.25 mm", "many");
  EXPECT_FALSE(in_hand().test.colours_fine);
  EXPECT_EQ(field<LineField>(shown.station, "below 0.25 mm")->line()->text(), "many");
}

TEST_F(PanBench, PanningsFollowEachOther) {
  panned("1 kg", "300 um", "5 mg");
  Shown shown(*this);
  button(shown.station, "First pan")->click();
  settle();
  EXPECT_EQ(button(shown.station, "First pan"), nullptr) << "it is noted once";
  button(shown.station, "Re-pan of the tail")->click();
  settle();
  enter_in(shown.station, "Kept in re-pan of the tail", "12 g");
  ASSERT_EQ(in_hand().pannings.size(), 2u);
  EXPECT_EQ(in_hand().pannings[1].concentrate->typed, "12 g");
  enter_in(shown.station, "Kept in first pan", "3 kg");
  EXPECT_FALSE(in_hand().pannings[0].concentrate) << "more than the portion";
}

TEST_F(PanBench, TheGrindIsTakenFromTheSieveAnalysisOfTheSameSplit) {
  const auto beside = sieved(*cut("100 g", "sieve"), stack({}, "300, 150 µm"), {"10 g", "40 g", "50 g"});
  panned("1 kg", "150 um", "5 mg");
  Shown shown(*this);
  QAbstractButton* take = nullptr;
  for (QAbstractButton* one : shown.station.findChildren<QAbstractButton*>())
    if (one->isVisible() && one->text().startsWith("Take P80")) take = one;
  ASSERT_NE(take, nullptr);
  EXPECT_EQ(take->shortcut(), QKeySequence(Qt::ALT | Qt::Key_G));
  take->click();
  settle();
  EXPECT_EQ(in_hand().test.grind_from, beside);
  EXPECT_NEAR(in_hand().test.grind->value, result().sizes[0].curve->p80.size->in(unit::micrometre), 2);
  EXPECT_FALSE(take->isVisible());
  EXPECT_TRUE(says(shown.station, "P80 of the sieve analysis"));
}

TEST_F(PanBench, TheBalanceStandsAsItIs) {
  panned("1 kg", "300 um", "10 mg");
  Shown shown(*this);
  EXPECT_TRUE(says(shown.station, "no gold figure of the remainder, the tail, fire"));
  enter_in(shown.station, "Concentrate remainder", "20 g");
  enter_in(shown.station, "Tail", "975 g");
  EXPECT_FALSE(says(shown.station, "once portion, remainder and tail are weighed"));
  EXPECT_EQ(result().pan_accounts[0].not_accounted->in(unit::gram), 5);
}

TEST_F(PanBench, MercuryAsksWhatBecameOfIt) {
  panned("1 kg", "300 um", "5 mg");
  Shown shown(*this);
  EXPECT_FALSE(in_sight(shown.station, "Mercury: how driven off and caught"));
  EXPECT_FALSE(says(shown.station, "Amalgam is never heated"));
  ASSERT_TRUE(readings::enter(book, history::fields::pan_test::bead_by, in_hand().test.id.value,
                              readings::cell_of(std::optional<std::string>("amalgamated")))
                  .ok());
  settle();
  EXPECT_TRUE(says(shown.station, "Amalgam is never heated"));
  enter_in(shown.station, "Mercury: how driven off and caught", "retorted by a licensed works");
  EXPECT_EQ(in_hand().test.mercury, "retorted by a licensed works");
}

TEST_F(PanBench, PanningsAtOtherGrindsStandBeside) {
  panned("1 kg", "300 um", "8 mg");
  panned("1 kg", "150 um", "10 mg");
  Shown shown(*this);
  EXPECT_TRUE(says(shown.station, "Pannings of this sample"));
  EXPECT_TRUE(says(shown.station, "300 µm"));
  EXPECT_TRUE(says(shown.station, "150 µm"));
}

TEST_F(PanBench, WhatIsTakenBackLeavesTheHand) {
  cut("1 kg", "pan").value();
  Shown shown(*this);
  press(Qt::Key_Return);
  ASSERT_EQ(record().pan_tests.size(), 1u);
  ASSERT_TRUE(book.undo().ok());
  settle();
  EXPECT_EQ(PanStation::place(desk.session).waiting(), 1);
}

TEST_F(PanBench, HasAPlaceForPanningsAlone) {
  const PanTestId test = panned("1 kg", "300 um", "5 mg");
  const auto panning = gravity::add_panning(book, {test, "first", {}, person, {}});
  Shown shown(*this);
  EXPECT_TRUE(shown.station.show_record({history::Entity::panning, panning->value}));
  EXPECT_FALSE(shown.station.show_record({history::Entity::panning, 999}));
  EXPECT_FALSE(shown.station.show_record({history::Entity::sample, sample.value}));
}

}  // namespace
}  // namespace prillbook::ui
