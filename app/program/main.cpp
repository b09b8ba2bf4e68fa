// SPDX-License-Identifier: GPL-3.0-or-later
// `prillbook [NOTEBOOK]` opens the window; `prillbook calc …` and `prillbook notebook …` open none.
#include <QtCore/QTimer>
#include <QtGui/QIcon>
#include <QtWidgets/QApplication>
#include <clocale>
#include <cstdlib>
#include <iostream>

#include "app/batch/run.h"
#include "app/program/program.h"
#include "ui/kit/theme.h"
#include "ui/paper/paper.h"

namespace {

using namespace prillbook;

// Painting needs Qt's fonts but no display.
Result<void> paint_pdf(const summary::Report& report, const std::string& path) {
  setenv("QT_QPA_PLATFORM", "offscreen", 1);
  int argc = 1;
  char name[] = "prillbook";
  char* argv[] = {name, nullptr};
  QGuiApplication application(argc, argv);
  std::setlocale(LC_NUMERIC, "C");
  return paper::write_pdf(report, path);
}

int open_window(int argc, char** argv) {
  QApplication application(argc, argv);
  std::setlocale(LC_NUMERIC, "C");
  QApplication::setApplicationName("prillbook");
  QApplication::setApplicationDisplayName("Prillbook");
  QApplication::setOrganizationName("prillbook");
  ui::Theme theme(application);
  SystemClock clock;
  program::Program program(clock);
  const QStringList arguments = QApplication::arguments();
  const QString path = arguments.size() > 1 ? arguments.at(1) : QString();
  QTimer::singleShot(0, &program, [&] { program.start(path); });
  return QApplication::exec();
}

}  // namespace

int main(int argc, char** argv) {
  const std::vector<std::string> arguments(argv + 1, argv + argc);
  if (!batch::is_batch(arguments)) return open_window(argc, argv);
  SystemClock clock;
  batch::World world{std::cin, std::cout, std::cerr, clock, paint_pdf};
  return batch::run(arguments, world);
}
