// SPDX-License-Identifier: GPL-3.0-or-later
#include <QtWidgets/QLabel>
#include <QtWidgets/QLineEdit>

#include "ui/kit/fields.h"
#include "ui/kit/figures.h"
#include "ui/kit/sentences.h"

namespace prillbook::ui {
namespace {

using readings::Reading;

// "22 mg", "none": the typed text needs no unit after it.
bool names_unit(std::string_view typed, DecimalMark mark) {
  typed = trimmed(typed);
  if (typed.starts_with('<')) typed.remove_prefix(1);
  const auto number = parse_number(typed, mark);
  return number.ok() ? !number->rest.empty() : number.error().code == ErrorCode::not_a_number && !typed.empty();
}

readings::Expectation with_mark(const Expected& expected, DecimalMark mark) {
  return {expected.measure, expected.unit, mark, expected.zero_allowed};
}

// The one mark taken out: "1,234 mg" as "1234 mg".
std::string without_mark(std::string text) {
  std::erase_if(text, [](char c) { return c == ',' || c == '.'; });
  return text;
}

}  // namespace

ReadingField::ReadingField(const QString& label, Expected expected, QWidget* parent)
    : LineField(label, parent), expected_(std::move(expected)) {
  set_width_in_digits(12);
  unit_label()->show();
  text_changed();
}

void ReadingField::expect(Expected expected) {
  expected_ = std::move(expected);
  text_changed();
}

void ReadingField::set_value(const std::optional<Reading>& value) { show_accepted(value ? shown_text(*value) : QString()); }

// A bare number whose unit is not the one this field would give it carries its unit along.
QString ReadingField::shown_text(const Reading& reading) const {
  const QString typed = to_qt(reading.typed);
  const bool other_unit =
      reading.state != readings::State::none_seen && reading.unit != expected_.unit && !names_unit(reading.typed, reading.mark);
  return other_unit ? typed + QLatin1Char(' ') + to_qt(reading.unit) : typed;
}

Result<Reading> ReadingField::understood(const QString& text) const {
  return readings::parse(to_core(text), with_mark(expected_, expected_.preferred));
}

Result<void> ReadingField::write(const QString& text, QString& shown) {
  offered_.clear();
  doubted_.reset();
  if (text.isEmpty()) return commit_ ? commit_(std::nullopt) : Result<void>{};
  PRILLBOOK_ASSIGN(Reading reading, understood(text));
  const auto doubt = doubting_ ? doubting_(reading) : std::nullopt;
  if (!doubt || (doubt->instead.empty() && doubt->words.isEmpty())) return write_reading(reading, shown);
  for (const Alternative& other : doubt->instead) {
    PRILLBOOK_ASSIGN(Reading meant, understood(other.typed));
    meant.answer = to_core(QStringLiteral("%1, not %2").arg(other.typed, ui::text(as_typed(reading))));
    offered_.push_back(std::move(meant));
  }
  doubted_ = reading;
  std::vector<Answer> answers;
  for (const Alternative& other : doubt->instead) answers.push_back({other.key, tr("for %1").arg(other.typed)});
  ask_about(reading, *doubt, std::move(answers));
  return Error{ErrorCode::ambiguous, "", "the figure was asked about", {reading.typed}};
}

void ReadingField::ask_about(const Reading& reading, const Doubt& doubt, std::vector<Answer> answers) {
  const QString figure = ui::text(as_typed(reading));
  const QString odd = doubt.words.isEmpty() ? QString() : doubt.words + QStringLiteral(". ");
  kept_answer_ = answers.empty() ? QStringLiteral("%1: %2").arg(figure, doubt.words)
                                 : QStringLiteral("%1, not %2").arg(figure, ui::text(as_typed(offered_.front())));
  if (!answers.empty()) return ask({odd + tr("%1? Enter keeps it; or press").arg(figure), answers});
  offered_ = {reading};
  offered_.front().answer = to_core(kept_answer_);
  ask({odd + tr("Keep %1? Enter, or press").arg(figure), {{QLatin1Char('k'), {}}}});
}

Result<void> ReadingField::write_reading(Reading reading, QString& shown) {
  shown = shown_text(reading);
  return commit_ ? commit_(reading) : Result<void>{};
}

bool ReadingField::ask_instead(const Error& error, const QString& text) {
  if (doubted_) return true;
  if (error.code != ErrorCode::ambiguous_mark || error.arguments.size() != 2) return false;
  const DecimalMark other = expected_.preferred == DecimalMark::point ? DecimalMark::comma : DecimalMark::point;
  const std::string typed = to_core(text);
  auto grouped = readings::parse(without_mark(typed), with_mark(expected_, expected_.preferred));
  auto decimal = readings::parse(typed, with_mark(expected_, other));
  if (!grouped.ok() || !decimal.ok()) return false;
  grouped->answer = typed + " = " + error.arguments[0];
  decimal->answer = typed + " = " + error.arguments[1];
  // The decimal reading is offered in the lab's own mark, so that the two can't look alike.
  const QString as_decimal = figure(error.arguments[1], {}, expected_.preferred).number;
  const QString as_whole = to_qt(error.arguments[0]);
  ask({tr("%1: which is meant? Press").arg(text),
       {{QLatin1Char('d'), tr("for %1").arg(as_decimal)}, {QLatin1Char('w'), tr("for %1").arg(as_whole)}}});
  offered_ = {*decimal, *grouped};
  return true;
}

bool ReadingField::answered(int index) {
  if (index < 0 || std::size_t(index) >= offered_.size()) return false;
  return write_answered(offered_[std::size_t(index)]);
}

void ReadingField::kept() {
  if (!doubted_) return;
  Reading reading = *doubted_;
  reading.answer = to_core(kept_answer_);
  write_answered(reading);
}

bool ReadingField::write_answered(Reading reading) {
  offered_.clear();
  doubted_.reset();
  return write_settled([this, reading](QString& shown) { return write_reading(reading, shown); });
}

void ReadingField::text_changed() {
  const auto reading = understood(typed());
  unit_label()->setText(names_unit(to_core(typed()), expected_.preferred) ? QString() : to_qt(expected_.unit));
  if (typing_) typing_(reading.ok() ? &*reading : nullptr);
}

}  // namespace prillbook::ui
