// SPDX-License-Identifier: GPL-3.0-or-later
// The one test that would tell most about pan against fire now, and what it costs of the rock.
#pragma once

#include <optional>
#include <string>

#include "core/summary/summary.h"

namespace prillbook::summary {

struct NextTest {
  std::string words;          // "Assay the concentrate remainder and the tail: that tells locked gold from lost gold."
  std::optional<Mass> costs;  // rock that it takes; absent: none
  std::optional<Mass> left;   // of the sample, not cut yet; absent where it was not weighed
  bool enough() const { return !costs || !left || *costs <= *left; }
};

// nullopt without a comparison. Common practice, no source: what is known to be missing first, then the largest part of the
// doubt of the gap; four times the charges halve a doubt by luck.
std::optional<NextTest> next_test(const SummarySample& sample);
// "It takes 1 kg of the 2.41 kg that are left."; empty where it takes none.
std::string cost_words(const NextTest& test, DecimalMark mark);

}  // namespace prillbook::summary
