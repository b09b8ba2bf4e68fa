// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QtCore/QEvent>
#include <QtCore/QStringList>
#include <QtWidgets/QLabel>

#include "ui/kit/messages.h"
#include "ui/window/main_window.h"

namespace prillbook::testing_support {

inline const ui::MessageBar* lowest_bar(const ui::MainWindow& window) {
  const ui::MessageBar* lowest = nullptr;
  const auto bottom = [&](const QWidget* bar) { return bar->mapTo(&window, QPoint(0, bar->height())).y(); };
  for (const auto* bar : window.findChildren<ui::MessageBar*>())
    if (bar->isVisible() && (!lowest || bottom(bar) > bottom(lowest))) lowest = bar;
  return lowest;
}

// Hears each line that the foot of the window says; the next may follow it before anybody reads. A bar sets its words as
// its tool tip too, and a widget is told of that at once.
class FootEar : public QObject {
 public:
  explicit FootEar(const ui::MainWindow& window) {
    if (const auto* bar = lowest_bar(window))
      for (auto* line : bar->findChildren<QLabel*>()) line->installEventFilter(this);
  }
  bool eventFilter(QObject* watched, QEvent* event) override {
    if (event->type() != QEvent::ToolTipChange) return false;
    if (const QString words = static_cast<QWidget*>(watched)->toolTip(); !words.isEmpty()) heard_ << words;
    return false;
  }
  void forget() { heard_.clear(); }
  const QStringList& heard() const { return heard_; }

 private:
  QStringList heard_;
};

}  // namespace prillbook::testing_support
