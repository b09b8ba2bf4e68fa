// SPDX-License-Identifier: GPL-3.0-or-later
// station_bench NOTEBOOK…, offscreen: each notebook in a process of its own: how long a station takes to come when somebody first
// goes there, when they come back, and to read again after an entry, until it is painted; and what memory the window takes with
// all of them made.
#include <fmt/format.h>

#include <QtCore/QElapsedTimer>
#include <QtCore/QProcess>
#include <QtCore/QSettings>
#include <QtCore/QStandardPaths>
#include <QtWidgets/QApplication>
#include <algorithm>
#include <clocale>
#include <ctime>
#include <fstream>
#include <string>
#include <vector>

#include "app/program/desk.h"
#include "ui/kit/theme.h"
#include "ui/window/way.h"

namespace {

using namespace prillbook;

constexpr int rounds = 3;

// "VmRSS" or "VmHWM" of this process, in MB.
double memory(const std::string& name) {
  std::ifstream status("/proc/self/status");
  for (std::string word; status >> word;)
    if (word == name + ":") {
      double kilobytes = 0;
      status >> kilobytes;
      return kilobytes / 1024;
    }
  return 0;
}

// Time of one core: what else the machine does plays no part.
double switch_to(ui::MainWindow& window, int place) {
  const std::clock_t start = std::clock();
  window.go_to(std::size_t(place));
  window.repaint();
  return 1000 * double(std::clock() - start) / CLOCKS_PER_SEC;
}

// What an entry costs the station in view, or coming back to it after one.
double read_again(ui::MainWindow& window) {
  const std::clock_t start = std::clock();
  window.current()->notebook_changed({});
  window.repaint();
  return 1000 * double(std::clock() - start) / CLOCKS_PER_SEC;
}

double median(std::vector<double>& times) {
  std::nth_element(times.begin(), times.begin() + rounds / 2, times.end());
  return times[rounds / 2];
}

// Until the numbers on the way are counted and nothing more is read in the background.
void rest(int milliseconds) {
  QElapsedTimer timer;
  timer.start();
  while (timer.elapsed() < milliseconds) QCoreApplication::processEvents(QEventLoop::WaitForMoreEvents, 20);
}

int measure(const QString& path) {
  SystemClock clock;
  auto desk = program::Desk::open(path, store::Access::read_only, clock, {});
  if (!desk) return fmt::print(stderr, "{}\n", desk.error().detail), 3;
  ui::MainWindow& window = (*desk)->window();
  window.resize(1280, 720);
  window.show();
  rest(1500);
  const auto steps = window.findChildren<ui::WayStep*>();
  std::vector<double> first, again, written;
  const double open = memory("VmRSS");
  for (int place = 0; place < steps.size(); ++place) first.push_back(switch_to(window, place));
  for (int place = 0; place < steps.size(); ++place) {
    std::vector<double> times, readings;
    for (int round = 0; round < rounds; ++round) {
      switch_to(window, (place + 1) % int(steps.size()));
      times.push_back(switch_to(window, place));
      readings.push_back(read_again(window));
    }
    again.push_back(median(times));
    written.push_back(median(readings));
  }
  for (int place = 0; place < steps.size(); ++place)
    fmt::print("  {:<12} first {:6.1f} ms, again {:6.1f} ms, after an entry {:6.1f} ms\n", steps[place]->text().toStdString(),
               first[std::size_t(place)], again[std::size_t(place)], written[std::size_t(place)]);
  rest(1000);
  fmt::print("  memory: {:.0f} MB open, {:.0f} MB with every station, {:.0f} MB at most; worst switch {:.1f} ms\n", open,
             memory("VmRSS"), memory("VmHWM"), *std::max_element(again.begin(), again.end()));
  std::fflush(stdout);
  return 0;
}

}  // namespace

int main(int argc, char** argv) {
  QApplication application(argc, argv);
  std::setlocale(LC_NUMERIC, "C");
  QStandardPaths::setTestModeEnabled(true);
  QSettings().clear();  // the window opens at its first station, wherever the run before left it
  const QStringList arguments = QApplication::arguments();
  if (arguments.size() == 3 && arguments[1] == "--one") {
    const ui::Theme theme(application);
    return measure(arguments[2]);
  }
  if (arguments.size() < 2) return fmt::print(stderr, "station_bench NOTEBOOK…\n"), 2;
  for (const QString& path : arguments.mid(1)) {
    fmt::print("{}\n", path.toStdString());
    std::fflush(stdout);
    if (QProcess::execute(QApplication::applicationFilePath(), {"--one", path}) != 0) return 1;
  }
  return 0;
}
