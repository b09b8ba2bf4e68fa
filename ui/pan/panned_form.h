// SPDX-License-Identifier: GPL-3.0-or-later
// A pan test on the bench: the grind, what the panner saw, the pannings one after the other, free gold, bead, what was left.
#pragma once

#include <QtWidgets/QWidget>

#include "core/results/sample_result.h"
#include "ui/kit/record_fields.h"
#include "ui/kit/station.h"

class QLabel;

namespace prillbook::ui {

class Fold;
class Form;
class PanningRows;
class PressButton;

class PannedForm : public QWidget {
  Q_OBJECT
 public:
  explicit PannedForm(Session& session, QWidget* parent = nullptr);
  void show_test(const results::SampleRecord& record, const results::SampleResult& result, PanTestId test);
  void enter();

 signals:
  void open_requested(const prillbook::ui::RecordRef& wanted);
  void said(const QString& words);

 private:
  Form* build_fields();
  FigureEntry* product(const QString& label, const std::string& purpose);
  void show_products(const results::SampleRecord& record, const gravity::PanTest& test, bool other);
  void show_sieved(const results::SampleRecord& record, const results::SampleResult& result, const gravity::PanTest& test);
  void show_bead(const results::PanEntry& entry);
  void copy_grind();

  Session& session_;
  PanTestId test_;
  BeadId bead_;
  SieveAnalysisId sieved_;
  std::optional<double> sieved_p80_um_;
  RecordFields* fields_;
  FigureEntry* grind_ = nullptr;
  PickField* who_ = nullptr;
  TextField* mercury_ = nullptr;
  PressButton* copy_;
  QLabel* grind_from_;
  PanningRows* pannings_;
  FigureEntry* remainder_ = nullptr;
  FigureEntry* tail_ = nullptr;
  QLabel* bead_words_;
  PressButton* to_balance_;
  Fold* lost_;
};

}  // namespace prillbook::ui
