// SPDX-License-Identifier: GPL-3.0-or-later
// The stack of an analysis as it stands on the bench: one line a sieve, coarse to fine, the pan last. Enter goes down.
#pragma once

#include <QtWidgets/QWidget>
#include <vector>

#include "core/results/sample_result.h"
#include "ui/kit/figure_entry.h"
#include "ui/kit/session.h"

class QGridLayout;
class QLabel;

namespace prillbook::ui {

class SieveLines : public QWidget {
  Q_OBJECT
 public:
  explicit SieveLines(Session& session, QWidget* parent = nullptr);
  void show_analysis(const sieves::Analysis& analysis);  // other lines are made where the sieves are others
  // What stands behind each line, by the curve that belongs to what is typed.
  void show_result(const results::SizeResult& result, const std::vector<SieveRow>& so_far);
  // The analysis with what is being typed in place of what is written.
  sieves::Analysis as_typed(const sieves::Analysis& written) const;
  void enter();  // the first line that is not weighed
  int count() const { return int(lines_.size()); }

 signals:
  void typing();

 private:
  struct Line {
    SieveCutId cut;
    std::optional<Opening> opening;
    FigureEntry* mass;
    QLabel* behind;
    std::optional<readings::Reading> typed;
  };
  void rebuild(const sieves::Analysis& analysis);
  void add_line(const sieves::Cut& cut, int row);

  Session& session_;
  SieveAnalysisId analysis_;
  QWidget* sheet_ = nullptr;
  QGridLayout* grid_ = nullptr;
  std::vector<Line> lines_;
};

}  // namespace prillbook::ui
