// SPDX-License-Identifier: GPL-3.0-or-later
// The plain sentences of a summary, one question at a time. Empty where there is nothing to say.
#pragma once

#include <string>
#include <vector>

#include "core/summary/summary.h"

namespace prillbook::summary {

using Sentences = std::vector<std::string>;

// What came, how it came, and what is missing of it.
Sentences what_you_sent(const results::SampleRecord& record, double short_mass_limit_pct, const Speech& say);

// Gold and silver of the rock; the first sentence is the answer.
Sentences what_we_found(const SummarySample& sample, const Speech& say);

// What has to be done before pan and fire can be compared; empty where they are.
Sentences what_is_missing(const results::SampleResult& result);

// What the pan caught and what it left.
Sentences what_the_pan_caught(const SummarySample& sample, const Speech& say);

// Whether a finer grind is worth a trial; the first sentence is the answer. Empty without a pan test.
Sentences a_finer_grind(const SummarySample& sample, const Speech& say);

// When it was taken, received and worked on, who had it, and what becomes of the rest.
Sentences custody_dates(const results::SampleRecord& record, const Speech& say);

// What the metal in a tonne is worth at the price entered; empty without one, or without a grade.
Sentences contained_value(const SummarySample& sample, const issue::Price& price, const Speech& say);

// The verdict alone: "The pan left gold behind: fire assay found 28 ± 5 g/t more than the pan caught; sampling not judged."
std::string verdict_sentence(const Comparison& comparison, const Speech& say);
// "75 % (95 % interval 68 to 83 %)", "37 % (at least 30 %; an upper end can not be told)". Domain: it has a recovery.
std::string recovery_words(const Gap& gap, const Speech& say);

// One part of a doubt in words, the largest first.
struct DoubtLine {
  std::string from;    // "the fineness of the bead"
  std::string remedy;  // what would narrow it; may be empty
  double share_pct = 0;
};
std::vector<DoubtLine> doubt_lines(const MeasuredGrade& grade);

// What the doubt comes from and what was not judged.
Sentences how_sure_we_are(const SummarySample& sample, const Speech& say);

// Where the gold is that fire found: in the pan, in what it left, and what is not explained; empty without a comparison.
Sentences where_the_gap_is(const SummarySample& sample, const Speech& say);
// With remainder and tail assayed the gold found again leads: "Of the 44 ± 3 g/t found again …"; empty otherwise.
std::string head_sentence(const Comparison& comparison, const Speech& say);
// Why the beads of pan and fire are of another fineness; empty where they are alike, or one is not known.
std::string silver_sentence(const SummarySample& sample, const Speech& say);
// What the blanks, reference materials and duplicates of its furnace loads said, and what was decided of the loads.
Sentences controls_in_words(const SummarySample& sample, const Speech& say);

// Recovery and verdict in a few words, for a line that stands for a sample.
std::string verdict_in_short(const SummarySample& sample, const Speech& say);

}  // namespace prillbook::summary
