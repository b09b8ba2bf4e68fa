// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>

#include "ui/kit/fields.h"

namespace prillbook::ui {

// A line that appears where a reason is needed, and goes when it was given. Escape leaves everything as it was.
class ReasonLine : public QWidget {
  Q_OBJECT
 public:
  explicit ReasonLine(QWidget* parent = nullptr);
  // `write` gets the reason, trimmed and not empty.
  void ask(const QString& label, std::function<Result<void>(const QString&)> write);
  void close();
  bool open() const { return !isHidden(); }
  TextField* field() const { return field_; }

 signals:
  void given();   // and written
  void closed();  // nothing was written

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  TextField* field_;
  std::function<Result<void>(const QString&)> write_;
};

}  // namespace prillbook::ui
