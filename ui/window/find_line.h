// SPDX-License-Identifier: GPL-3.0-or-later
// The find field of the top line. A scanner types like a keyboard and ends with Enter: one answer is opened at once.
#pragma once

#include <QtWidgets/QWidget>
#include <vector>

#include "ui/window/main_window.h"

class QLineEdit;
class QListWidget;

namespace prillbook::ui {

class FindLine : public QWidget {
  Q_OBJECT
 public:
  using Find = std::function<std::vector<Found>(const QString&, int)>;
  explicit FindLine(Find find, QWidget* parent = nullptr);
  void start();
  QLineEdit* line() const { return line_; }
  QListWidget* answers() const { return answers_; }

 signals:
  void chosen(const prillbook::ui::RecordRef& what);

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  void look();
  void choose(int row);
  void place_answers();

  Find find_;
  std::vector<Found> found_;
  QLineEdit* line_;
  QListWidget* answers_;
};

}  // namespace prillbook::ui
