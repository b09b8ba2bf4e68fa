// SPDX-License-Identifier: GPL-3.0-or-later
// What a balance sends to the weigh room, and the cup that may stand on it.
#include <QtWidgets/QLabel>
#include <QtWidgets/QLineEdit>

#include "core/weighing/tare.h"
#include "ui/balance_port/balance_port.h"
#include "ui/kit/figures.h"
#include "ui/kit/reason_line.h"
#include "ui/kit/sentences.h"
#include "ui/weigh_room/mass_field.h"
#include "ui/weigh_room/view_state.h"
#include "ui/weigh_room/weigh_room.h"

namespace prillbook::ui {
namespace {

// A balance has one decimal mark, and groups no digits.
Expected as_sent(const balance_line::Figure& figure) {
  const bool comma = figure.typed.find(',') != std::string::npos;
  return {Measure::mass, view_state::unit(), comma ? DecimalMark::comma : DecimalMark::point};
}

}  // namespace

// Nothing is taken that stands in the way of what is typed, or falls to a bead out of sight.
void WeighRoom::take_from_balance(const balance_line::Figure& figure, const QString& raw) {
  if (!isVisible() || !bead_ || session_.read_only() || reason_->open()) return;
  if (port_->settings().sends != QLatin1String("print")) return watch_balance(figure, raw);
  if (!mass_->typed().isEmpty()) {
    if (mass_->question_text().isEmpty())
      mass_->show_note(tr("A figure stands here already: Enter takes it, Escape puts it away."));
    return;
  }
  if (figure.stability == balance_line::Stability::overload) return mass_->show_note(tr("The balance shows overload."));
  if (figure.stability == balance_line::Stability::moving)
    return mass_->show_note(tr("%1 still moves: press the print key once it stands.").arg(to_qt(figure.typed)));
  if (figure.negative) return mass_->show_note(tr("%1: set the balance to zero and weigh again.").arg(to_qt(figure.typed)));
  enter_from_balance(figure, raw);
}

void WeighRoom::enter_from_balance(const balance_line::Figure& figure, const QString& raw) {
  mass_->expect(as_sent(figure));
  mass_->type(to_qt(figure.typed));
  sent_line_ = to_core(raw);
  sent_text_ = mass_->typed();
  mass_->commit();
  mass_->expect({Measure::mass, view_state::unit(), session_.writing.mark});
  mass_->line()->setFocus(Qt::OtherFocusReason);
}

std::optional<double> WeighRoom::grams_of(const balance_line::Figure& figure) const {
  if (figure.stability == balance_line::Stability::overload) return std::nullopt;
  const Expected expected = as_sent(figure);
  const std::string_view digits = figure.negative ? std::string_view(figure.typed).substr(1) : std::string_view(figure.typed);
  const auto reading = readings::parse(digits, {expected.measure, expected.unit, expected.preferred, true});
  if (!reading.ok()) return std::nullopt;
  return figure.negative ? -reading->value : reading->value;
}

// A balance that sends all the time: its figure is in view, and becomes an entry where Enter or the setting says so.
void WeighRoom::watch_balance(const balance_line::Figure& figure, const QString& raw) {
  shown_ = figure;
  shown_line_ = raw;
  steady_.see(figure, grams_of(figure));
  const bool itself = port_->settings().sends == QLatin1String("itself");
  QString words = figure.stability == balance_line::Stability::overload ? tr("overload") : to_qt(figure.typed);
  if (!steady_.is_steady())
    words = tr("on the balance: %1, moving").arg(words);
  else if (steady_.is_used())
    words = tr("on the balance: %1, taken: lift the bead off").arg(words);
  else if (steady_.is_reading() && (!itself || !steady_.may_enter_itself()))
    words = tr("on the balance: %1, steady: Enter takes it").arg(words);
  else
    words = tr("on the balance: %1, steady").arg(words);
  live_words_->setText(words);
  live_words_->show();
  if (itself && steady_.may_enter_itself() && mass_->typed().isEmpty()) take_what_is_shown();
}

void WeighRoom::take_what_is_shown() {
  if (session_.read_only() || live_words_->isHidden()) {
    if (cup_ == Cup::asked) ask_for_cup();  // no cup after all
    return;
  }
  if (steady_.is_used()) return mass_->show_note(tr("This was taken already: lift the bead off the balance first."));
  if (!steady_.may_be_taken()) return mass_->show_note(tr("The balance shows nothing that stands still yet."));
  steady_.taken();
  enter_from_balance(shown_, shown_line_);
}

// ---- a cup on the balance

// Without a cup: its tare is asked for. While it is asked for, or where one is known: the balance shows the bead alone again.
void WeighRoom::ask_for_cup() {
  if (session_.read_only() || !bead_) return;
  cup_ = cup_ == Cup::none ? Cup::asked : Cup::none;
  tare_.reset();
  steady_.set_rest(0);
  mass_->leave_record();
  show_in_hand();
  focus_field();
}

Result<void> WeighRoom::take_cup(const readings::Reading& reading) {
  if (reading.state != readings::State::measured || !(reading.value > 0))
    return refusal(ErrorCode::out_of_range, "weighing.tare", "a cup weighs something");
  tare_ = on_balance(reading);
  cup_ = Cup::known;
  cup_taken_ = true;
  steady_.set_rest(reading.value);
  return {};
}

void WeighRoom::show_cup() {
  const bool gold = what_ == weighing::of_gold;
  switch (cup_) {
    case Cup::none: mass_->set_label(gold ? tr("Gold left after parting") : tr("Bead")); break;
    case Cup::asked: mass_->set_label(tr("The empty cup")); break;
    case Cup::known: mass_->set_label(gold ? tr("Cup and gold") : tr("Cup and bead")); break;
  }
  cup_words_->setText(cup_ == Cup::asked ? tr("Weigh the cup alone; it then comes off every reading. t leaves it.")
                      : tare_            ? tr("The cup, %1, comes off. t weighs without it again.").arg(text(as_typed(tare_)))
                                         : QString());
  cup_words_->setVisible(cup_ != Cup::none);
}

// What a figure at the field means for the bead.
Result<readings::Reading> WeighRoom::as_net(const readings::Reading& reading) const {
  if (cup_ != Cup::known || !tare_) return reading;
  return weighing::net_of(on_balance(reading), *tare_);
}

}  // namespace prillbook::ui
