// SPDX-License-Identifier: GPL-3.0-or-later
// The crushing order: what it would be for the samples that wait, what it saves, and the key that makes it the queue.
#pragma once

#include <QtWidgets/QWidget>

#include "core/results/machine_risk.h"
#include "ui/kit/session.h"

class QLabel;

namespace prillbook::ui {

class Ledger;
class PressButton;

class OrderPane : public QWidget {
  Q_OBJECT
 public:
  explicit OrderPane(Session& session, QWidget* parent = nullptr);
  void show_machine(MachineId machine);
  void refresh();
  Ledger* places() const { return places_; }
  PressButton* keep() const { return keep_; }
  QString words() const;
  QString refusal_words() const;

 private:
  void keep_order();

  Session& session_;
  MachineId machine_;
  QLabel* words_;
  Ledger* places_;
  PressButton* keep_;
  QLabel* refused_;
};

}  // namespace prillbook::ui
