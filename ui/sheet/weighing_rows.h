// SPDX-License-Identifier: GPL-3.0-or-later
// The weighings of a bead, or of the gold that was left of it after parting: each can be corrected or left out, and a
// new one typed beneath.
#pragma once

#include <QtWidgets/QWidget>
#include <memory>
#include <vector>

#include "core/results/sample_record.h"
#include "ui/kit/record_fields.h"

class QVBoxLayout;

namespace prillbook::ui {

class WeighingRows : public QWidget {
  Q_OBJECT
 public:
  // `what`: weighing::of_bead or weighing::of_gold.
  WeighingRows(Session& session, std::string what, QWidget* parent = nullptr);
  void show_bead(const results::SampleRecord& record, const weighing::Bead& bead, PortionId portion);
  QWidget* next() const { return mass_; }

 private:
  struct Row {
    RecordFields* fields = nullptr;
    FigureEntry* mass = nullptr;
    QWidget* line = nullptr;
  };
  Row make_row();
  Result<void> weigh(const std::optional<readings::Reading>& mass);
  void show_balances(const results::SampleRecord& record);
  std::optional<ReadingField::Doubt> doubt(const readings::Reading& mass) const;

  Session& session_;
  std::string what_;
  BeadId bead_;
  BalanceId balance_;
  std::optional<Mass> portion_mass_, step_;
  double suspicious_g_t_ = 0;
  std::vector<lab::Balance> balances_;
  std::vector<Row> rows_;
  QVBoxLayout* column_;
  ReadingField* mass_;
  PickField* balance_field_;
};

}  // namespace prillbook::ui
