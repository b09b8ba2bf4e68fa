// SPDX-License-Identifier: GPL-3.0-or-later
// A figure that may be corrected. Where Enter puts another figure in the place of one that is in the notebook, a line
// under it asks why, once: Enter writes the correction with the words or without, Escape leaves the old figure.
#pragma once

#include "ui/kit/fields.h"

namespace prillbook::ui {

// The line that asks why. It is pending for as long as it holds a correction.
class WhyField : public LineField {
  Q_OBJECT
 public:
  using Held = std::function<void(const std::optional<std::string>& why)>;

  explicit WhyField(QWidget* parent = nullptr);
  void hold(Held held);
  void drop();
  bool pending() const override { return bool(held_); }
  void leave_record() override;

 signals:
  void given_up();

 protected:
  Result<void> write(const QString& text, QString& shown) override;
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  Held held_;
};

class FigureEntry : public QWidget {
  Q_OBJECT
 public:
  using Reading = readings::Reading;
  using Commit = std::function<Result<void>(const std::optional<Reading>&, const std::optional<std::string>& why)>;

  FigureEntry(const QString& label, Expected expected, QWidget* parent = nullptr);
  void on_commit(Commit commit) { commit_ = std::move(commit); }
  void set_value(const std::optional<Reading>& value);
  ReadingField* field() const { return field_; }
  WhyField* why() const { return why_; }

 private:
  Result<void> take(const std::optional<Reading>& reading);
  void write_held(const std::optional<Reading>& reading, const std::optional<std::string>& why);
  void give_up();

  ReadingField* field_;
  WhyField* why_;
  std::optional<Reading> value_;
  Commit commit_;
};

}  // namespace prillbook::ui
