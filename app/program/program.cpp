// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/program/program.h"

#include <QtCore/QDir>
#include <QtCore/QFileInfo>
#include <QtCore/QSettings>
#include <QtCore/QStandardPaths>
#include <QtCore/QTimer>
#include <QtWidgets/QApplication>

#include "app/batch/notebook_verbs.h"
#include "core/store/backup.h"
#include "core/upkeep/restore.h"
#include "ui/kit/sentences.h"

namespace prillbook::program {
namespace {

constexpr const char* last_notebook = "window/notebook";
constexpr const char* window_place = "window/place";

QString refusal_words(const Error& error) {
  if (error.field != "elsewhere" || error.arguments.size() < 5) return ui::sentence(error);
  const auto word = [&](std::size_t index) { return QString::fromStdString(error.arguments[index]); };
  return Program::tr("%1 on the computer %2 has it open since %3, or left it so. Two that write at once lose the entries of one.")
      .arg(word(1), word(2), word(4));
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
  decision.answers = {tr("Open"), tr("Make a new one"), tr("Look at the demonstration"), desk_ ? tr("Stay here") : tr("Close")};
  decision.safe = 3;
  prompter().decide(decision, [this](int answer) {
    const QString folder = QStandardPaths::writableLocation(QStandardPaths::DocumentsLocation);
    if (answer == 0)
      prompter().choose_file({ui::FilePurpose::open, tr("Open a notebook"), filter(), folder},
                             [this](const QString& path) { open(path); });
    else if (answer == 1)
      prompter().choose_file({ui::FilePurpose::save, tr("Make a notebook"), filter(), folder + tr("/lab.prillbook")},
                             [this](const QString& path) { make(path); });
    else if (answer == 2)
      open_demonstration();
    else if (!desk_)
      QApplication::quit();
  });
}

void Program::open(const QString& path, store::Access access, store::TakeOver take_over) {
  const QString file = QFileInfo(path).absoluteFilePath();
  Doors doors{[this] { choose(); }, [this] { open_demonstration(); }, [this](const QString& copy) { restore(copy); }};
  auto desk = Desk::open(file, access, clock_, std::move(doors), take_over);
  if (!desk) return tell_refusal(file, desk.error());
  QSettings settings;
  settings.setValue(last_notebook, file);
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
  offer(tr("Another notebook"), [this] { choose(); });
  offer(desk_ ? tr("Stay here") : tr("Close"), [this] {
    if (!desk_) QApplication::quit();
  });
  decision.safe = int(decision.answers.size()) - 1;
  prompter().decide(decision, [steps](int answer) { steps[std::size_t(answer)](); });
}

}  // namespace prillbook::program
