// SPDX-License-Identifier: GPL-3.0-or-later
// Blank bench sheets: which of them, on which paper.
#pragma once

#include <vector>

#include "ui/printing/print_page.h"

class QCheckBox;

namespace prillbook::ui {

class ChoiceField;

class BenchSheetsPage : public PrintPage {
  Q_OBJECT
 public:
  explicit BenchSheetsPage(Session& session, Printing printing = {}, QWidget* parent = nullptr);
  void enter();
  const std::vector<QCheckBox*>& boxes() const { return boxes_; }
  QString guide_page() const { return QStringLiteral("bench-sheets"); }

 protected:
  Result<paper::Pages> pages() const override;
  QString file_name() const override;

 private:
  std::vector<QCheckBox*> boxes_;  // in the order of paper::bench_sheets()
  ChoiceField* paper_;
};

}  // namespace prillbook::ui
