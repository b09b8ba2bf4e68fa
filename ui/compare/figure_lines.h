// SPDX-License-Identifier: GPL-3.0-or-later
// The figures and tests of a sample as lines of the page; all words and rounding come from the client summary.
#pragma once

#include <QtCore/QString>
#include <vector>

#include "core/summary/summary.h"

class QLayout;

namespace prillbook::ui {

struct FigureLine {
  QString label;   // "Gold by fire"
  QString figure;  // "45 ± 6 g/t"
  QString other;   // "1.31 ± 0.18 troy oz per short ton"; may be empty
};

std::vector<FigureLine> figure_lines(const summary::SummarySample& sample, DecimalMark mark);

struct TestLine {
  QString label;   // "26-0003/2"
  QString kind;    // "charge"
  QString result;  // "gold 45 ± 6 g/t", "spoiled: cupel froze"
};

// Every test, also those that are spoiled, excluded, refused or waiting.
std::vector<TestLine> test_lines(const summary::SummarySample& sample, DecimalMark mark);

// Takes everything out of a layout.
void clear(QLayout* layout);

}  // namespace prillbook::ui
