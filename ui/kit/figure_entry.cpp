// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/kit/figure_entry.h"

#include <QtGui/QKeyEvent>
#include <QtWidgets/QLineEdit>
#include <QtWidgets/QVBoxLayout>

#include "ui/kit/sentences.h"

namespace prillbook::ui {

WhyField::WhyField(QWidget* parent) : LineField(tr("Why?"), parent) {
  set_hint(tr("Enter alone writes it without words; Esc leaves the old figure."));
  hide();
}

void WhyField::hold(Held held) {
  held_ = std::move(held);
  show();
}

void WhyField::drop() {
  held_ = nullptr;
  show_accepted({});
  // After Enter has moved on: hiding the line in hand would move the focus a second time.
  QMetaObject::invokeMethod(
      this, [this] { setVisible(bool(held_)); }, Qt::QueuedConnection);
}

void WhyField::leave_record() {
  LineField::leave_record();
  held_ = nullptr;
  hide();
}

Result<void> WhyField::write(const QString& text, QString& shown) {
  const Held held = std::exchange(held_, nullptr);
  shown.clear();
  if (held) held(text.isEmpty() ? std::nullopt : std::optional(to_core(text)));
  return {};
}

bool WhyField::eventFilter(QObject* watched, QEvent* event) {
  const bool escape =
      watched == line() && event->type() == QEvent::KeyPress && static_cast<QKeyEvent*>(event)->key() == Qt::Key_Escape;
  if (!escape || !held_) return LineField::eventFilter(watched, event);
  emit given_up();
  return true;
}

FigureEntry::FigureEntry(const QString& label, Expected expected, QWidget* parent)
    : QWidget(parent), field_(new ReadingField(label, std::move(expected))), why_(new WhyField) {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(0);
  column->addWidget(field_);
  column->addWidget(why_);
  column->addStretch();
  setFocusProxy(field_);
  field_->on_commit([this](const auto& reading) { return take(reading); });
  connect(why_, &WhyField::given_up, this, &FigureEntry::give_up);
}

void FigureEntry::set_value(const std::optional<Reading>& value) {
  value_ = value;
  if (!why_->pending()) field_->set_value(value);
}

// Only Enter asks: a figure left by Tab or by the mouse is written as it is.
Result<void> FigureEntry::take(const std::optional<Reading>& reading) {
  if (!commit_) return {};
  if (!value_ || !field_->line()->hasFocus()) return commit_(reading, std::nullopt);
  why_->hold([this, reading](const auto& why) { write_held(reading, why); });
  return {};
}

void FigureEntry::write_held(const std::optional<Reading>& reading, const std::optional<std::string>& why) {
  const QString typed = field_->typed();
  const QPointer<FigureEntry> alive(this);
  const auto result = commit_(reading, why);
  if (!alive) return;
  why_->drop();
  if (result.ok()) return;
  field_->set_value(value_);
  field_->type(typed);
  field_->show_error(result.error());
  QMetaObject::invokeMethod(
      this, [this] { field_->line()->setFocus(Qt::OtherFocusReason); }, Qt::QueuedConnection);
}

void FigureEntry::give_up() {
  why_->drop();
  field_->set_value(value_);
  field_->line()->setFocus(Qt::OtherFocusReason);
}

}  // namespace prillbook::ui
