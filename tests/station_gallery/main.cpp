// SPDX-License-Identifier: GPL-3.0-or-later
// The stations of the balance and the desk on invented data, to be looked at: station_gallery [light|dark] [station].
#include <QtCore/QTemporaryDir>
#include <QtWidgets/QApplication>
#include <clocale>

#include "core/history/fields.h"
#include "tests/support/desk.h"
#include "ui/compare/compare_station.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"
#include "ui/summary/summary_station.h"
#include "ui/weigh_room/weigh_room.h"
#include "ui/window/main_window.h"

namespace {

using namespace prillbook;
using namespace prillbook::ui;
using testing_support::Desk;
using testing_support::figure;

// Invented rock, one sample a story.
struct Stories : Desk {
  void set(const history::Field& field, RecordId record, const history::Value& value) {
    (void)readings::enter(book, field, record, value).ok();
  }
  void largest_colour(PanTestId test, const std::string& size) {
    set(history::fields::pan_test::largest_colour, test.value,
        readings::cell_of(readings::Figure{figure(size, Measure::opening)}));
  }

  void left_behind() {
    const auto panned = pan("1 kg");
    weigh(panned.bead, "22 mg"), fineness(panned.bead, "750");
    for (const char* mass : {"1.35 mg", "1.41 mg"}) {
      const auto charge = fire("30 g");
      weigh(charge.bead, mass), fineness(charge.bead, "700", "colour");
    }
    const auto lost = fire("30 g");
    (void)fire::set_spoiled(book, lost.charge, "cupel froze in the front row").ok();
    const auto boiled = fire("30 g");
    weigh(boiled.bead, "0.72 mg"), fineness(boiled.bead, "700", "colour");
    set(history::fields::charge::excluded, boiled.charge.value, std::string("slag boiled over on the rim"));
  }
  void with_tail() {
    another("Creek bend, upper cut, second trench behind the old flume where the boulder lies across the stream");
    const auto panned = pan("2 kg");
    largest_colour(panned.test, "250 um");
    weigh(panned.bead, "9.2 mg"), fineness(panned.bead, "910");
    const PortionId remainder = *gravity::weigh_product(book, panned.test, "remainder", figure("38 g"), person);
    const PortionId tail = *gravity::weigh_product(book, panned.test, "tail", figure("1950 g"), person);
    auto charge = fire("10 g", remainder);
    weigh(charge.bead, "0.31 mg"), fineness(charge.bead, "880");
    charge = fire("30 g", tail);
    weigh(charge.bead, "0.021 mg"), fineness(charge.bead, "880");
    charge = fire("30 g");
    weigh(charge.bead, "0.152 mg"), fineness(charge.bead, "880");
  }
  void pan_only() {
    another("Old dump, lower bench");
    const auto panned = pan("1.5 kg");
    weigh(panned.bead, "0.84 mg"), fineness(panned.bead, "840");
  }
  void no_fineness() {
    another("Quartz stringer");
    weigh(pan("1 kg").bead, "3.1 mg");
    weigh(fire("30 g").bead, "0.12 mg");
  }
  void none_seen() {
    another("Grey slate");
    (void)weighing::set_none_seen(book, pan("1 kg").bead, true).ok();
    weigh(fire("30 g", {}, figure("5 mg")).bead, "4.9 mg");
  }
  void tray() {
    for (const char* mark : {"Larch adit S", "Rich pocket", "Barrel 1", "Barrel 2"}) {
      another(mark);
      (void)pan("1 kg");
      for (int i = 0; i < 3; ++i) (void)fire("30 g");
    }
  }
};

}  // namespace

int main(int argc, char** argv) {
  QApplication application(argc, argv);
  std::setlocale(LC_NUMERIC, "C");
  const QStringList arguments = application.arguments();
  Theme theme(application, arguments.contains("dark") ? Shade::dark : Shade::light);
  Stories stories;
  stories.left_behind(), stories.with_tail(), stories.pan_only(), stories.no_fineness(), stories.none_seen(), stories.tray();
  auto* weigh_room = new WeighRoom(stories.session);
  auto* compare = new CompareStation(stories.session);
  WindowParts parts;
  auto* summary = new SummaryStation(stories.session);
  parts.way = {weigh_room, compare, summary};
  parts.notebook_name = "Gallery";
  parts.people = [] { return std::vector<QString>{"HM", "TK"}; };
  MainWindow window(stories.session, std::move(parts));
  window.resize(1280, 720);
  window.show();
  if (arguments.contains("compare")) window.go_to(compare);
  if (arguments.contains("summary")) window.go_to(summary);
  return QApplication::exec();
}
