// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/window_day.h"

#include <QtCore/QDir>
#include <QtCore/QFile>
#include <QtCore/QRegularExpression>
#include <QtWidgets/QLabel>
#include <utility>

#include "tests/support/foot_ear.h"
#include "tests/support/wait.h"
#include "tests/support/window_hand.h"
#include "tests/support/window_sight.h"

namespace prillbook::testing_support {
namespace {

using ui::Field;
using ui::LineField;

void type_anew(LineField& line, const QString& text) {
  line.line()->setFocus();
  line.line()->selectAll();
  type_and_enter(text);
}

}  // namespace

struct WindowDay::Scene {
  const char* name;
  bool (WindowDay::*play)();
};

const std::vector<WindowDay::Scene>& WindowDay::all_scenes() {
  static const std::vector<Scene> all{{"first steps", &WindowDay::first_steps},
                                      {"receiving", &WindowDay::receiving},
                                      {"preparation", &WindowDay::preparation},
                                      {"sample sheet", &WindowDay::sheet},
                                      {"pan", &WindowDay::pan},
                                      {"furnace", &WindowDay::furnace},
                                      {"sieves", &WindowDay::sieves},
                                      {"weigh room", &WindowDay::weigh_room},
                                      {"quality", &WindowDay::quality},
                                      {"the lab", &WindowDay::set_up},
                                      {"findings", &WindowDay::findings},
                                      {"compare", &WindowDay::compare},
                                      {"controls of a load", &WindowDay::controls},
                                      {"custody", &WindowDay::custody},
                                      {"photographs", &WindowDay::photographs},
                                      {"summary", &WindowDay::summary},
                                      {"files", &WindowDay::papers},
                                      {"tables of the set-up", &WindowDay::tables},
                                      {"machines", &WindowDay::machines},
                                      {"a composite", &WindowDay::composite},
                                      {"trays", &WindowDay::trays},
                                      {"a client's list", &WindowDay::list},
                                      {"a signed summary", &WindowDay::signed_summary},
                                      {"pictures", &WindowDay::pictures}};
  return all;
}

const QStringList& WindowDay::scene_names() {
  static const QStringList names = [] {
    QStringList all;
    for (const Scene& scene : all_scenes()) all << QLatin1String(scene.name);
    return all;
  }();
  return names;
}

WindowDay::WindowDay(ui::MainWindow& window, Standing standing, QString folder)
    : window_(window), standing_(std::move(standing)), folder_(std::move(folder)), foot_(std::make_unique<FootEar>(window)) {}

WindowDay::~WindowDay() = default;

void WindowDay::open(ui::MainWindow& window, QSize size) {
  show(window, size.width(), size.height());
  window.grab();  // offscreen a window may lie unpainted
  wait_until([&] { return window.current() || in_sight_with(window, "Name of the lab"); });
}

bool WindowDay::play(int scene) {
  constexpr int first_of_all = 1;  // what comes later in the day needs a sample that was received in it
  if (scene > first_of_all && standing_.sample.isEmpty() && !play(first_of_all)) return false;
  scene_(scene);
  return (this->*all_scenes()[std::size_t(scene)].play)();
}

QString WindowDay::figure(const QString& beginning) {
  const bool broken = beginning.contains('.') || beginning.contains(',');
  return beginning + (broken ? "" : ".0") + QStringLiteral("%1").arg(++standing_.texts % 1000, 3, 10, QLatin1Char('0'));
}

QString WindowDay::words(const QString& beginning) { return QStringLiteral("%1 %2").arg(beginning).arg(++standing_.texts); }

// A scene that is played again finds the place free, as it was.
QString WindowDay::path(const QString& name) {
  const QString free = QStringLiteral("%1/%2-%3").arg(folder_).arg(++standing_.texts).arg(name);
  QFile::remove(free);
  return free;
}

QString WindowDay::brought(const QString& name) {
  QDir(folder_).mkpath("brought");
  return QStringLiteral("%1/brought/%2-%3").arg(folder_).arg(++standing_.texts).arg(name);
}

bool WindowDay::go_to_sheet(const QString& number) {
  press(Qt::Key_F, Qt::ControlModifier);
  type_and_enter(number);
  return true;
}

bool WindowDay::cut(QChar purpose, const QString& mass) {
  pick("What for", purpose);
  if (!enter("Mass", mass, "portion.mass")) return false;
  static const QRegularExpression number("\\d\\d-\\d{4}/\\d+");
  standing_.portion = number.match(written()).captured();
  return true;
}

void WindowDay::half_type_first(const QString& label, const QString& text) {
  auto* line = in_sight_with(window_, label);
  if (!rest_ || !line) return;
  line->line()->setFocus();
  type(text.left(3));
  std::exchange(rest_, nullptr)({standing_.portion, label, text.left(3), text});
}

bool WindowDay::not_in_sight(const QString& what) {
  last_words_ = QStringLiteral("not in sight: %1").arg(what);
  return false;
}

bool WindowDay::enter(const QString& label, const QString& text, const std::string& field) {
  auto* line = in_sight_with(window_, label);
  return line ? enter_in(line, text, field) : not_in_sight(label);
}

bool WindowDay::enter_new(const QString& label, const QString& text, const std::string& field) {
  auto* line = empty_in_sight(window_, label);
  return line ? enter_in(line, text, field) : not_in_sight(label);
}

bool WindowDay::enter_in_hand(const QString& text, const std::string& field) { return enter_in(line_in_hand(), text, field); }

bool WindowDay::enter_in(LineField* into, const QString& text, const std::string& field) {
  const QPointer<LineField> line(into);
  const auto act = [&] {
    if (line && line->isVisible()) type_anew(*line, text);
  };
  const auto shown = [&] {
    if (!line || !line->isVisible()) return Shown::gone;
    if (line->refused() || line->pending()) return Shown::refused;
    return line->typed() == text ? Shown::entry : Shown::gone;
  };
  if (field.empty()) return attempt(act, shown, {});  // a reference: what it is kept as cannot be told from the window
  const bool of_field = field.find('.') != std::string::npos;
  return attempt(act, shown, {{field, of_field ? text.toStdString() : std::string()}});
}

// A field of a form that is written as a whole.
void WindowDay::fill(const QString& label, const QString& text) {
  if (auto* line = in_sight_with(window_, label)) type_anew(*line, text);
}

void WindowDay::pick(const QString& label, QChar key) {
  auto* choice = in_sight_with<ui::ChoiceField>(window_, label);
  if (!choice) return;
  choice->editor()->setFocus();
  type(key);
  settle();
}

bool WindowDay::push(const QString& words, const std::vector<Accepted>& all) {
  if (!button(window_, words)) return not_in_sight(words);
  return attempt([&] { press_button(window_, words); }, [] { return Shown::gone; }, all);
}

// And put back, with Shift.
bool WindowDay::take_back(Qt::KeyboardModifiers modifiers, const Accepted& what) {
  return attempt([&] { press(Qt::Key_Z, modifiers); }, [] { return Shown::gone; }, {what});
}

bool WindowDay::choose(const QString& label, QChar key, const Accepted& chosen) {
  const auto shown = [&] {
    const auto* choice = in_sight_with<ui::ChoiceField>(window_, label);
    if (!choice || choice->refused()) return choice ? Shown::refused : Shown::gone;
    return choice->value() == chosen.typed ? Shown::entry : Shown::gone;
  };
  return attempt([&] { pick(label, key); }, shown, {chosen});
}

// Once more where the window refused it: a fault of the disk may have passed. An entry that was written although the disk
// reported a fault is taken the second time without news, for nothing is left to write.
bool WindowDay::attempt(const std::function<void()>& act, const std::function<Shown()>& shown, const std::vector<Accepted>& all) {
  for (int tries = 0; tries < 2; ++tries) {
    window_.say({});  // so that what stands there afterwards was said now
    foot_->forget();
    const QString said_before = tries == 0 ? said() : QString();  // the second time the same may be said
    act();
    answer_why();
    settle();
    const Shown now = shown();
    if ((!written().isEmpty() && now != Shown::refused) || (tries > 0 && now == Shown::entry)) {
      for (const Accepted& one : all) accepted_(one);
      return true;
    }
    note_refusal(all.empty() ? Accepted{} : all.front(), said_before);
  }
  return false;
}

void WindowDay::answer_why() {
  if (focused() == "Why?") type_and_enter("slip of the pen");
}

void WindowDay::note_refusal(const Accepted& refused, const QString& before) {
  ++refusals_;
  last_words_ =
      QStringLiteral("%1 “%2”: ").arg(QString::fromStdString(refused.field), QString::fromStdString(refused.typed)) + said();
  if (said().isEmpty() || said() == before) silences_ << QString::fromStdString(refused.field + " “" + refused.typed + "”");
}

// Of several entries the last.
QString WindowDay::written() const {
  const QStringList written = foot_->heard().filter(QStringLiteral(" written "));
  return written.isEmpty() ? QString() : written.last();
}

QString WindowDay::said() const {
  QStringList words = foot_->heard();
  for (const Field* field : window_.findChildren<Field*>())
    if (field->isVisible()) words << field->error_text() << field->question_text();
  for (const QLabel* label : window_.findChildren<QLabel*>())
    if (label->isVisible() && label->property("tone") == "signal") words << label->text();
  words.removeAll(QString());
  return words.join(QStringLiteral(" | "));
}

bool WindowDay::take_up(const HalfTyped& half) {
  go_to_sheet(half.portion);
  auto* line = in_sight_with(window_, half.label);
  last_words_ = line ? line->editor()->accessibleDescription() : QStringLiteral("no field in sight: %1").arg(half.label);
  if (!line || !last_words_.contains(QStringLiteral("“%1”").arg(half.text))) return false;
  line->line()->setFocus();
  press(Qt::Key_Z, Qt::ControlModifier);
  return line->typed() == half.text;
}

}  // namespace prillbook::testing_support
