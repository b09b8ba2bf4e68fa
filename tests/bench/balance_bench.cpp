// SPDX-License-Identifier: GPL-3.0-or-later
// From a line of a balance on a pseudo-terminal to the reading on the screen and on the disk, against one bare SQLite commit on
// the same disk, in turns.
#include <fmt/format.h>
#include <stdlib.h>

#include <QtCore/QElapsedTimer>
#include <QtCore/QSettings>
#include <QtCore/QTemporaryDir>
#include <QtWidgets/QApplication>
#include <QtWidgets/QLineEdit>
#include <algorithm>
#include <cstdio>
#include <ctime>
#include <vector>

#include "core/custody/custody.h"
#include "core/fire/charge_record.h"
#include "core/lab/lab.h"
#include "core/portions/portions.h"
#include "tests/support/pseudo_terminal.h"
#include "ui/balance_port/balance_port.h"
#include "ui/kit/session.h"
#include "ui/weigh_room/mass_field.h"
#include "ui/weigh_room/weigh_room.h"

namespace {

using namespace prillbook;

constexpr int beads = 60;

readings::Reading mass(const char* text) { return readings::parse(text, {}).value(); }

double median(std::vector<double> values) {
  std::sort(values.begin(), values.end());
  return values.empty() ? 0 : values[values.size() / 2];
}

struct NoPrompter : ui::Prompter {
  void decide(const ui::Decision&, std::function<void(int)>) override {}
  void choose_file(const ui::FileWish&, std::function<void(const QString&)>) override {}
};

void fill(history::Journal& book) {
  const auto person = lab::add_person(book, "HM", "Hanna Moss").value();
  (void)lab::add_balance(book, "bead balance", mass("0.001 mg"));
  const auto client = lab::add_client(book, "Larch Adit Syndicate").value();
  const auto consignment = custody::log_consignment(book, {client, {}, {}, {}, {}, {}, person}).value();
  for (int i = 0; i < beads; ++i) {
    custody::NewSample fresh;
    fresh.consignment = consignment;
    fresh.mark = fmt::format("adit {}", i);
    const auto sample = custody::log_sample(book, fresh).value();
    const auto portion = portions::cut(book, {sample, {}, "fire", mass("30 g"), {}, person, {}}).value();
    (void)fire::start_charge(book, {portion, {}, person, {}, {}, {}});
  }
}

}  // namespace

int main(int argc, char** argv) {
  qputenv("QT_QPA_PLATFORM", "offscreen");
  QApplication application(argc, argv);
  const QTemporaryDir folder;
  QSettings::setPath(QSettings::IniFormat, QSettings::UserScope, folder.path());
  SystemClock clock;
  auto connection = store::Connection::create(folder.filePath("bench.prillbook").toStdString()).value();
  auto book = history::Journal::open(*connection, clock).value();
  book->set_author("HM");
  fill(*book);
  auto bare = store::Connection::create(folder.filePath("bare.prillbook").toStdString()).value();
  (void)bare->run_derived("CREATE TABLE line (id INTEGER PRIMARY KEY, text TEXT) STRICT", {});

  const testing_support::PseudoTerminal wire;
  ui::PortSettings settings;
  settings.port = QString::fromStdString(wire.port());
  settings.speed = 115200;
  ui::keep_port_settings(settings);
  ui::Notifier notifier(*book);
  NoPrompter prompter;
  ui::Drafts drafts("bench", folder.path());
  ui::Session session{*connection, *book, notifier, prompter, drafts, {}};
  ui::WeighRoom room(session);
  QObject::connect(&notifier, &ui::Notifier::written, &room, &ui::WeighRoom::notebook_changed);
  room.resize(1180, 640);
  room.show();
  room.enter();
  std::vector<double> shown, commits, worked;
  for (int i = 0; i < beads - 1; ++i) {
    QApplication::processEvents();
    const BeadId before = room.in_hand();
    QElapsedTimer watch;
    const std::clock_t before_work = std::clock();
    watch.start();
    if (!wire.send(fmt::format("{}.014 mg\r\n", i + 1))) return 1;
    while (room.in_hand() == before && watch.elapsed() < 3000) QApplication::processEvents(QEventLoop::WaitForMoreEvents, 10);
    room.repaint();  // on the screen
    shown.push_back(double(watch.nsecsElapsed()) / 1e6);
    worked.push_back(1000.0 * double(std::clock() - before_work) / CLOCKS_PER_SEC);
    if (room.in_hand() == before) return 1;
    watch.restart();
    (void)bare->transaction([&] { return bare->run_derived("INSERT INTO line (text) VALUES ('22.014 mg')", {}); });
    commits.push_back(double(watch.nsecsElapsed()) / 1e6);
  }
  const double frame = 1000.0 / 60;
  fmt::print(
      "line to screen and disk {:.2f} ms, bare commit {:.2f} ms, the rest {:.2f} ms (a frame is {:.2f} ms), of a processor "
      "{:.2f} "
      "ms; medians of {}\n",
      median(shown), median(commits), median(shown) - median(commits), frame, median(worked), shown.size());
  return 0;
}
