// SPDX-License-Identifier: GPL-3.0-or-later
// One open notebook with its window: the lock, the connection, the stations.
#pragma once

#include <QtCore/QPointer>
#include <functional>
#include <memory>

#include "core/base/clock.h"
#include "core/history/journal.h"
#include "core/store/writer_lock.h"
#include "ui/kit/drafts.h"
#include "ui/kit/notifier.h"
#include "ui/kit/prompter.h"
#include "ui/kit/session.h"
#include "ui/window/main_window.h"

namespace prillbook::ui {
class BenchSheetsPage;
class CopiesPage;
class CopyKeeper;
class HistoryPage;
class JournalPage;
class LabelsPage;
class SampleSheet;
class Scanner;
class TraySheetPage;
}  // namespace prillbook::ui

namespace prillbook::program {

class GuidePage;

// Ways out of a window, given by the program.
struct Doors {
  std::function<void()> change_notebook;
  std::function<void()> open_demonstration;
  std::function<void()> salvage = {};                     // the notebook is damaged: what reads of it into a new one
  std::function<void(const QString& copy)> restore = {};  // the desk goes, the copy takes the place of its notebook
};

class Desk {
 public:
  // Takes the lock and migrates where it is opened for writing. Errors: as WriterLock::take and Connection::open.
  static Result<std::unique_ptr<Desk>> open(const QString& path, store::Access access, Clock& clock, Doors doors,
                                            store::TakeOver take_over = store::TakeOver::from_this_machine);
  ~Desk();

  ui::MainWindow& window() { return *window_; }
  ui::Prompter& prompter() { return prompter_; }
  const QString& path() const { return path_; }

 private:
  Desk(QString path, Clock& clock, Doors doors);
  Result<void> open_file(store::Access access, store::TakeOver take_over);
  void build_window();
  ui::SampleSheet& sheet();
  GuidePage& guide();
  ui::LabelsPage& labels();
  ui::BenchSheetsPage& bench_sheets();
  ui::TraySheetPage& tray_sheet();
  ui::CopiesPage& copies();
  ui::HistoryPage& history();
  ui::JournalPage& journal_page();
  ui::WindowParts parts();
  std::vector<ui::Found> find(const QString& typed, int most);
  bool open_sheet(const ui::RecordRef& wanted);
  void open_guide(const QString& page);
  void open_labels(const ui::RecordRef& of);
  void open_bench_sheets();
  void open_tray_sheet(TrayId tray);
  void open_copies();
  void open_history(const ui::RecordRef& of);
  void open_history_in_hand();
  void open_journal();
  void add_keys();
  void open_code(const QString& code);
  void work_as(const std::string& initials);

  QString path_;
  Clock& clock_;
  Doors doors_;
  std::unique_ptr<store::WriterLock> lock_;
  std::unique_ptr<store::Connection> connection_;
  std::unique_ptr<history::Journal> journal_;
  std::unique_ptr<ui::Notifier> notifier_;
  std::unique_ptr<ui::Drafts> drafts_;
  ui::DialogPrompter prompter_{nullptr};
  std::unique_ptr<ui::Session> session_;
  // Pages, made when first asked for: the window owns them once they were shown, the desk until then.
  QPointer<ui::SampleSheet> sheet_;
  QPointer<GuidePage> guide_;
  QPointer<ui::LabelsPage> labels_;
  QPointer<ui::BenchSheetsPage> bench_sheets_;
  QPointer<ui::TraySheetPage> tray_sheet_;
  std::unique_ptr<ui::CopyKeeper> keeper_;
  QPointer<ui::CopiesPage> copies_;
  QPointer<ui::HistoryPage> history_;
  QPointer<ui::JournalPage> journal_page_;
  ui::RecordRef last_written_;
  std::unique_ptr<ui::MainWindow> window_;
  std::unique_ptr<ui::Scanner> scanner_;
};

}  // namespace prillbook::program
