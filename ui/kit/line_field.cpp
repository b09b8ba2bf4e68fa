// SPDX-License-Identifier: GPL-3.0-or-later
#include <QtCore/QEvent>
#include <QtGui/QFontMetrics>
#include <QtGui/QKeyEvent>
#include <QtWidgets/QLabel>
#include <QtWidgets/QLineEdit>

#include "ui/kit/field.h"
#include "ui/kit/theme.h"

namespace prillbook::ui {

LineField::LineField(const QString& label, QWidget* parent) : Field(label, parent), line_(new QLineEdit), unit_(new QLabel) {
  unit_->setFont(face(TextSize::body, Weight::light));
  unit_->setProperty("tone", "quiet");
  unit_->hide();
  line_->setFont(face(TextSize::body));
  line_->setTextMargins(-2, 0, 0, 0);  // figures begin where their line begins
  line_->installEventFilter(this);
  connect(line_, &QLineEdit::textEdited, this, &LineField::edited);
  set_editor(line_, unit_);
}

QString LineField::typed() const { return line_->text(); }

void LineField::type(const QString& text) {
  line_->setText(text);
  edited();
}

bool LineField::pending() const { return line_->text().trimmed() != accepted_; }

void LineField::set_read_only(bool read_only) { line_->setReadOnly(read_only); }

void LineField::set_width_in_digits(int digits) {
  digits_ = digits;
  const int width = digits > 0 ? line_->fontMetrics().horizontalAdvance(QLatin1Char('0')) * digits + rhythm : QWIDGETSIZE_MAX;
  line_->setMaximumWidth(width);
}

void LineField::set_huge(bool huge) {
  line_->setFont(face(huge ? TextSize::weigh_room : TextSize::body));
  unit_->setFont(face(huge ? TextSize::large : TextSize::body, Weight::light));
  line_->setFixedHeight(huge ? 12 * rhythm : line_->sizeHint().height());
  // Both stand on one base line.
  const QFontMetrics figure = line_->fontMetrics(), unit = unit_->fontMetrics();
  unit_->setContentsMargins(0, 2 * figure.ascent() - figure.height() - 2 * unit.ascent() + unit.height(), 0, 0);
  set_width_in_digits(digits_);
}

void LineField::edited() {
  clear_messages();
  refused_text_.clear();
  if (drafts_) {
    if (pending())
      drafts_->keep(draft_key_, line_->text());
    else
      drafts_->forget(draft_key_);
  }
  text_changed();
}

void LineField::keep_drafts(Drafts& drafts, const QString& key) {
  const bool same = drafts_ == &drafts && draft_key_ == key;
  Field::keep_drafts(drafts, key);
  if (same || pending()) return;
  const auto draft = drafts.draft(key);
  if (!draft || draft->trimmed() == accepted_) return;
  set_aside_ = *draft;
  show_note(tr("Typed earlier, not written: “%1”. Ctrl+Z takes it up.").arg(*draft));
}

void LineField::leave_record() {
  if (drafts_ && pending()) drafts_->keep(draft_key_, line_->text());
  draft_key_.clear();
  drafts_.clear();
  accepted_.clear();
  set_aside_.clear();
  refused_text_.clear();
  line_->clear();
  clear_messages();
  text_changed();
}

void LineField::show_accepted(const QString& text) {
  const bool untouched = !pending() && !committing_;
  accepted_ = text;
  if (untouched && line_->text() != text) {
    line_->setText(text);
    if (!line_->hasFocus()) line_->setCursorPosition(0);  // a long text shows its beginning
  }
  text_changed();
}

bool LineField::commit() {
  if (committing_ || !pending()) return true;
  if (!open_answers().empty() || (refused() && line_->text() == refused_text_)) return false;
  return write_now();
}

bool LineField::write_now() {
  return write_settled([this, text = line_->text().trimmed()](QString& shown) { return write(text, shown); });
}

bool LineField::write_settled(const std::function<Result<void>(QString&)>& settled) {
  const QString text = line_->text().trimmed();
  QString shown = text;
  const QPointer<LineField> alive(this);
  committing_ = true;
  const auto result = settled(shown);
  if (!alive) return result.ok();  // the command made the station build its form anew
  committing_ = false;
  return finish(result, text, shown);
}

bool LineField::finish(const Result<void>& result, const QString& text, const QString& shown) {
  if (!result.ok()) {
    refused_text_ = line_->text();
    if (!ask_instead(result.error(), text)) show_error(result.error());
    emit refused_with_error();
    return false;
  }
  accepted_ = shown;
  line_->setText(shown);
  set_aside_.clear();
  clear_messages();
  if (drafts_) drafts_->forget(draft_key_);
  text_changed();
  emit committed();
  return true;
}

bool LineField::ask_instead(const Error&, const QString&) { return false; }
bool LineField::answered(int) { return false; }
void LineField::kept() {}

void LineField::put_back() {
  set_aside_ = line_->text();
  line_->setText(accepted_);
  refused_text_.clear();
  clear_messages();
  text_changed();
}

bool LineField::bring_back() {
  if (set_aside_.isEmpty() || line_->isReadOnly()) return false;
  const QString text = set_aside_;
  set_aside_.clear();
  type(text);
  return true;
}

bool LineField::eventFilter(QObject* watched, QEvent* event) {
  if (watched != line_) return Field::eventFilter(watched, event);
  switch (event->type()) {
    case QEvent::ShortcutOverride: {
      auto* stroke = static_cast<QKeyEvent*>(event);
      // Escape leaves a page of the window unless there is typed text to put back or to bring back.
      if (stroke->key() == Qt::Key_Escape && (pending() || !set_aside_.isEmpty())) {
        event->accept();
        return true;
      }
      // So does Ctrl+Shift+Z, which the line would take even where it has nothing to put back.
      if (stroke->matches(QKeySequence::Redo)) {
        event->setAccepted(line_->isRedoAvailable());
        return true;
      }
      if (!stroke->matches(QKeySequence::Undo)) break;
      // Ctrl+Z belongs to the window unless there is typed text to bring back.
      event->setAccepted(!set_aside_.isEmpty() || line_->isUndoAvailable());
      return true;
    }
    case QEvent::KeyPress: return key(static_cast<QKeyEvent*>(event));
    case QEvent::Wheel: event->ignore(); return true;
    case QEvent::FocusOut: {
      const auto reason = static_cast<QFocusEvent*>(event)->reason();
      if (reason == Qt::PopupFocusReason || reason == Qt::ActiveWindowFocusReason || reason == Qt::MenuBarFocusReason) break;
      const QPointer<LineField> alive(this);
      if (commit() && alive) line_->setCursorPosition(0);  // a long text shows its beginning
      break;
    }
    default: break;
  }
  return false;
}

bool LineField::key(QKeyEvent* event) {
  if (event->matches(QKeySequence::Undo)) return bring_back();
  if (event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter) {
    enter();
    return true;
  }
  if (event->key() == Qt::Key_Escape) {
    if (!pending()) {
      const bool brought = bring_back();
      event->setAccepted(brought);
      return brought;
    }
    put_back();
    return true;
  }
  if (event->key() == Qt::Key_Tab || event->key() == Qt::Key_Backtab) return written_before_tab();
  const auto& answers = open_answers();
  if (event->modifiers() & (Qt::ControlModifier | Qt::AltModifier) || event->text().isEmpty()) return false;
  for (std::size_t i = 0; i < answers.size(); ++i)
    if (answers[i].key.toLower() == event->text().at(0).toLower()) {
      const QPointer<LineField> alive(this);
      if (answered(int(i)) && alive) focusNextChild();
      return true;
    }
  return false;
}

// What the entry opens may be the next field: it is written before Qt looks for that. True where the entry has put the
// focus elsewhere itself.
bool LineField::written_before_tab() {
  const QPointer<LineField> alive(this);
  commit();
  return !alive || line_->window()->focusWidget() != line_;
}

void LineField::enter() {
  const QPointer<LineField> alive(this);
  bool done = true;
  if (!open_answers().empty()) {
    kept();
    done = !alive || !pending();
  } else if (pending()) {
    refused_text_.clear();
    done = write_now();
  }
  if (done && alive && !(hold_while_empty_ && typed().isEmpty())) focusNextChild();
}

}  // namespace prillbook::ui
