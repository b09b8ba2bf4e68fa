// SPDX-License-Identifier: GPL-3.0-or-later
// The boxes and bags of the consignment in hand, each with its condition and its seal.
#pragma once

#include <QtWidgets/QWidget>

#include "core/custody/pieces.h"
#include "ui/kit/record_fields.h"

class QLabel;

namespace prillbook::ui {

class Ledger;
class PressButton;

class PiecesForm : public QWidget {
  Q_OBJECT
 public:
  explicit PiecesForm(Session& session, QWidget* parent = nullptr);
  void show_consignment(ConsignmentId id);
  void refresh();

 private:
  void add();
  void take(PieceId id);

  Session& session_;
  ConsignmentId consignment_;
  RecordFields* fields_;
  Ledger* list_;
  QWidget* form_;
  ChoiceField* condition_;
  PressButton* add_;
  QLabel* refused_;  // of a piece that was not added
};

}  // namespace prillbook::ui
