// SPDX-License-Identifier: GPL-3.0-or-later
// Sieve analyses and pan tests at several grinds in plain sentences: for the station, the sheet and the summary.
#pragma once

#include "core/results/sample_result.h"
#include "core/summary/words.h"

namespace prillbook::summary {

// P80 and P50, or why there is none; what it waits for, or why it is lost. The first sentence is the answer.
Sentences size_words(const results::SizeResult& size, const Speech& say);
// "P80 212 µm, P50 98 µm"; "spoiled"; "waits for the pan".
std::string size_in_short(const results::SizeResult& size, const Speech& say);
// "99.6 g of 100.0 g found again: 0.40 % lost, the limit is 0.30 %." Empty while it waits.
std::string loss_words(const results::SizeResult& size, const Speech& say);
// One sentence a law, with r² and a word on whether it may be trusted.
Sentences law_words(const results::SizeResult& size, const Speech& say);
// Which size holds the gold. Empty where no fraction was assayed.
Sentences metal_words(const results::SizeResult& size, const Speech& say);

// "P80 600 µm: 16.5 ± 0.9 g/t caught, 37 % (95 % interval 30 to 44 %) of the gold that fire assay found."
std::string grind_point_words(const results::GrindPoint& point, const Speech& say);
// "From P80 600 µm to 150 µm the pan caught 4 ± 3 g/t more, which is beyond the uncertainty; sampling not judged."
std::string grind_step_words(const results::GrindStudy& study, const results::GrindStep& step, const Speech& say);
// Steps alone; empty with fewer than two grinds.
Sentences grind_words(const results::GrindStudy& study, const Speech& say);

}  // namespace prillbook::summary
