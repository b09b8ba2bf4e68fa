// SPDX-License-Identifier: GPL-3.0-or-later
// Which port a balance is on and how its lines look; what it sends is shown as it comes, so that a wrong choice is seen.
#pragma once

#include <QtWidgets/QWidget>

#include "ui/balance_port/balance_port.h"

class QLabel;

namespace prillbook::ui {

class ChoiceField;
class PickField;
class TextField;

class PortPage : public QWidget {
  Q_OBJECT
 public:
  explicit PortPage(QWidget* parent = nullptr);
  void enter();

 protected:
  // The port is only listened to while the page is in sight: the weigh room wants it at other times.
  void showEvent(QShowEvent* event) override;
  void hideEvent(QHideEvent* event) override;

 private:
  void keep();
  void show_state();

  PortSettings settings_;
  BalancePort* port_;
  TextField* name_;
  PickField* speed_;
  ChoiceField* bits_;
  ChoiceField* parity_;
  PickField* layout_;
  ChoiceField* sends_;
  QLabel* state_;
  QLabel* line_;
};

}  // namespace prillbook::ui
