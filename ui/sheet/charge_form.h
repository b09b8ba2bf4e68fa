// SPDX-License-Identifier: GPL-3.0-or-later
// A charge: the portion in one crucible, to its bead.
#pragma once

#include <QtWidgets/QWidget>

#include "core/results/sample_record.h"
#include "ui/kit/record_fields.h"

class QLabel;

namespace prillbook::ui {

class Fold;

class ChargeForm : public QWidget {
  Q_OBJECT
 public:
  explicit ChargeForm(Session& session, QWidget* parent = nullptr);
  void show_charge(const results::SampleRecord& record, const fire::Charge& charge);

 private:
  Session& session_;
  ChargeId charge_;
  RecordFields* fields_;
  QLabel* repeats_;
  Fold* recovered_;
  Fold* lost_;
};

}  // namespace prillbook::ui
