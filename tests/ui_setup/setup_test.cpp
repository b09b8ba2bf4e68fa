// SPDX-License-Identifier: GPL-3.0-or-later
#include <gmock/gmock.h>

#include <QtCharts/QChart>
#include <QtCharts/QChartView>
#include <QtCharts/QXYSeries>
#include <QtCore/QSettings>
#include <QtWidgets/QLabel>
#include <QtWidgets/QPushButton>

#include "core/custody/places.h"
#include "core/fire/lots.h"
#include "core/lab/settings.h"
#include "core/sieve_records/sieves.h"
#include "core/units/units.h"
#include "core/weighing/check_weights.h"
#include "tests/support/window_hand.h"
#include "ui/balance_port/balance_port.h"
#include "ui/setup/first_steps.h"
#include "ui/setup/setup_station.h"

namespace prillbook::ui {
namespace {

using namespace testing_support;

struct Setup : WithApplication, testing::Test {
  MemoryNotebook notebook;
  Desk desk{*notebook.connection, *notebook.journal};

  static bool says(const QWidget& root, const QString& part) {
    for (const QLabel* label : root.findChildren<QLabel*>())
      if (label->isVisible() && label->text().contains(part)) return true;
    return false;
  }
  // As the window does.
  void follow(Station& station) {
    QObject::connect(&desk.notifier, &Notifier::written, &station,
                     [&](const auto& written) { station.notebook_changed(written); });
  }
};

TEST_F(Setup, TheLabIsNamedFieldByField) {
  SetupStation station(desk.session);
  follow(station);
  show(station);
  enter_in(station, "Name of the lab", "Bench by the mill race");
  EXPECT_EQ(focused(), "Telephone or e-mail");
  type_and_enter("by the side door");
  const auto settings = *lab::settings(*notebook.connection);
  EXPECT_EQ(settings.lab_name, "Bench by the mill race");
  EXPECT_EQ(settings.lab_contact, "by the side door");
  EXPECT_FALSE(SetupStation::place(desk.session).waiting) << "nothing ever waits there";
}

TEST_F(Setup, TheDecimalMarkIsTheLabsOwnAndReachesTheSession) {
  SetupStation station(desk.session);
  follow(station);
  show(station);
  field<ChoiceField>(station, "Decimal mark")->editor()->setFocus();
  press(Qt::Key_Right);
  EXPECT_EQ(lab::settings(*notebook.connection)->decimal_mark, DecimalMark::comma);
  EXPECT_EQ(desk.session.writing.mark, DecimalMark::comma);
}

TEST_F(Setup, APatternThatIsNoneIsRefusedInPlace) {
  SetupStation station(desk.session);
  follow(station);
  show(station);
  enter_in(station, "Pattern of lab numbers", "bag {nn}x");
  const auto* pattern = field<LineField>(station, "Pattern of lab numbers");
  EXPECT_TRUE(pattern->refused());
  EXPECT_EQ(pattern->typed(), "bag {nn}x");
  EXPECT_EQ(lab::settings(*notebook.connection)->sample_number_pattern, lab::Settings{}.sample_number_pattern);
}

TEST_F(Setup, EveryLimitIsShownAndTakesADecimalComma) {
  SetupStation station(desk.session);
  follow(station);
  show(station);
  station.show_part(SetupStation::Part::limits);
  int limits = 0;
  for (auto* shown : station.findChildren<TextField*>()) limits += shown->isVisible();
  const auto specs = lab::setting_specs();
  EXPECT_EQ(limits, std::count_if(specs.begin(), specs.end(), [](const lab::SettingSpec& spec) {
              return !spec.name.starts_with("lab.") && spec.name != "decimal_mark" && !spec.name.ends_with("number_pattern");
            }));
  auto* first = field<LineField>(station, "Received mass short of the declared mass by more than this is a finding");
  ASSERT_NE(first, nullptr);
  EXPECT_EQ(first->typed(), "2");
  enter_in(station, first->label(), "2,5");
  EXPECT_EQ(lab::settings(*notebook.connection)->short_mass_limit_pct, 2.5);
  enter_in(station, first->label(), "nothing");
  EXPECT_TRUE(first->refused());
}

TEST_F(Setup, PotsHaveTheirVolumeAndRecipesTheirMixedFlux) {
  ASSERT_TRUE(fire::add_lot(*notebook.journal, "flux 26-1", "flux").ok());
  ASSERT_TRUE(fire::add_lot(*notebook.journal, "litharge 26-1", "litharge").ok());
  ASSERT_TRUE(fire::add_pot(*notebook.journal, "K1").ok());
  ASSERT_TRUE(fire::add_recipe(*notebook.journal, "clean quartz").ok());
  SetupStation station(desk.session);
  follow(station);
  show(station);
  station.show_part(SetupStation::Part::furnace);
  settle();
  enter_in(station, "Holds, ml", "250");
  EXPECT_EQ(fire::pot_by_name(*notebook.connection, "K1")->millilitres, 250);
  enter_in(station, "Holds, ml", "much");
  EXPECT_TRUE(field<LineField>(station, "Holds, ml")->refused());
  enter_in(station, "Mixed flux, lot", "litharge");
  EXPECT_TRUE(field<LineField>(station, "Mixed flux, lot")->refused()) << "no lot of flux";
  enter_in(station, "Mixed flux, lot", "flux");
  enter_in(station, "Mixed flux", "90 g");
  const auto recipe = *fire::recipe_by_name(*notebook.connection, "clean quartz");
  EXPECT_EQ(recipe.flux_lot, fire::lot_by_name(*notebook.connection, "flux 26-1")->id);
  EXPECT_EQ(recipe.flux->typed, "90 g");
}

TEST_F(Setup, PeopleAreAddedByTyping) {
  SetupStation station(desk.session);
  follow(station);
  show(station);
  station.show_part(SetupStation::Part::people);
  station.enter();
  type_and_enter("HM");
  EXPECT_EQ(focused(), "Name");
  type_and_enter("Hanna Moss");
  EXPECT_EQ(focused(), "Initials");
  type_and_enter("TK");
  const auto people = *lab::people(*notebook.connection);
  ASSERT_EQ(people.size(), 2u);
  EXPECT_EQ(people[0].name, "Hanna Moss");
  EXPECT_EQ(people[1].initials, "TK");
}

TEST_F(Setup, SievesAreTypedAsTheirRimSays) {
  SetupStation station(desk.session);
  follow(station);
  show(station);
  station.show_part(SetupStation::Part::sieves);
  station.enter();
  type_and_enter("200");
  auto* name = field<LineField>(station, "Number or opening");
  ASSERT_TRUE(name->refused());
  EXPECT_THAT(name->error_text().toStdString(), testing::HasSubstr("75 µm in ASTM E11 and in Tyler"));
  type_and_enter(" ASTM");
  auto held = *sieves::sieves(*notebook.connection);
  ASSERT_EQ(held.size(), 1u);
  EXPECT_EQ(held[0].in_words(), "75 µm (200 ASTM E11)");
  enter_in(station, "Diameter", "203");
  enter_in(station, "Inspection due", "2027-05-01");
  held = *sieves::sieves(*notebook.connection);
  EXPECT_DOUBLE_EQ(held[0].diameter->opening().in(unit::millimetre), 203);
  EXPECT_TRUE(held[0].inspect_by);
}

TEST_F(Setup, AStackIsTypedAsItsOpenings) {
  SetupStation station(desk.session);
  follow(station);
  show(station);
  station.show_part(SetupStation::Part::sieves);
  enter_in(station, "Sieves of the stack", "850, 250, 150 µm");
  settle();
  EXPECT_EQ(focused(), "Stack");
  const auto stacks = *sieves::stacks(*notebook.connection);
  ASSERT_EQ(stacks.size(), 1u);
  EXPECT_EQ(stacks[0].sieves.size(), 3u);
  type_and_enter("gold");
  EXPECT_EQ(sieves::stacks(*notebook.connection)->front().name, "gold");
  enter_in(station, "Sieves of the stack", "850, 850 µm");
  EXPECT_TRUE(field<LineField>(station, "Sieves of the stack")->refused());
}

TEST_F(Setup, InitialsThatAreTakenAreRefusedAndStayAsTyped) {
  ASSERT_TRUE(lab::add_person(*notebook.journal, "HM").ok());
  SetupStation station(desk.session);
  follow(station);
  show(station);
  station.show_part(SetupStation::Part::people);
  station.enter();
  type_and_enter("HM");
  EXPECT_TRUE(field<LineField>(station, "Initials", 1)->refused());
  EXPECT_EQ(lab::people(*notebook.connection)->size(), 1u);
}

TEST_F(Setup, StoragePlacesAreListed) {
  SetupStation station(desk.session);
  follow(station);
  show(station);
  station.show_part(SetupStation::Part::places);
  station.enter();
  type_and_enter("shelf 2");
  type_and_enter("pulps");
  const auto places = *custody::places(*notebook.connection);
  ASSERT_EQ(places.size(), 1u);
  EXPECT_EQ(places[0].name, "shelf 2");
  EXPECT_TRUE(station.show_record({history::Entity::place, places[0].id.value}));
}

TEST_F(Setup, ABalanceHasItsStepCapacityAndRepeatability) {
  SetupStation station(desk.session);
  follow(station);
  show(station);
  station.show_part(SetupStation::Part::balances);
  station.enter();
  type_and_enter("bead balance");
  type_and_enter("0,001");
  type_and_enter("5");
  type_and_enter("0.002 mg");
  const auto balances = *lab::balances(*notebook.connection);
  ASSERT_EQ(balances.size(), 1u);
  EXPECT_DOUBLE_EQ(balances[0].step->mass().in(unit::milligram), 0.001);
  EXPECT_DOUBLE_EQ(balances[0].capacity->mass().in(unit::gram), 5);
  EXPECT_DOUBLE_EQ(balances[0].repeatability->mass().in(unit::milligram), 0.002);
}

TEST_F(Setup, ACheckWeightIsEnteredAndWeighed) {
  ASSERT_TRUE(lab::add_balance(*notebook.journal, "bead balance", {}).ok());
  SetupStation station(desk.session);
  follow(station);
  show(station);
  station.show_part(SetupStation::Part::checks);
  station.enter();
  EXPECT_EQ(focused(), "New check weight");
  type_and_enter("20 mg");
  type_and_enter("20 mg");
  type_and_enter("0,005");
  const auto weights = *weighing::check_weights(*notebook.connection);
  ASSERT_EQ(weights.size(), 1u);
  EXPECT_DOUBLE_EQ(weights[0].allowed.mass().in(unit::milligram), 0.005);
  enter_in(station, "The balance shows", "20.002 mg");
  EXPECT_TRUE(says(station, "Checked today"));
  enter_in(station, "The balance shows", "20.009 mg");
  EXPECT_TRUE(says(station, "Out of check: 20.009"));
  EXPECT_TRUE(says(station, "beyond its limit"));
  const auto* view = station.findChild<QChartView*>();
  ASSERT_NE(view, nullptr);
  EXPECT_TRUE(view->isVisible());
  std::vector<int> points;
  for (const QAbstractSeries* series : view->chart()->series())
    points.push_back(int(qobject_cast<const QXYSeries*>(series)->count()));
  EXPECT_EQ(points, (std::vector<int>{4, 4, 1, 1})) << "two limits from edge to edge, one that passed, one that failed";
}

TEST_F(Setup, TheWireOfABalanceIsKeptForThisComputer) {
  QSettings::setPath(QSettings::IniFormat, QSettings::UserScope, desk.folder.path());
  SetupStation station(desk.session);
  show(station);
  station.show_part(SetupStation::Part::port);
  station.enter();
  type_and_enter("no-such-port");
  EXPECT_EQ(kept_port_settings().port, "no-such-port");
  EXPECT_TRUE(says(station, "no-such-port is not there"));
  enter_in(station, "Speed, bits a second", "1200");
  EXPECT_EQ(kept_port_settings().speed, 1200);
}

TEST_F(Setup, AClientsRemarksAreKeptAndARecordIsFound) {
  const ClientId client = *lab::add_client(*notebook.journal, "Larch Adit Syndicate");
  SetupStation station(desk.session);
  follow(station);
  show(station);
  ASSERT_TRUE(station.show_record({history::Entity::client, client.value}));
  EXPECT_EQ(focused(), "Client");
  enter_in(station, "Remarks", "pays in ore");
  EXPECT_EQ(lab::client(*notebook.connection, client)->remarks, "pays in ore");
  EXPECT_FALSE(station.show_record({history::Entity::sample, 1}));
}

TEST_F(Setup, ATakenBackPersonLeavesTheTable) {
  SetupStation station(desk.session);
  follow(station);
  show(station);
  station.show_part(SetupStation::Part::people);
  station.enter();
  type_and_enter("HM");
  ASSERT_TRUE(notebook.journal->undo().ok());
  settle();
  for (auto* shown : station.findChildren<LineField*>()) EXPECT_TRUE(!shown->isVisible() || shown->typed().isEmpty());
}

TEST_F(Setup, TheFirstStepsLeadToTheFirstConsignment) {
  notebook.journal->set_author("");
  ASSERT_TRUE(FirstSteps::wanted(desk.session));
  bool logging = false, demonstration = false;
  QString who;
  FirstSteps steps(desk.session,
                   {[&] { logging = true; }, [&] { demonstration = true; }, [&](const QString& initials) { who = initials; }});
  show(steps);
  enter_in(steps, "Name of the lab", "Bench by the mill race");
  auto* on = button(steps, "Log the first consignment");
  ASSERT_NE(on, nullptr);
  EXPECT_FALSE(on->isEnabled());
  EXPECT_EQ(focused(), "Initials");
  type_and_enter("HM");
  EXPECT_EQ(who, "HM");
  enter_in(steps, "Balance", "bead balance");
  type_and_enter("0.001");
  enter_in(steps, "Client", "Larch Adit Syndicate");
  ASSERT_TRUE(on->isEnabled());
  on->setFocus();
  press(Qt::Key_Return);
  EXPECT_TRUE(logging);
  button(steps, "Look at the demonstration instead")->click();
  EXPECT_TRUE(demonstration);
  EXPECT_FALSE(FirstSteps::wanted(desk.session));
}

TEST_F(Setup, BenchSheetsAreAskedFor) {
  SetupStation station(desk.session);
  show(station);
  station.show_part(SetupStation::Part::bench_sheets);
  station.enter();
  int asked = 0;
  QObject::connect(&station, &SetupStation::bench_sheets_requested, &station, [&] { ++asked; });
  EXPECT_EQ(focused(), "Choose and print…");
  press(Qt::Key_Return);
  EXPECT_EQ(asked, 1);
}

}  // namespace
}  // namespace prillbook::ui
