// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/program/program.h"

#include <QtCore/QDir>
#include <QtCore/QFileInfo>
#include <QtCore/QSettings>
#include <QtCore/QStandardPaths>
#include <QtCore/QThread>
#include <QtCore/QTimer>
#include <QtWidgets/QApplication>
#include <QtWidgets/QProgressDialog>
#include <memory>
#include <optional>

#include "app/batch/notebook_verbs.h"
#include "core/store/backup.h"
#include "core/upkeep/restore.h"
#include "ui/kit/figures.h"
#include "ui/kit/sentences.h"

namespace prillbook::program {
namespace {

constexpr const char* last_notebook = "window/notebook";
constexpr const char* recent_key = "window/recent";
constexpr int most_recent_kept = 8, most_recent_offered = 3;
constexpr std::size_t most_lines = 8;
constexpr const char* window_place = "window/place";

QString refusal_words(const Error& error) {
  if (error.field != "elsewhere" || error.arguments.size() < 5) return ui::sentence(error);
  const auto word = [&](std::size_t index) { return QString::fromStdString(error.arguments[index]); };
  const auto since = parse_iso(error.arguments[4]);
  return Program::tr("%1 on the computer %2 has it open since %3, or left it so. Two that write at once lose the entries of one.")
      .arg(word(1), word(2), since ? ui::date_time_text(*since) : word(4));
}

// Those that are still there, the last one first, without the one that is open.
QStringList recent_notebooks(const QString& open) {
  QStringList recent;
  for (const QString& path : QSettings().value(recent_key).toStringList())
    if (path != open && QFileInfo::exists(path) && recent.size() < most_recent_offered) recent << path;
  return recent;
}

void keep_recent(const QString& path) {
  QSettings settings;
  QStringList recent = settings.value(recent_key).toStringList();
  recent.removeAll(path);
  recent.prepend(path);
  settings.setValue(recent_key, recent.mid(0, most_recent_kept));
}

QString filter() { return Program::tr("Notebooks (*.prillbook)"); }

}  // namespace

ui::Prompter& Program::prompter() { return desk_ ? desk_->prompter() : alone_; }

void Program::start(const QString& path) {
  if (!path.isEmpty()) return open(path);
  const QString last = QSettings().value(last_notebook).toString();
  if (!last.isEmpty() && QFileInfo::exists(last)) return open(last);
  choose();
}

void Program::choose() {
  ui::Decision decision;
  decision.words = tr("Which notebook?");
  decision.more = tr("A notebook is one file. The demonstration is kept apart from yours.");
  std::vector<std::function<void()>> steps;
  const auto offer = [&](const QString& words, std::function<void()> step) {
    decision.answers << words;
    steps.push_back(std::move(step));
  };
  const QString folder = QStandardPaths::writableLocation(QStandardPaths::DocumentsLocation);
  for (const QString& recent : recent_notebooks(desk_ ? desk_->path() : QString()))
    offer(QFileInfo(recent).completeBaseName(), [this, recent] { open(recent); });
  offer(tr("Open"), [this, folder] {
    prompter().choose_file({ui::FilePurpose::open, tr("Open a notebook"), filter(), folder},
                           [this](const QString& path) { open(path); });
  });
  offer(tr("Make a new one"), [this, folder] {
    prompter().choose_file({ui::FilePurpose::save, tr("Make a notebook"), filter(), folder + tr("/lab.prillbook")},
                           [this](const QString& path) { make(path); });
  });
  offer(tr("Look at the demonstration"), [this] { open_demonstration(); });
  offer(desk_ ? tr("Stay here") : tr("Close"), [this] {
    if (!desk_) QApplication::quit();
  });
  decision.safe = int(decision.answers.size()) - 1;
  prompter().decide(decision, [steps](int answer) { steps[std::size_t(answer)](); });
}

void Program::open(const QString& path, store::Access access, store::TakeOver take_over) {
  const QString file = QFileInfo(path).absoluteFilePath();
  Doors doors{[this] { choose(); }, [this] { open_demonstration(); }, [this, file] { salvage(file); },
              [this](const QString& copy) { restore(copy); }};
  auto desk = Desk::open(file, access, clock_, std::move(doors), take_over);
  if (!desk) return tell_refusal(file, desk.error());
  QSettings settings;
  settings.setValue(last_notebook, file);
  keep_recent(file);
  // The old desk is left only once the call that came from its window has returned.
  if (desk_) {
    auto* old = desk_.release();
    settings.setValue(window_place, old->window().saveGeometry());
    old->window().close();
    QTimer::singleShot(0, this, [old] { delete old; });
  }
  desk_ = *std::move(desk);
  ui::MainWindow& window = desk_->window();
  if (!window.restoreGeometry(settings.value(window_place).toByteArray())) window.resize(1280, 800);
  window.show();
  connect(qApp, &QApplication::aboutToQuit, &window, [&window] { QSettings().setValue(window_place, window.saveGeometry()); });
}

void Program::leave_desk() {
  ui::MainWindow& window = desk_->window();
  QSettings().setValue(window_place, window.saveGeometry());
  window.hide();
  desk_.reset();
}

// The connection has to be closed and the lock taken anew: the desk goes first, once the call from its page has returned.
void Program::restore(const QString& copy) {
  QTimer::singleShot(0, this, [this, copy] {
    const QString path = desk_->path();
    const bool quits = QApplication::quitOnLastWindowClosed();
    QApplication::setQuitOnLastWindowClosed(false);
    leave_desk();
    const auto put_there = [&]() -> Result<std::string> {
      PRILLBOOK_ASSIGN(const auto lock, store::WriterLock::take(path.toStdString(), clock_.now()));
      return upkeep::restore_copy(path.toStdString(), copy.toStdString(), clock_.now());
    };
    const auto kept = put_there();
    if (copy == path + ".opened") store::discard(copy.toStdString());
    open(path);
    QApplication::setQuitOnLastWindowClosed(quits);
    if (!desk_) return;
    if (kept)
      desk_->window().say(
          tr("The copy is the notebook now. What was there before: %1").arg(QFileInfo(QString::fromStdString(*kept)).fileName()));
    else
      desk_->window().refuse(kept.error());
  });
}

// A large notebook takes a while, and there may be no window yet: it is read beside, and can be stopped.
void Program::salvage(const QString& path) {
  const Instant now = clock_.now();
  const std::string to = upkeep::salvaged_name(path.toStdString(), now);
  auto stop = std::make_shared<Cancellation>();
  auto outcome = std::make_shared<std::optional<Result<upkeep::Salvaged>>>();
  auto* reading = new QProgressDialog(tr("Saving what reads of %1 …").arg(QFileInfo(path).fileName()), tr("Stop"), 0, 0,
                                      desk_ ? &desk_->window() : nullptr);
  connect(reading, &QProgressDialog::canceled, this, [stop] { stop->request(); });
  auto* worker = QThread::create([outcome, stop, now, to, from = path.toStdString()] {
    outcome->emplace(upkeep::salvage(from, to, {now, stop.get()}));
  });
  connect(worker, &QThread::finished, this, [this, worker, reading, outcome, to] {
    worker->deleteLater();
    tell_salvaged(QString::fromStdString(to), **outcome);
    reading->deleteLater();
  });
  reading->show();
  worker->start();
}

void Program::tell_salvaged(const QString& to, const Result<upkeep::Salvaged>& saved) {
  ui::Decision decision;
  if (saved) {
    decision.words = tr("What reads was saved: %1 records, %2 entries.").arg(saved->records).arg(saved->entries);
    QStringList lines;
    if (saved->lost_records > 0 || saved->lost_entries > 0)
      lines << tr("Lost: %1 records, %2 entries.").arg(saved->lost_records).arg(saved->lost_entries);
    for (std::size_t i = 0; i < saved->left.size() && i < most_lines; ++i)
      lines << QString::fromStdString(saved->left[i].where + ": " + saved->left[i].what);
    if (saved->told > std::int64_t(most_lines)) lines << tr("… and %1 more").arg(saved->told - std::int64_t(most_lines));
    lines << tr("The damaged notebook stays as it is. The new one: %1").arg(QFileInfo(to).fileName());
    decision.more = lines.join('\n');
    decision.answers << tr("Open the new one");
  } else {
    decision.words = tr("Nothing was saved.");
    decision.more = ui::sentence(saved.error());
    decision.answers << tr("Another notebook");
  }
  decision.answers << (desk_ ? tr("Stay here") : tr("Close"));
  decision.safe = 1;
  prompter().decide(decision, [this, to, opens = saved.ok()](int answer) {
    if (answer == 0)
      opens ? open(to) : choose();
    else if (!desk_)
      QApplication::quit();
  });
}

void Program::make(const QString& path) {
  const QString file = path.endsWith(".prillbook") ? path : path + ".prillbook";
  const auto made = batch::notebook_new(file.toStdString());
  if (!made) return tell_refusal(file, made.error());
  open(file);
}

void Program::open_demonstration() {
  const QString folder = QStandardPaths::writableLocation(QStandardPaths::AppDataLocation);
  const QString file = QDir(folder).filePath("demo.prillbook");
  if (!QFileInfo::exists(file)) {
    QDir().mkpath(folder);
    const auto made = batch::notebook_demo(file.toStdString());
    if (!made) return tell_refusal(file, made.error());
  }
  open(file);
}

void Program::tell_refusal(const QString& path, const Error& error) {
  ui::Decision decision;
  decision.words = tr("%1 was not opened.").arg(QFileInfo(path).fileName());
  decision.more = refusal_words(error);
  std::vector<std::function<void()>> steps;
  const auto offer = [&](const QString& words, std::function<void()> step) {
    decision.answers << words;
    steps.push_back(std::move(step));
  };
  if (error.code == ErrorCode::locked || error.code == ErrorCode::newer_version || error.code == ErrorCode::read_only)
    offer(tr("Open for reading only"), [this, path] { open(path, store::Access::read_only); });
  if (error.field == "elsewhere")
    offer(tr("It is not open there any more: write here"),
          [this, path] { open(path, store::Access::read_write, store::TakeOver::from_any); });
  if (error.code == ErrorCode::damaged) offer(tr("Save what reads into a new one"), [this, path] { salvage(path); });
  offer(tr("Another notebook"), [this] { choose(); });
  offer(desk_ ? tr("Stay here") : tr("Close"), [this] {
    if (!desk_) QApplication::quit();
  });
  decision.safe = int(decision.answers.size()) - 1;
  prompter().decide(decision, [steps](int answer) { steps[std::size_t(answer)](); });
}

}  // namespace prillbook::program
