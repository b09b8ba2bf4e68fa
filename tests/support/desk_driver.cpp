// SPDX-License-Identifier: GPL-3.0-or-later
// desk_driver FILE SCENE TEXTS [PORTION LABEL TEXT]: opens the program's window on a notebook as the program does, takes up
// the text that was left half typed, and works day after day from this scene on until it is killed. A line for each
// thing that the window shows, parts separated by tabs:
//   up                        the window is there
//   offered / not offered     the half-typed text; what the field says of it
//   scene  NUMBER             it begins
//   accepted  FIELD  TYPED
//   file  PATH                said to be written
//   played  NUMBER  MS        the scene is over, after so long
//   half  PORTION  LABEL  TEXT  WHOLE   typed, and left alone for longer than the text may take to be kept
//   refused  WORDS            what must not happen on a sound disk
#include <unistd.h>

#include <QtCore/QDir>
#include <QtCore/QElapsedTimer>
#include <QtCore/QFileInfo>
#include <QtCore/QSettings>
#include <QtWidgets/QApplication>
#include <clocale>

#include "app/program/program.h"
#include "tests/support/window_day.h"
#include "tests/support/window_hand.h"
#include "ui/kit/theme.h"

namespace {

using namespace prillbook;
using testing_support::HalfTyped;
using testing_support::WindowDay;

// Text is kept half a second after it was typed; what is said to be half typed is older.
constexpr int rest_ms = 700;

void say(const QStringList& parts) {
  const QByteArray line = parts.join('\t').replace('\n', ' ').toUtf8() + '\n';
  if (write(STDOUT_FILENO, line.constData(), std::size_t(line.size())) < 0) _exit(3);
}

ui::MainWindow* window_shown() {
  for (QWidget* widget : QApplication::topLevelWidgets())
    if (auto* window = qobject_cast<ui::MainWindow*>(widget); window && window->isVisible()) return window;
  return nullptr;
}

void rest(const HalfTyped& half) {
  QTest::qWait(rest_ms);
  say({"half", half.portion, half.label, half.text, half.whole});
  QTest::qWait(rest_ms);
}

int work(ui::MainWindow& window, const QStringList& words) {
  WindowDay::open(window, {1280, 720});
  const QString folder = QFileInfo(words[1]).absolutePath() + QStringLiteral("/files");
  QDir().mkpath(folder);
  WindowDay day(window, {words[3].toInt(), {}, {}}, folder);
  day.on_accepted([](const auto& one) {
    say({"accepted", QString::fromStdString(one.field), QString::fromStdString(one.typed)});
  });
  day.on_file([](const QString& path) { say({"file", path}); });
  day.on_scene([](int scene) { say({"scene", QString::number(scene)}); });
  say({"up"});
  if (words.size() > 6) {
    const HalfTyped half{words[4], words[5], words[6], {}};
    const bool offered = day.take_up(half);
    say({offered ? "offered" : "not offered", day.last_words()});
    if (offered) testing_support::type_and_enter("1");
  }
  day.on_half_typed(rest);
  for (int scene = words[2].toInt();; scene = (scene + 1) % WindowDay::scenes()) {
    QElapsedTimer since;
    since.start();
    if (!day.play(scene) || day.refusals() > 0) {
      say({"refused", WindowDay::scene_names()[scene], day.last_words()});
      _exit(1);
    }
    say({"played", QString::number(scene), QString::number(since.elapsed())});
  }
}

}  // namespace

int main(int argc, char** argv) {
  qputenv("QT_QPA_PLATFORM", "offscreen");
  QApplication application(argc, argv);
  std::setlocale(LC_NUMERIC, "C");
  QApplication::setApplicationName("prillbook");
  QApplication::setOrganizationName("prillbook");
  QSettings().setValue("window/worker", "HM");
  ui::Theme theme(application);
  SystemClock clock;
  program::Program program(clock);
  const QStringList words = QApplication::arguments();
  if (words.size() < 4) return 2;
  program.start(words[1]);
  ui::MainWindow* window = window_shown();
  if (!window) return 2;
  return work(*window, words);
}
