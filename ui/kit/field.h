// SPDX-License-Identifier: GPL-3.0-or-later
// The one way to build a field: label above, what is typed on a ruled line, unit after it, and beneath it, in place,
// the hint, the question or the error sentence. Every accepted field is one write; there is no Save.
//
//   auto* mass = new ReadingField(tr("Mass received"), {Measure::mass, "kg", session.writing.mark});
//   mass->on_commit([=](const auto& reading) { return custody::set_mass_received(journal, sample, reading); });
//   mass->set_value(sample.mass_received);   // after every notebook_changed; text being typed is left alone
//   mass->keep_drafts(session.drafts, QString("sample/%1/mass_received").arg(id));
//
// Enter, Tab and a click elsewhere commit. A refused text stays, with the sentence beneath it. Escape shows again what
// the notebook holds; a second Escape or Ctrl+Z brings the typed text back. Leaving for another window commits nothing.
#pragma once

#include <QtCore/QPointer>
#include <QtWidgets/QWidget>
#include <functional>
#include <vector>

#include "core/base/result.h"
#include "ui/kit/drafts.h"

class QHBoxLayout;
class QKeyEvent;
class QLabel;
class QLineEdit;

namespace prillbook::ui {

// A question at a field that one key answers.
struct Answer {
  QChar key;      // letter or digit, without regard to case
  QString words;  // "22 mg"
};
struct Question {
  QString words;                // "22 g?"
  std::vector<Answer> answers;  // "or 22 mg — press m"
};

class Field : public QWidget {
  Q_OBJECT
 public:
  const QString& label() const { return label_; }
  void set_label(const QString& label);
  void set_hint(const QString& hint);
  // A field of a table with a head of its own: no label above, no empty line beneath. The label is still told to a
  // screen reader.
  void set_in_row(bool in_row);

  // Writes what is typed, if anything is. True where nothing remains unwritten.
  virtual bool commit() = 0;
  // Typed text, or a refused choice, that is not in the notebook.
  virtual bool pending() const = 0;
  bool refused() const { return !error_text().isEmpty(); }
  QString error_text() const;
  QString question_text() const;
  virtual void set_read_only(bool read_only) = 0;

  void show_error(const Error& error);
  void show_note(const QString& words);  // neutral, beneath the field, until the next key
  void clear_messages();
  // Where a key of the keyboard goes to.
  QWidget* editor() const { return editor_; }

  // Typed text is kept there until it is written. An older draft is offered: Ctrl+Z takes it up.
  virtual void keep_drafts(Drafts& drafts, const QString& key);
  // Before the same form shows another record: typed text stays behind as a draft, the field is empty and unbound.
  virtual void leave_record() = 0;

 signals:
  void committed();           // written; the field shows it
  void refused_with_error();  // stays as typed

 protected:
  Field(const QString& label, QWidget* parent);
  void set_editor(QWidget* editor, QLabel* unit = nullptr);
  void ask(const Question& question);
  const std::vector<Answer>& open_answers() const { return answers_; }
  void end_question();
  void paintEvent(QPaintEvent* event) override;
  void changeEvent(QEvent* event) override;
  void describe();  // accessible name and description follow label, hint and error

  QPointer<Drafts> drafts_;
  QString draft_key_;

 private:
  void show_beneath();

  bool in_row_ = false;
  QString label_, hint_, error_, question_, note_;
  std::vector<Answer> answers_;
  QLabel* label_line_;
  QLabel* beneath_;
  QHBoxLayout* row_;
  QWidget* editor_ = nullptr;
};

// A field typed on one line. Subclasses say how text is understood.
class LineField : public Field {
  Q_OBJECT
 public:
  bool commit() override;
  bool pending() const override;
  void set_read_only(bool read_only) override;
  void keep_drafts(Drafts& drafts, const QString& key) override;
  void leave_record() override;
  QString typed() const;
  // As if by keyboard; commits nothing.
  void type(const QString& text);
  QLineEdit* line() const { return line_; }
  // Ruled line as wide as so many digits; 0: as wide as there is room.
  void set_width_in_digits(int digits);
  // Nothing can be typed elsewhere before something stands here: Enter on the empty field stays.
  void hold_while_empty(bool hold) { hold_while_empty_ = hold; }
  // For the weigh room: the huge figure.
  void set_huge(bool huge);

 protected:
  LineField(const QString& label, QWidget* parent);
  // Understands and writes `text`; on success `shown` is what the line shows from now on.
  virtual Result<void> write(const QString& text, QString& shown) = 0;
  // The person pressed the key of `index` of the open question; true where the matter is settled.
  virtual bool answered(int index);
  // Enter was pressed on an open question: what was typed is meant.
  virtual void kept();
  // Asked before write() gives its error to the line: a question instead. True where one was asked.
  virtual bool ask_instead(const Error& error, const QString& text);
  virtual void text_changed() {}
  void show_accepted(const QString& text);  // from the notebook; leaves typed text alone
  const QString& accepted() const { return accepted_; }
  // Runs a write whose questions are answered, and shows how it ended. True where it was written.
  bool write_settled(const std::function<Result<void>(QString& shown)>& settled);
  QLabel* unit_label() const { return unit_; }
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  bool key(QKeyEvent* event);
  void enter();
  bool written_before_tab();
  bool write_now();
  bool finish(const Result<void>& result, const QString& text, const QString& shown);
  void put_back();
  bool bring_back();
  void edited();

  QLineEdit* line_;
  QLabel* unit_;
  bool hold_while_empty_ = false;
  QString accepted_;
  QString set_aside_;     // typed text that Escape took away
  QString refused_text_;  // not asked again on mere focus changes
  int digits_ = 0;
  bool committing_ = false;
};

// The first field under `root` that would not be written; nullptr where all were.
Field* commit_all(QWidget* root);
// Commits every field under `root` and leaves its record; what is refused stays behind as a draft.
void leave_all(QWidget* root);

}  // namespace prillbook::ui
