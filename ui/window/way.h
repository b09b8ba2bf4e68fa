// SPDX-License-Identifier: GPL-3.0-or-later
// The way of the rock: the stations one below the other, each with the number waiting there.
#pragma once

#include <QtWidgets/QAbstractButton>
#include <vector>

#include "ui/kit/icons.h"

class QVBoxLayout;

namespace prillbook::ui {

class WayStep : public QAbstractButton {
  Q_OBJECT
 public:
  WayStep(const QString& title, Icon icon, QWidget* parent = nullptr);
  void set_waiting(int count);  // negative: no number is shown
  QSize sizeHint() const override;

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  Icon icon_;
  int waiting_ = -1;
};

class Way : public QWidget {
  Q_OBJECT
 public:
  explicit Way(QWidget* parent = nullptr);
  WayStep* add(const QString& title, Icon icon);
  void add_rule();
  void set_waiting(int step, int count);
  void show_current(int step);  // -1: none

 signals:
  void chosen(int step);

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  QVBoxLayout* column_;
  std::vector<WayStep*> steps_;
};

}  // namespace prillbook::ui
