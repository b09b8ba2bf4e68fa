// SPDX-License-Identifier: GPL-3.0-or-later
#include <gmock/gmock.h>

#include <QtWidgets/QLabel>

#include "core/fire/design_record.h"
#include "core/fire/furnace_lists.h"
#include "core/fire/runs.h"
#include "core/history/fields.h"
#include "tests/support/window_hand.h"
#include "ui/furnace/furnace_station.h"
#include "ui/furnace/temperature_chart.h"
#include "ui/furnace/words.h"
#include "ui/kit/waiting_list.h"

namespace prillbook::ui {
namespace {

using namespace testing_support;
using testing::HasSubstr;

struct Furnace : WithApplication, testing::Test, LabWithSample<> {
  Desk desk{*connection, book};

  // As the window does.
  struct Shown {
    FurnaceStation station;
    explicit Shown(Furnace& bench) : station(bench.desk.session) {
      QObject::connect(&bench.desk.notifier, &Notifier::written, &station,
                       [this](const auto& written) { station.notebook_changed(written); });
      show(station);
      station.enter();
      settle();
    }
  };
  static bool says(QWidget& root, const QString& words) {
    settle();
    for (const QLabel* label : root.findChildren<QLabel*>())
      if (label->isVisible() && label->text().contains(words)) return true;
    return false;
  }
  static void click(QWidget& root, const QString& words) {
    for (QAbstractButton* button : root.findChildren<QAbstractButton*>())
      if (button->text() == words && button->isVisible()) return button->click();
    ADD_FAILURE() << "no button in sight: " << words.toStdString();
  }
};

TEST_F(Furnace, ADesignAppearsWhereWhatIsKnownIsTyped) {
  const PortionId portion = *cut("50 g", "fire");
  Shown shown(*this);
  FurnaceStation& station = shown.station;
  EXPECT_EQ(FurnaceStation::place(desk.session).waiting(), 1);
  EXPECT_TRUE(says(station, "Say the kind of ore"));
  ASSERT_TRUE(book.record("t",
                          [&](history::ChangeSet& set) {
                            return fire::set_design(set, portion, history::fields::charge_design::ore_kind,
                                                    readings::cell_of(std::optional<std::string>("siliceous")));
                          })
                  .ok());
  EXPECT_TRUE(says(station, "Designed: Button 35.0"));
  enter_in(station, "Button wanted", "30");
  EXPECT_TRUE(says(station, "Designed: Button 30.0"));
  enter_in(station, "Cupel", "25 g");
  EXPECT_TRUE(says(station, "The cupel weighs less than the button"));
  EXPECT_EQ((*fire::design_of(*connection, portion))->cupel->typed, "25 g");
}

TEST_F(Furnace, ASulphideThatIsNoneStaysAsTyped) {
  cut("20 g", "fire").value();
  Shown shown(*this);
  enter_in(shown.station, "Sulphides, in %", "glitter 5");
  const auto* line = field<LineField>(shown.station, "Sulphides, in %");
  ASSERT_TRUE(line);
  EXPECT_TRUE(line->refused());
  EXPECT_EQ(line->typed(), "glitter 5");
}

TEST_F(Furnace, ACrucibleTakesThePortionAndItsFluxIsTyped) {
  const PortionId portion = *cut("20 g", "fire");
  Shown shown(*this);
  FurnaceStation& station = shown.station;
  click(station, "Put it in a crucible");
  settle();
  ASSERT_EQ(fire::charges_of(*connection, portion)->size(), 1u);
  EXPECT_EQ(FurnaceStation::place(desk.session).waiting(), 1) << "its bead is not weighed";
  EXPECT_EQ(focused(), "Litharge");
  type_and_enter("80");
  enter_in(station, "Flour", "3");
  enter_in(station, "Nitre", "5");
  const auto* nitre = field<LineField>(station, "Nitre");
  EXPECT_TRUE(nitre->refused()) << "flour stands already";
  const auto charge = fire::charges_of(*connection, portion)->front();
  EXPECT_DOUBLE_EQ(charge.litharge->mass().in(unit::gram), 80);
  EXPECT_FALSE(charge.nitre);
}

TEST_F(Furnace, ASpoiledChargeIsRepeatedByTheNextPortion) {
  const auto lost = fire::start_charge(book, {*cut("20 g", "fire"), {}, person, {}, {}, {}});
  ASSERT_TRUE(fire::set_spoiled(book, lost->charge, "boiled over").ok());
  const PortionId next = *cut("20 g", "fire");
  Shown shown(*this);
  shown.station.take_portion(next);
  EXPECT_TRUE(says(shown.station, "repeat of the charge"));
  click(shown.station, "Put it in a crucible");
  settle();
  EXPECT_EQ(fire::charges_of(*connection, next)->front().repeat_of, lost->charge);
}

TEST_F(Furnace, TemperaturesAreWrittenWithEnterAndDrawn) {
  Shown shown(*this);
  FurnaceStation& station = shown.station;
  click(station, "Begin a cupellation");
  settle();
  ASSERT_EQ(focused(), "Read now, °C");
  type_and_enter("930");
  settle();
  type_and_enter("955");
  settle();
  const auto runs = fire::furnace_runs(*connection);
  ASSERT_EQ(runs->size(), 1u);
  ASSERT_EQ(runs->front().readings.size(), 2u);
  EXPECT_EQ(runs->front().readings[1].read_c, 955);
  EXPECT_EQ(station.findChild<TemperatureChart*>()->points_drawn(), 2);
  enter_in(station, "Read now, °C", "9000");
  EXPECT_TRUE(field<LineField>(station, "Read now, °C")->refused());
}

TEST_F(Furnace, EveryWarningHasWords) {
  for (int i = 0; i <= int(ChargeWarning::cupel_small); ++i) EXPECT_FALSE(warning_words(ChargeWarning(i)).isEmpty()) << i;
}

}  // namespace
}  // namespace prillbook::ui
