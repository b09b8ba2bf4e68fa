// SPDX-License-Identifier: GPL-3.0-or-later
// The bead of a pan test or of a charge: its weighings and its fineness.
#pragma once

#include <QtWidgets/QWidget>

#include "core/results/sample_record.h"
#include "ui/kit/record_fields.h"

namespace prillbook::ui {

class Fold;
class WeighingRows;

class BeadForm : public QWidget {
  Q_OBJECT
 public:
  explicit BeadForm(Session& session, QWidget* parent = nullptr);
  void show_bead(const results::SampleRecord& record, const weighing::Bead& bead, PortionId portion);
  QWidget* next() const;  // where the next thing is typed

 private:
  // A fineness is one entry: method, figure and uncertainty are written together, as soon as the method has all it needs.
  Result<void> take_method(const std::optional<std::string>& method);
  Result<void> take_fineness(const readings::Figure& fineness, const readings::Figure& uncertainty, const RecordFields::Why& why);
  void show_method();
  void show_melt(const results::SampleRecord& record, const weighing::Bead& bead);
  void leave();

  Session& session_;
  BeadId bead_;
  std::optional<std::string> method_, held_method_;
  readings::Figure fineness_, uncertainty_;
  RecordFields* fields_;
  WeighingRows* bead_rows_;
  ChoiceField* method_field_;
  QWidget* figures_;
  FigureEntry* fineness_field_;
  FigureEntry* uncertainty_field_;
  WeighingRows* gold_rows_;
  PickField* melted_;
};

}  // namespace prillbook::ui
