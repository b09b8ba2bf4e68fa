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
#include "ui/paper/bench_sheets.h"
#include "ui/paper/label_sheet.h"
#include "ui/paper/paper.h"

namespace {

using namespace prillbook;

// Painting needs Qt's fonts but no display.
Result<void> paint(const std::function<Result<void>()>& painting) {
  setenv("QT_QPA_PLATFORM", "offscreen", 1);
  int argc = 1;
  char name[] = "prillbook";
  char* argv[] = {name, nullptr};
  QGuiApplication application(argc, argv);
  std::setlocale(LC_NUMERIC, "C");
  return painting();
}

Result<void> paint_pdf(const summary::Report& report, const std::string& path) {
  return paint([&] { return paper::write_pdf(report, path); });
}

Result<std::string> paint_bytes(const summary::Report& report, bool letter) {
  std::string bytes;
  PRILLBOOK_TRY(paint([&]() -> Result<void> {
    PRILLBOOK_ASSIGN(bytes, paper::pdf_bytes(report, {letter ? paper::PaperSize::letter : paper::PaperSize::a4, {}}));
    return {};
  }));
  return bytes;
}

Result<void> paint_labels(const std::vector<labels::Label>& all, const labels::Layout& layout, int start,
                          const std::string& path) {
  return paint([&]() -> Result<void> {
    PRILLBOOK_ASSIGN(const paper::Pages pages, paper::label_pages(all, layout, start));
    return paper::write_pdf(pages, path);
  });
}

Result<void> paint_bench_sheets(const std::vector<std::string>& names, bool letter, const std::string& path) {
  return paint([&]() -> Result<void> {
    PRILLBOOK_ASSIGN(const paper::Pages pages,
                     paper::bench_pages(names, letter ? paper::PaperSize::letter : paper::PaperSize::a4));
    return paper::write_pdf(pages, path);
  });
}

int open_window(int argc, char** argv) {
  QApplication application(argc, argv);
  std::setlocale(LC_NUMERIC, "C");
  QApplication::setApplicationName("prillbook");
  QApplication::setApplicationDisplayName("Prillbook");
  QApplication::setOrganizationName("prillbook");
  QGuiApplication::setDesktopFileName("org.prillbook.Prillbook");
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
  batch::World world{std::cin, std::cout, std::cerr, clock, paint_pdf, paint_labels, paint_bench_sheets, paint_bytes};
  return batch::run(arguments, world);
}
