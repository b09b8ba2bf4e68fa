// SPDX-License-Identifier: GPL-3.0-or-later
// What the tests of a sample say so far, a line each.
#pragma once

#include <QtWidgets/QWidget>
#include <vector>

#include "core/results/sample_result.h"
#include "ui/kit/figures.h"

class QGridLayout;

namespace prillbook::ui {

struct ResultLine {
  QString label;  // "26-0003/2"
  QString kind;   // "pan"
  Figure gold;    // an empty ruled line where it is not known
  Figure silver;
  QString words;  // "waits for its bead"
  bool stopped = false;
};

std::vector<ResultLine> result_lines(const results::SampleRecord& record, const results::SampleResult& result);

class ResultLines : public QWidget {
  Q_OBJECT
 public:
  explicit ResultLines(QWidget* parent = nullptr) : QWidget(parent) {}
  void set_lines(std::vector<ResultLine> lines);
  const std::vector<ResultLine>& lines() const { return lines_; }
  QSize sizeHint() const override;

 protected:
  void paintEvent(QPaintEvent* event) override;
  void changeEvent(QEvent* event) override;

 private:
  std::vector<ResultLine> lines_;
};

}  // namespace prillbook::ui
