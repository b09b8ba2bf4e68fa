// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/window_day.h"

#include <QtCore/QRegularExpression>
#include <QtWidgets/QLabel>
#include <array>
#include <utility>

#include "tests/support/wait.h"
#include "tests/support/window_hand.h"
#include "ui/kit/messages.h"
#include "ui/kit/waiting_list.h"
#include "ui/window/way.h"

namespace prillbook::testing_support {
namespace {

using ui::Field;
using ui::LineField;

template <class FieldType = LineField>
FieldType* in_sight_with(QWidget& window, const QString& label) {
  for (FieldType* found : window.findChildren<FieldType*>())
    if (found->label() == label && found->isVisible()) return found;
  return nullptr;
}

LineField* line_in_hand() {
  for (QWidget* at = at_hand(); at; at = at->parentWidget())
    if (auto* found = qobject_cast<LineField*>(at)) return found;
  return nullptr;
}

void type_anew(LineField& line, const QString& text) {
  line.line()->setFocus();
  line.line()->selectAll();
  type_and_enter(text);
}

}  // namespace

void WindowDay::open(ui::MainWindow& window, QSize size) {
  show(window, size.width(), size.height());
  window.grab();  // offscreen a window may lie unpainted
  wait_until([&] { return window.current() || in_sight_with(window, "Name of the lab"); });
}

bool WindowDay::play(int scene) {
  using Scene = bool (WindowDay::*)();
  constexpr std::array<Scene, scenes> all{
      &WindowDay::first_steps, &WindowDay::receiving, &WindowDay::preparation, &WindowDay::sheet,   &WindowDay::pan,
      &WindowDay::furnace,     &WindowDay::sieves,    &WindowDay::weigh_room,  &WindowDay::quality, &WindowDay::set_up};
  // What comes later in the day needs a sample that was received in it.
  if (scene > 1 && standing_.sample.isEmpty() && !receiving()) return false;
  return (this->*all[std::size_t(scene)])();
}

// ---- the scenes

bool WindowDay::first_steps() {
  if (window_.current() || !in_sight_with(window_, "Name of the lab")) return true;
  if (!enter("Name of the lab", words("Bench"), "setting.value")) return false;
  if (!enter("Initials", "HM", "person.initials")) return false;
  if (!enter("Balance", words("bead balance"), "balance.name")) return false;
  if (!enter("Step", "0.0001", "balance.step")) return false;
  return enter("Client", words("Syndicate"), "client.name");
}

bool WindowDay::receiving() {
  press(Qt::Key_1, Qt::ControlModifier);
  if (auto* fresh = button(window_, "New consignment")) {
    fresh->setFocus();
    press(Qt::Key_Return);
  }
  if (!enter("Client", words("Claim"), "client.name")) return false;
  if (!enter("Carrier", words("post"), "consignment.carrier")) return false;
  if (!enter("Client's mark", words("Adit"), "sample.mark")) return false;
  static const QRegularExpression number("\\d\\d-\\d{4}");
  standing_.sample = number.match(foot()).captured();
  if (!choose("Condition on receipt", 't', {"sample.condition", "torn"})) return false;
  if (!enter("Mass declared", figure("4,1"), "sample.mass_declared")) return false;
  if (!enter("Mass received", figure("4,0"), "sample.mass_received")) return false;
  if (!enter("Mass received", figure("4,1"), "sample.mass_received")) return false;  // a slip, mended
  return enter("Place taken", words("north drive"), "sample.place");
}

bool WindowDay::preparation() {
  press(Qt::Key_2, Qt::ControlModifier);
  auto* list = window_.current()->findChild<ui::WaitingList*>();
  list->setFocus();
  press(Qt::Key_End);
  press(Qt::Key_Return);
  auto* kind = in_sight_with<ui::ChoiceField>(window_, "Next step");
  if (!kind || !kind->isEnabled()) return true;
  kind->editor()->setFocus();
  press(Qt::Key_C);
  const QString in = figure("0.5") + " kg", out = figure("0.49") + " kg";
  fill("Mass in", in);
  fill("Mass out", out);
  return push("Write the step", {{"step", ""}, {"step.mass_in", in.toStdString()}, {"step.mass_out", out.toStdString()}});
}

bool WindowDay::sheet() {
  if (!go_to_sheet(standing_.sample) || !cut('p', "500")) return false;
  if (!push("Pan it", {{"pan_test", ""}, {"bead", ""}})) return false;
  const QString bead = figure("0.6");
  half_type_first("Bead", bead);
  if (!enter("Bead", bead, "weighing.mass")) return false;
  if (!enter("Weigh again", figure("0.6"), "weighing.mass")) return false;
  if (!enter("Grind, P80", figure("180"), "pan_test.grind")) return false;
  if (!enter("Colours counted", words("7 fine"), "pan_test.colours")) return false;
  if (!enter("Tail", figure("455"), "portion.mass")) return false;
  if (!take_back(Qt::ControlModifier, {"portion.struck", "1"})) return false;
  if (!take_back(Qt::ControlModifier | Qt::ShiftModifier, {"portion.struck", "0"})) return false;
  auto* explain = button(window_, "Explain");
  if (!explain) return true;
  explain->click();
  return enter("What explains it", words("torn at the counter"), "answer.explanation");
}

bool WindowDay::pan() {
  if (!go_to_sheet(standing_.sample) || !cut('p', figure("100"))) return false;
  press(Qt::Key_3, Qt::ControlModifier);
  if (button(window_, "Begin the pan test")) {
    if (!push("Begin the pan test", {{"pan_test", ""}, {"panning", ""}})) return false;
  }
  if (!enter("Grind, P80", figure("150"), "pan_test.grind")) return false;
  if (!enter("above 1 mm", QString::number(standing_.texts), "pan_test.colours_coarse")) return false;
  if (!enter("Magnetite pulled", figure("1,2"), "pan_test.magnetite")) return false;
  return enter("Remarks", words("no flour gold"), "pan_test.remarks");
}

bool WindowDay::furnace() {
  if (!go_to_sheet(standing_.sample) || !cut('f', figure("30"))) return false;
  if (!push("Put it in a crucible", {{"charge", ""}, {"bead", ""}})) return false;
  const QString lead = figure("28");
  half_type_first("Lead button", lead);
  if (!enter("Lead button", lead, "charge.button")) return false;
  press(Qt::Key_4, Qt::ControlModifier);
  if (in_sight_with(window_, "Litharge")) {
    if (!enter("Litharge", figure("80"), "charge.litharge")) return false;
    if (!enter("Soda ash", figure("30"), "charge.soda_ash")) return false;
  }
  if (!push("Begin a cupellation", {{"furnace_run", ""}})) return false;
  for (const int read : {930, 955})
    if (!enter("Read now, °C", QString::number(read + standing_.texts % 20), "run_reading.read_c")) return false;
  return true;
}

bool WindowDay::sieves() {
  if (!go_to_sheet(standing_.sample) || !cut('s', figure("100"))) return false;
  press(Qt::Key_5, Qt::ControlModifier);
  if (in_sight_with(window_, "Stack") && !enter("Stack", "40, 60, 100 ASTM", "sieve_analysis")) return false;
  for (const auto& [label, mass] : {std::pair("On 425 µm", "10"), std::pair("On 250 µm", "29"), std::pair("In the pan", "28")})
    if (!enter(label, figure(mass), "sieve_cut.retained")) return false;
  return true;
}

bool WindowDay::weigh_room() {
  press(Qt::Key_6, Qt::ControlModifier);
  for (int beads = 0; beads < 3; ++beads) {
    if (auto* line = line_in_hand(); !line || !line->typed().isEmpty()) return true;
    if (!enter_in_hand(figure("0.5"), "weighing.mass")) return false;
  }
  return true;
}

bool WindowDay::quality() {
  press(Qt::Key_9, Qt::ControlModifier);
  if (!enter("Rock blank, one in", QString::number(20 + standing_.texts), "setting.value")) return false;
  const QString name = words("barren quartz");
  fill("Name on its label", name);
  return choose("It is", 'b', {"control_material.name", name.toStdString()});
}

bool WindowDay::set_up() {
  window_.findChildren<ui::WayStep*>().last()->click();
  settle();
  if (!enter("Telephone or e-mail", words("by the ford"), "setting.value")) return false;
  return enter("Address", words("Quarry lane"), "setting.value");
}

// ---- a person's hand

QString WindowDay::figure(const QString& beginning) {
  const bool broken = beginning.contains('.') || beginning.contains(',');
  return beginning + (broken ? "" : ".0") + QStringLiteral("%1").arg(++standing_.texts % 1000, 3, 10, QLatin1Char('0'));
}

QString WindowDay::words(const QString& beginning) { return QStringLiteral("%1 %2").arg(beginning).arg(++standing_.texts); }

bool WindowDay::go_to_sheet(const QString& number) {
  press(Qt::Key_F, Qt::ControlModifier);
  type_and_enter(number);
  return true;
}

bool WindowDay::cut(QChar purpose, const QString& mass) {
  if (auto* what_for = in_sight_with<ui::ChoiceField>(window_, "What for")) {
    what_for->editor()->setFocus();
    type(purpose);
    settle();
  }
  if (!enter("Mass", mass, "portion.mass")) return false;
  static const QRegularExpression number("\\d\\d-\\d{4}/\\d+");
  standing_.portion = number.match(foot()).captured();
  return true;
}

void WindowDay::half_type_first(const QString& label, const QString& text) {
  auto* line = in_sight_with(window_, label);
  if (!rest_ || !line) return;
  line->line()->setFocus();
  type(text.left(3));
  std::exchange(rest_, nullptr)({standing_.portion, label, text.left(3), text});
}

bool WindowDay::enter(const QString& label, const QString& text, const std::string& field) {
  if (auto* line = in_sight_with(window_, label)) return enter_in(line, text, field);
  last_words_ = QStringLiteral("no field in sight: %1").arg(label);
  return false;
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
  return attempt(act, shown, {{field, field.find('.') == std::string::npos ? std::string() : text.toStdString()}});
}

// A field of a form that is written as a whole.
void WindowDay::fill(const QString& label, const QString& text) {
  if (auto* line = in_sight_with(window_, label)) type_anew(*line, text);
}

bool WindowDay::push(const QString& words, const std::vector<Accepted>& all) {
  const auto once = [&] {
    auto* found = button(window_, words);
    if (!found) return;
    found->setFocus();
    press(Qt::Key_Return);
  };
  if (!button(window_, words)) {
    last_words_ = QStringLiteral("no button in sight: %1").arg(words);
    return false;
  }
  return attempt(
      once, [] { return Shown::gone; }, all);
}

// And put back, with Shift. After a refusal it may be another entry: one that was written although the disk reported a fault
// is not among those that are taken back.
bool WindowDay::take_back(Qt::KeyboardModifiers modifiers, const Accepted& what) {
  const std::vector<Accepted> all = refusals_ == 0 ? std::vector{what} : std::vector<Accepted>{};
  return attempt([&] { press(Qt::Key_Z, modifiers); }, [] { return Shown::gone; }, all);
}

bool WindowDay::choose(const QString& label, QChar key, const Accepted& chosen) {
  const auto once = [&] {
    auto* choice = in_sight_with<ui::ChoiceField>(window_, label);
    if (!choice) return;
    choice->editor()->setFocus();
    type(key);
    settle();
  };
  const auto shown = [&] {
    const auto* choice = in_sight_with<ui::ChoiceField>(window_, label);
    if (!choice || choice->refused()) return choice ? Shown::refused : Shown::gone;
    return choice->value() == chosen.typed ? Shown::entry : Shown::gone;
  };
  return attempt(once, shown, {chosen});
}

// Once more where the window refused it: a fault of the disk may have passed. An entry that was written although the disk
// reported a fault is taken the second time without news, for nothing is left to write.
bool WindowDay::attempt(const std::function<void()>& act, const std::function<Shown()>& shown, const std::vector<Accepted>& all) {
  for (int tries = 0; tries < 2; ++tries) {
    window_.say({});                                              // so that what stands there afterwards was said now
    const QString said_before = tries == 0 ? said() : QString();  // the second time the same may be said
    act();
    answer_why();
    settle();
    const Shown now = shown();
    if ((foot().contains(" written ") && now != Shown::refused) || (tries > 0 && now == Shown::entry)) {
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

// The lowest line of news in the window; stations and pages may have their own above it.
QString WindowDay::foot() const {
  const ui::MessageBar* lowest = nullptr;
  const auto bottom = [this](const QWidget* bar) { return bar->mapTo(&window_, QPoint(0, bar->height())).y(); };
  for (const auto* bar : window_.findChildren<ui::MessageBar*>())
    if (bar->isVisible() && (!lowest || bottom(bar) > bottom(lowest))) lowest = bar;
  return lowest ? lowest->words() : QString();
}

QString WindowDay::said() const {
  QStringList words{foot()};
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
