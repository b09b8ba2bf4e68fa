// SPDX-License-Identifier: GPL-3.0-or-later
// Fields that are chosen, not typed.
#include <QtCore/QSignalBlocker>
#include <QtGui/QKeyEvent>
#include <QtGui/QWheelEvent>
#include <QtWidgets/QCheckBox>

#include "ui/kit/choice_row.h"
#include "ui/kit/fields.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"

namespace prillbook::ui {
namespace {

// Space ticks, Enter moves on as in every other field.
class TickBox : public QCheckBox {
 public:
  using QCheckBox::QCheckBox;

 protected:
  void keyPressEvent(QKeyEvent* event) override {
    if (event->key() != Qt::Key_Return && event->key() != Qt::Key_Enter) return QCheckBox::keyPressEvent(event);
    focusNextChild();
  }
};

}  // namespace

ChoiceField::ChoiceField(const QString& label, std::vector<Choice> choices, QWidget* parent)
    : Field(label, parent), choices_(std::move(choices)) {
  QStringList words;
  for (const Choice& choice : choices_) words << choice.words;
  row_ = new ChoiceRow(words);
  connect(row_, &ChoiceRow::wanted, this, &ChoiceField::take);
  set_editor(row_);
}

void ChoiceField::set_value(const std::optional<std::string>& value) {
  accepted_ = -1;
  for (std::size_t i = 0; i < choices_.size(); ++i)
    if (value == choices_[i].value) accepted_ = int(i);
  row_->show_chosen(accepted_);
  tell();
}

std::optional<std::string> ChoiceField::value() const {
  return accepted_ < 0 ? std::nullopt : std::optional(choices_[std::size_t(accepted_)].value);
}

void ChoiceField::set_read_only(bool read_only) { row_->set_read_only(read_only); }

void ChoiceField::leave_record() {
  clear_messages();
  set_value(std::nullopt);
}

// A custom row says nothing by itself to a screen reader: the value goes into the name.
void ChoiceField::tell() {
  row_->setAccessibleName(accepted_ < 0 ? label() : label() + QStringLiteral(": ") + choices_[std::size_t(accepted_)].words);
}

void ChoiceField::take(int index) {
  if (index == accepted_) return clear_messages();
  if (index < 0 && required_) return;
  const QPointer<ChoiceField> alive(this);
  const auto result =
      commit_ ? commit_(index < 0 ? std::nullopt : std::optional(choices_[std::size_t(index)].value)) : Result<void>{};
  if (!alive) return;
  if (!result.ok()) {
    show_error(result.error());
    row_->show_chosen(accepted_);
    emit refused_with_error();
    return;
  }
  clear_messages();
  accepted_ = index;
  row_->show_chosen(index);
  tell();
  emit committed();
}

FlagField::FlagField(const QString& label, const QString& words, QWidget* parent)
    : Field(label, parent), box_(new TickBox(words)) {
  box_->setFont(face(TextSize::body));
  connect(box_, &QCheckBox::toggled, this, &FlagField::turned);
  set_editor(box_);
}

void FlagField::set_value(bool value) {
  const QSignalBlocker silent(box_);
  accepted_ = value;
  box_->setChecked(value);
}

void FlagField::set_read_only(bool read_only) { box_->setEnabled(!read_only); }

void FlagField::leave_record() {
  clear_messages();
  set_value(false);
}

void FlagField::turned(bool value) {
  const QPointer<FlagField> alive(this);
  const auto result = commit_ ? commit_(value) : Result<void>{};
  if (!alive) return;
  if (!result.ok()) {
    set_value(accepted_);
    show_error(result.error());
    emit refused_with_error();
    return;
  }
  clear_messages();
  set_value(value);
  emit committed();
}

}  // namespace prillbook::ui
