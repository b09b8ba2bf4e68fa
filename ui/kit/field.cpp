// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/kit/field.h"

#include <QtCore/QEvent>
#include <QtGui/QPainter>
#include <QtWidgets/QHBoxLayout>
#include <QtWidgets/QLabel>
#include <QtWidgets/QVBoxLayout>

#include "ui/kit/messages.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"

namespace prillbook::ui {
namespace {

constexpr int mark_room = 2 * rhythm + 4;

// "22 g?  press m for 22 mg": keys in bold.
QString rich(const Question& question) {
  QString text = question.words.toHtmlEscaped();
  for (const Answer& answer : question.answers)
    text += QStringLiteral(" <b>%1</b> %2").arg(QString(answer.key).toHtmlEscaped(), answer.words.toHtmlEscaped());
  return text;
}

QString plain(const Question& question) {
  QString text = question.words;
  for (const Answer& answer : question.answers) text += QStringLiteral("  %1 %2").arg(answer.key).arg(answer.words);
  return text;
}

}  // namespace

Field::Field(const QString& label, QWidget* parent)
    : QWidget(parent), label_(label), label_line_(new QLabel(label)), beneath_(new QLabel), row_(new QHBoxLayout) {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(0);
  row_->setContentsMargins(0, 0, 0, 0);
  row_->setSpacing(6);
  label_line_->setFont(face(TextSize::small));
  label_line_->setProperty("tone", "quiet");
  label_line_->setWordWrap(false);
  beneath_->setFont(face(TextSize::small));
  beneath_->setWordWrap(true);
  beneath_->setTextFormat(Qt::PlainText);
  beneath_->setAlignment(Qt::AlignTop | Qt::AlignLeft);
  beneath_->setMinimumHeight(beneath_->fontMetrics().height());  // so that a sentence does not push the form about
  column->addWidget(label_line_);
  column->addLayout(row_);
  column->addWidget(beneath_);
  column->addStretch();
}

void Field::set_editor(QWidget* editor, QLabel* unit) {
  editor_ = editor;
  row_->addWidget(editor, 1);
  if (unit) {
    row_->addWidget(unit);
    row_->addStretch();
  }
  label_line_->setBuddy(editor);
  setFocusProxy(editor);
  describe();
}

void Field::set_label(const QString& label) {
  label_ = label;
  label_line_->setText(label);
  describe();
}

void Field::set_in_row(bool in_row) {
  in_row_ = in_row;
  label_line_->setVisible(!in_row);
  show_beneath();
}

void Field::set_hint(const QString& hint) {
  hint_ = hint;
  show_beneath();
}

QString Field::error_text() const { return error_; }
QString Field::question_text() const { return question_; }

void Field::show_error(const Error& error) {
  error_ = sentence(error);
  show_beneath();
}

void Field::show_note(const QString& words) {
  note_ = words;
  show_beneath();
}

void Field::clear_messages() {
  error_.clear();
  note_.clear();
  question_.clear();
  answers_.clear();
  show_beneath();
}

void Field::keep_drafts(Drafts& drafts, const QString& key) {
  drafts_ = &drafts;
  draft_key_ = key;
  setProperty("record", key);  // the history of what is in hand is found by it
}

void Field::ask(const Question& question) {
  clear_messages();
  question_ = plain(question);
  answers_ = question.answers;
  show_beneath();
  beneath_->setTextFormat(Qt::RichText);
  beneath_->setText(rich(question));
}

void Field::end_question() {
  question_.clear();
  answers_.clear();
  show_beneath();
}

void Field::show_beneath() {
  const bool wrong = !error_.isEmpty();
  const QString words = wrong ? error_ : !question_.isEmpty() ? question_ : !note_.isEmpty() ? note_ : hint_;
  const bool marked = wrong || !question_.isEmpty();
  beneath_->setTextFormat(Qt::PlainText);
  beneath_->setText(words);
  beneath_->setProperty("tone", wrong ? "signal" : question_.isEmpty() ? "quiet" : "");
  beneath_->setVisible(!in_row_ || !words.isEmpty());
  beneath_->setContentsMargins(marked ? mark_room : 0, 2, 0, 0);
  restyle(beneath_);
  if (editor_) {
    editor_->setProperty("refused", wrong);
    restyle(editor_);
  }
  describe();
  update();
}

void Field::describe() {
  if (!editor_) return;
  editor_->setAccessibleName(label_);
  const QString beneath = !error_.isEmpty() ? error_ : !question_.isEmpty() ? question_ : !note_.isEmpty() ? note_ : hint_;
  editor_->setAccessibleDescription(beneath);
}

void Field::paintEvent(QPaintEvent*) {
  if (error_.isEmpty() && question_.isEmpty()) return;
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  const int line = beneath_->fontMetrics().height();
  draw_mark(painter, QRectF(0, beneath_->y() + 2 + (line - 14) / 2.0, 14, 14),
            error_.isEmpty() ? Severity::caution : Severity::stop);
}

void Field::changeEvent(QEvent* event) {
  QWidget::changeEvent(event);
  if (event->type() == QEvent::PaletteChange) update();
}

Field* commit_all(QWidget* root) {
  Field* first = nullptr;
  for (Field* field : root->findChildren<Field*>())
    if (!field->commit() && !first) first = field;
  return first;
}

void leave_all(QWidget* root) {
  for (Field* field : root->findChildren<Field*>()) {
    field->commit();
    field->leave_record();
  }
}

}  // namespace prillbook::ui
