// SPDX-License-Identifier: GPL-3.0-or-later
// The fields of a form. Each is bound to a command of core by on_commit: the callback writes and returns the Result;
// an error is shown as a sentence beneath the field. See field.h for what all of them do.
#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "core/base/clock.h"
#include "core/readings/reading.h"
#include "ui/kit/field.h"

class QCheckBox;
class QStringListModel;

namespace prillbook::ui {

class ChoiceRow;

// Words. Blanks at the ends are trimmed; no words are nullopt.
class TextField : public LineField {
  Q_OBJECT
 public:
  using Commit = std::function<Result<void>(const std::optional<std::string>&)>;

  explicit TextField(const QString& label, QWidget* parent = nullptr) : LineField(label, parent) {}
  void on_commit(Commit commit) { commit_ = std::move(commit); }
  void set_value(const std::optional<std::string>& value);

 protected:
  Result<void> write(const QString& text, QString& shown) override;

 private:
  Commit commit_;
};

// What a ReadingField should expect. Owns its text, unlike readings::Expectation.
struct Expected {
  Measure measure = Measure::mass;
  std::string unit = "g";  // taken by a bare number and shown after the field
  DecimalMark preferred = DecimalMark::point;
  bool zero_allowed = true;
};

// A figure with its unit, kept as typed. An empty line is a figure not measured (nullopt).
class ReadingField : public LineField {
  Q_OBJECT
 public:
  using Reading = readings::Reading;
  using Commit = std::function<Result<void>(const std::optional<Reading>&)>;
  // A figure that looks like a slip: what else it may have been. Enter again keeps what was typed; the key of an
  // alternative takes its text instead. Either answer is kept with the reading. Without an alternative `words` say what
  // is odd about the figure, and are kept with it when Enter keeps it.
  struct Alternative {
    QChar key;      // 'm'
    QString typed;  // "22 mg"
  };
  struct Doubt {
    std::vector<Alternative> instead;
    QString words;  // "22 g would be 44 000 g/t"; may be empty where there is an alternative
  };
  using Doubting = std::function<std::optional<Doubt>(const Reading&)>;

  ReadingField(const QString& label, Expected expected, QWidget* parent = nullptr);
  void on_commit(Commit commit) { commit_ = std::move(commit); }
  void on_doubt(Doubting doubting) { doubting_ = std::move(doubting); }
  // Called with every key: the figure as it would be understood, or nullptr. For grades that appear while typing.
  void on_typing(std::function<void(const Reading*)> typing) { typing_ = std::move(typing); }
  void set_value(const std::optional<Reading>& value);
  // What the field expects from now on, say after another balance was taken in hand.
  void expect(Expected expected);

 protected:
  Result<void> write(const QString& text, QString& shown) override;
  bool answered(int index) override;
  void kept() override;
  bool ask_instead(const Error& error, const QString& text) override;
  void text_changed() override;

 private:
  Result<Reading> understood(const QString& text) const;
  void ask_about(const Reading& reading, const Doubt& doubt, std::vector<Answer> answers);
  Result<void> write_reading(Reading reading, QString& shown);
  bool write_answered(Reading reading);
  QString shown_text(const Reading& reading) const;

  Expected expected_;
  Commit commit_;
  Doubting doubting_;
  std::function<void(const Reading*)> typing_;
  std::vector<Reading> offered_;    // what each open answer stands for
  std::optional<Reading> doubted_;  // the figure as typed, while a doubt is open
  QString kept_answer_;             // what is kept with it where Enter keeps it
};

// A whole number, at least `least`; no spin buttons, so that no wheel can change it.
class WholeField : public LineField {
  Q_OBJECT
 public:
  using Commit = std::function<Result<void>(std::optional<std::int64_t>)>;

  explicit WholeField(const QString& label, std::int64_t least = 0, QWidget* parent = nullptr);
  void on_commit(Commit commit) { commit_ = std::move(commit); }
  void set_value(std::optional<std::int64_t> value);

 protected:
  Result<void> write(const QString& text, QString& shown) override;

 private:
  std::int64_t least_;
  Commit commit_;
};

// When it happened, in local time, as people type it: "9:30", "now", "yesterday 16:00", "2026-05-04 9:30",
// "4 May 9:30", "4.5.2026 9:30". A day alone is noon of that day; a time alone is today.
class DateTimeField : public LineField {
  Q_OBJECT
 public:
  using Commit = std::function<Result<void>(std::optional<Instant>)>;

  DateTimeField(const QString& label, Clock& clock, QWidget* parent = nullptr);
  void on_commit(Commit commit) { commit_ = std::move(commit); }
  void set_value(std::optional<Instant> value);

 protected:
  Result<void> write(const QString& text, QString& shown) override;

 private:
  Clock& clock_;
  Commit commit_;
};

// Reads what DateTimeField takes. The offset is that of the machine's time zone on that day where `now` is in that zone,
// else the offset of `now`.
// Errors: out_of_range with the text where it is no day or time.
Result<Instant> parse_local_time(const QString& text, const Instant& now);

// One of a list that may be long (clients, balances, people): typed; a beginning that fits one only is enough.
class PickField : public LineField {
  Q_OBJECT
 public:
  struct Item {
    std::int64_t id = 0;
    QString words;
  };
  using Commit = std::function<Result<void>(std::optional<std::int64_t>)>;
  // Called with words that fit nothing: makes the record and gives its id ("new client").
  using Make = std::function<Result<std::int64_t>(const std::string& words)>;

  explicit PickField(const QString& label, QWidget* parent = nullptr);
  void on_commit(Commit commit) { commit_ = std::move(commit); }
  void on_new(Make make) { make_ = std::move(make); }
  void set_items(std::vector<Item> items);
  void set_value(std::optional<std::int64_t> id);

 protected:
  Result<void> write(const QString& text, QString& shown) override;

 private:
  std::vector<Item> items_;
  QStringListModel* words_;
  Commit commit_;
  Make make_;
};

// One of a few words, all in sight, each with its key underlined. Left and Right move, the key takes, Backspace leaves
// it open (unless `required`). The wheel never changes it.
class ChoiceField : public Field {
  Q_OBJECT
 public:
  struct Choice {
    std::string value;  // what the notebook holds
    QString words;      // what the person reads
  };
  using Commit = std::function<Result<void>(const std::optional<std::string>&)>;

  ChoiceField(const QString& label, std::vector<Choice> choices, QWidget* parent = nullptr);
  void on_commit(Commit commit) { commit_ = std::move(commit); }
  void set_required(bool required) { required_ = required; }
  void set_value(const std::optional<std::string>& value);
  std::optional<std::string> value() const;

  bool commit() override { return !refused(); }
  bool pending() const override { return refused(); }
  void set_read_only(bool read_only) override;
  void leave_record() override;

 private:
  void take(int index);  // -1: none
  void tell();

  std::vector<Choice> choices_;
  Commit commit_;
  int accepted_ = -1;
  bool required_ = false;
  ChoiceRow* row_ = nullptr;
};

// Yes or no, with the words beside the mark. Space turns it.
class FlagField : public Field {
  Q_OBJECT
 public:
  using Commit = std::function<Result<void>(bool)>;

  FlagField(const QString& label, const QString& words, QWidget* parent = nullptr);
  void on_commit(Commit commit) { commit_ = std::move(commit); }
  void set_value(bool value);

  bool commit() override { return !refused(); }
  bool pending() const override { return refused(); }
  void set_read_only(bool read_only) override;
  void leave_record() override;

 private:
  void turned(bool value);

  Commit commit_;
  bool accepted_ = false;
  QCheckBox* box_ = nullptr;
};

}  // namespace prillbook::ui
