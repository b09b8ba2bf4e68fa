// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QtWidgets/QWidget>

class QToolButton;
class QScrollArea;

namespace prillbook::ui {

// The two columns of a station: what waits, and the one thing in hand. Below `fold_width` the first folds away and a
// button with its word brings it back.
class Bench : public QWidget {
  Q_OBJECT
 public:
  // `in_hand` scrolls when it is taller than the place and gets its margins here: its layout wants none.
  Bench(QWidget* waiting, QWidget* in_hand, QWidget* parent = nullptr);

  bool waiting_shown() const;
  bool folded() const { return folded_; }
  void show_waiting(bool shown);
  static constexpr int fold_width = 880;  // of the station, about 1100 of the window

 protected:
  void showEvent(QShowEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;

 private:
  void fold(bool folded);

  QWidget* waiting_;
  QWidget* in_hand_;
  QScrollArea* scroll_;
  QToolButton* toggle_;
  bool folded_ = false;
};

}  // namespace prillbook::ui
