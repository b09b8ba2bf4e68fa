// SPDX-License-Identifier: GPL-3.0-or-later
// Labels on their sheet: a code at the left of each, its words at the right. Nothing leaves its label.
#pragma once

#include <QtCore/QRectF>
#include <vector>

#include "core/labels/label.h"
#include "core/labels/layout.h"
#include "ui/paper/pages.h"

namespace prillbook::paper {

// One line of words as it is painted. Tenths of a point.
struct LabelLine {
  QString text;
  QFont font;
  QRectF area;  // the text stands in it whole
  bool warns = false;
};

// How the words and the code of a label lie in `area`: the number is made smaller rather than cut, all else is cut with
// an ellipsis; where there is no height for a line it is left out, the least needed first. A hazard is never left out.
struct LabelPlan {
  QRectF code;  // square, with its margin; null where the label has no code
  std::vector<LabelLine> lines;
};
LabelPlan plan_label(const labels::Label& label, const QRectF& area);

// Errors: missing_key for no labels, out_of_range for the start or a code that can not be painted.
Result<Pages> label_pages(const std::vector<labels::Label>& all, const labels::Layout& layout, int start);

}  // namespace prillbook::paper
