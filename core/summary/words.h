// SPDX-License-Identifier: GPL-3.0-or-later
// The plain sentences of a summary, one question at a time. Empty where there is nothing to say.
#pragma once

#include <string>
#include <vector>

#include "core/summary/summary.h"

namespace prillbook::summary {

using Sentences = std::vector<std::string>;

// What came, how it came, and what is missing of it.
Sentences what_you_sent(const results::SampleRecord& record, const lab::Settings& settings);

// Gold and silver of the rock; the first sentence is the answer.
Sentences what_we_found(const SummarySample& sample, DecimalMark mark);

// What the pan caught and what it left.
Sentences what_the_pan_caught(const SummarySample& sample, DecimalMark mark);

// What the doubt comes from and what was not judged.
Sentences how_sure_we_are(const SummarySample& sample, DecimalMark mark);

// Recovery and verdict in a few words, for a line that stands for a sample.
std::string verdict_in_short(const SummarySample& sample, DecimalMark mark);

}  // namespace prillbook::summary
