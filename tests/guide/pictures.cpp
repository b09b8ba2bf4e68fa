// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/guide/pictures.h"

#include <QtCore/QDir>
#include <QtCore/QElapsedTimer>
#include <QtCore/QStandardPaths>
#include <QtCore/QTemporaryDir>
#include <QtGui/QClipboard>
#include <QtGui/QScreen>
#include <QtWidgets/QAbstractButton>
#include <QtWidgets/QApplication>
#include <QtWidgets/QScrollArea>

#include "app/batch/notebook_verbs.h"
#include "app/program/desk.h"
#include "tests/support/files.h"
#include "ui/furnace/furnace_station.h"
#include "ui/kit/press_button.h"
#include "ui/kit/waiting_list.h"
#include "ui/photographs/photograph_strip.h"
#include "ui/receiving/receiving_station.h"
#include "ui/sheet/sample_sheet.h"
#include "ui/window/way.h"

namespace prillbook::guide {
namespace {

using ui::MainWindow;

constexpr int patience_ms = 700;  // until what is read or computed beside the window is there

void rest(int milliseconds = patience_ms) {
  QElapsedTimer timer;
  timer.start();
  while (timer.elapsed() < milliseconds) {
    QCoreApplication::processEvents(QEventLoop::WaitForMoreEvents, 20);
    QCoreApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete);  // else rows that are gone would be painted as well
  }
}

bool go(MainWindow& window, const QString& station) {
  const auto steps = window.findChildren<ui::WayStep*>();
  for (int place = 0; place < steps.size(); ++place)
    if (steps[place]->text() == station) {
      window.go_to(std::size_t(place));
      rest();
      return true;
    }
  return false;
}

// The row whose number, title or words begin so.
bool take(MainWindow& window, const QString& begins) {
  for (auto* list : window.current()->findChildren<ui::WaitingList*>()) {
    if (!list->isVisible()) continue;
    for (int row = 0; row < list->model()->rowCount(); ++row) {
      const QModelIndex index = list->model()->index(row, 0);
      const bool found = index.data(ui::WaitingModel::number_role).toString().startsWith(begins) ||
                         index.data(ui::WaitingModel::title_role).toString().startsWith(begins);
      if (!found) continue;
      list->setCurrentIndex(index);
      rest();
      return true;
    }
  }
  return false;
}

bool press(MainWindow& window, const QString& words) {
  for (auto* button : window.findChildren<QAbstractButton*>())
    if (button->isVisible() && button->text().remove('&').startsWith(words)) {
      button->click();
      rest();
      return true;
    }
  return false;
}

// Opens what is folded and brings its beginning to the top.
bool unfold(MainWindow& window, const QString& words) {
  for (auto* fold : window.findChildren<ui::Fold*>()) {
    if (!fold->isVisible() || !fold->button()->text().startsWith(words)) continue;
    fold->set_open(true);
    rest();
    for (QWidget* at = fold->parentWidget(); at; at = at->parentWidget())
      if (auto* scroll = qobject_cast<QScrollArea*>(at)) {
        scroll->ensureVisible(0, fold->mapTo(scroll->widget(), QPoint()).y() + scroll->viewport()->height() - 16, 0, 0);
        break;
      }
    rest(100);
    return true;
  }
  return false;
}

bool sheet(MainWindow& window, int sample) {
  const bool open = window.open({history::Entity::sample, sample});
  rest();
  return open;
}

bool torn_bag(MainWindow& window) {
  constexpr SampleId torn{4};
  qobject_cast<ui::ReceivingStation*>(window.current())->take_sample(torn);
  rest();
  return true;
}

bool charge_with_design(MainWindow& window) {
  constexpr PortionId pyritic{37};
  qobject_cast<ui::FurnaceStation*>(window.current())->take_portion(pyritic);
  rest();
  return true;
}

bool bring_photographs(MainWindow& window) {
  auto* strip = window.current()->findChild<ui::PhotographStrip*>();
  for (QWidget* at = strip; at; at = at->parentWidget())
    if (auto* scroll = qobject_cast<QScrollArea*>(at)) {
      scroll->ensureWidgetVisible(strip, 0, 8);
      break;
    }
  rest(100);
  return strip != nullptr;
}

bool paste_list(MainWindow& window) {
  QApplication::clipboard()->setText(
      QString::fromLatin1(testing_support::file_text(std::string(PRILLBOOK_SOURCE_DIR) + "/sample-data/client-list.csv").data()));
  auto* receiving = qobject_cast<ui::ReceivingStation*>(window.current());
  receiving->take_consignment(ConsignmentId{1});
  receiving->import_pasted();
  rest();
  return true;
}

bool labels_of_sample(MainWindow& window) {
  if (!sheet(window, 1)) return false;
  emit window.findChild<ui::SampleSheet*>()->labels_requested({history::Entity::sample, 1});
  rest();
  return true;
}

struct Picture {
  const char* name;
  bool (*arrange)(MainWindow& window);
};

constexpr Picture pictures[] = {
    {"setup", [](MainWindow& w) { return go(w, "Lab set-up") && take(w, "Balances"); }},
    {"receiving", [](MainWindow& w) { return go(w, "Receiving") && torn_bag(w); }},
    {"photographs",
     [](MainWindow& w) { return go(w, "Receiving") && torn_bag(w) && unfold(w, "Who has it") && bring_photographs(w); }},
    {"clients-list", [](MainWindow& w) { return go(w, "Receiving") && paste_list(w); }},
    {"preparation", [](MainWindow& w) { return go(w, "Preparation") && take(w, "26-0002"); }},
    {"carry-over", [](MainWindow& w) { return go(w, "Preparation") && take(w, "26-0003"); }},
    {"enough", [](MainWindow& w) { return go(w, "Preparation") && take(w, "26-0008") && unfold(w, "How much is enough"); }},
    {"machine", [](MainWindow& w) { return go(w, "Preparation") && unfold(w, "The machine and its cleaning"); }},
    {"sample-sheet", [](MainWindow& w) { return sheet(w, 1); }},
    {"pan", [](MainWindow& w) { return go(w, "Pan") && take(w, "26-0001/1"); }},
    {"sieves", [](MainWindow& w) { return go(w, "Sieves"); }},
    {"furnace", [](MainWindow& w) { return go(w, "Furnace") && charge_with_design(w); }},
    {"tray", [](MainWindow& w) { return go(w, "Furnace") && take(w, "cupels 14"); }},
    {"weigh-room", [](MainWindow& w) { return go(w, "Weigh room"); }},
    {"compare", [](MainWindow& w) { return go(w, "Compare") && take(w, "26-0001"); }},
    {"compare-many", [](MainWindow& w) { return go(w, "Compare") && press(w, "Many samples"); }},
    {"findings", [](MainWindow& w) { return go(w, "Findings"); }},
    {"summary", [](MainWindow& w) { return go(w, "Summary") && take(w, "Osier"); }},
    {"quality", [](MainWindow& w) { return go(w, "Quality"); }},
    {"labels", [](MainWindow& w) { return labels_of_sample(w); }},
};

}  // namespace

QStringList make_pictures(const QString& folder) {
  QStandardPaths::setTestModeEnabled(true);
  const QTemporaryDir place;
  const QString notebook = place.filePath("demo.prillbook");
  if (!batch::notebook_demo(notebook.toStdString()).ok()) return {"the demonstration"};
  // The demonstration ends on 14 May; this is the morning after.
  SteppingClock clock(*parse_iso("2026-05-15T09:00:00.000+02:00"));
  const auto desk = program::Desk::open(notebook, store::Access::read_write, clock, {[] {}, [] {}}).value();
  MainWindow& window = desk->window();
  window.resize(1280, 720);
  window.show();
  rest(2000);
  QStringList failed;
  for (const Picture& picture : pictures) {
    const QString path = QDir(folder).filePath(QStringLiteral("%1.png").arg(picture.name));
    if (!picture.arrange(window) || !window.grab().save(path, "PNG", 0)) failed << picture.name;
  }
  return failed;
}

}  // namespace prillbook::guide
