// SPDX-License-Identifier: GPL-3.0-or-later
// From the start of the process to the first painted window, and to the first painted station: a notebook in the real
// window against an empty Qt window.
//   startup_bench NOTEBOOK [RUNS]   runs them in turn as processes of their own and prints the ratios of their medians
// Works offscreen and under a display alike (QT_QPA_PLATFORM).
#include <fmt/format.h>

#include <QtCore/QElapsedTimer>
#include <QtCore/QProcess>
#include <QtCore/QStandardPaths>
#include <QtWidgets/QApplication>
#include <QtWidgets/QMainWindow>
#include <algorithm>
#include <clocale>
#include <cstdlib>
#include <vector>

#include "app/program/desk.h"
#include "ui/kit/theme.h"

namespace {

using namespace prillbook;

// Ends the program at once after the first paint of any window, or of a station: what comes after is not of the start.
class QuitAfterPaint : public QObject {
 public:
  explicit QuitAfterPaint(bool of_station = false) : of_station_(of_station) {}
  bool eventFilter(QObject* watched, QEvent* event) override {
    if (event->type() != QEvent::Paint || (of_station_ && !qobject_cast<ui::Station*>(watched))) return false;
    QMetaObject::invokeMethod(
        qApp, [] { std::_Exit(0); }, Qt::QueuedConnection);
    return false;
  }

 private:
  bool of_station_;
};

int empty_window(QApplication& application) {
  QuitAfterPaint watch;
  application.installEventFilter(&watch);
  QMainWindow window;
  window.resize(1280, 720);
  window.show();
  return QApplication::exec();
}

int notebook_window(QApplication& application, const QString& path, bool to_station) {
  ui::Theme theme(application);
  SystemClock clock;
  auto desk = program::Desk::open(path, store::Access::read_only, clock, {});
  if (!desk) {
    fmt::print(stderr, "{}\n", desk.error().detail);
    return 3;
  }
  QuitAfterPaint watch(to_station);
  application.installEventFilter(&watch);
  (*desk)->window().resize(1280, 720);
  (*desk)->window().show();
  return QApplication::exec();
}

// Milliseconds from start to end of one process; below 0 where it failed.
double run_once(const QStringList& arguments) {
  QElapsedTimer timer;
  timer.start();
  const int status = QProcess::execute(QApplication::applicationFilePath(), arguments);
  return status == 0 ? double(timer.nsecsElapsed()) / 1e6 : -1;
}

double median(std::vector<double> values) {
  std::nth_element(values.begin(), values.begin() + std::ptrdiff_t(values.size() / 2), values.end());
  return values[values.size() / 2];
}

int compare(const QString& path, int runs) {
  std::vector<double> empty, notebook, station;
  for (int run = -1; run < runs; ++run) {  // the first pair only warms the disk
    const double bare = run_once({"--empty"}), real = run_once({"--notebook", path}), whole = run_once({"--station", path});
    if (bare < 0 || real < 0 || whole < 0) return 1;
    if (run < 0) continue;
    empty.push_back(bare);
    notebook.push_back(real);
    station.push_back(whole);
  }
  fmt::print(
      "empty window {:.0f} ms, notebook {:.0f} ms, ratio {:.2f}; with its first station {:.0f} ms, ratio {:.2f} (medians of "
      "{})\n",
      median(empty), median(notebook), median(notebook) / median(empty), median(station), median(station) / median(empty), runs);
  return 0;
}

}  // namespace

int main(int argc, char** argv) {
  QApplication application(argc, argv);
  std::setlocale(LC_NUMERIC, "C");
  QStandardPaths::setTestModeEnabled(true);
  const QStringList arguments = QApplication::arguments();
  if (arguments.size() == 2 && arguments[1] == "--empty") return empty_window(application);
  if (arguments.size() == 3 && arguments[1].startsWith("--"))
    return notebook_window(application, arguments[2], arguments[1] == "--station");
  if (arguments.size() < 2) {
    fmt::print(stderr, "startup_bench NOTEBOOK [RUNS]\n");
    return 2;
  }
  return compare(arguments[1], arguments.size() > 2 ? arguments[2].toInt() : 11);
}
