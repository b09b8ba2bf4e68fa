// SPDX-License-Identifier: GPL-3.0-or-later
// A pan test: what was panned, what the panner saw, what was left.
#pragma once

#include <QtWidgets/QWidget>

#include "core/results/sample_record.h"
#include "ui/kit/record_fields.h"

namespace prillbook::ui {

class Fold;

class PanForm : public QWidget {
  Q_OBJECT
 public:
  explicit PanForm(Session& session, QWidget* parent = nullptr);
  void show_test(const results::SampleRecord& record, const gravity::PanTest& test);

 private:
  FigureEntry* product(const QString& label, const std::string& purpose);

  Session& session_;
  PanTestId test_;
  RecordFields* fields_;
  FigureEntry* remainder_;
  FigureEntry* tail_;
  Fold* lost_;
};

}  // namespace prillbook::ui
