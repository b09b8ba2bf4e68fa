// SPDX-License-Identifier: GPL-3.0-or-later
// How it was done, and what a summary may not be taken for.
#pragma once

#include "core/summary/words.h"

namespace prillbook::summary {

// A sentence for each method that one of these samples saw.
Sentences methods_in_words(std::span<const SummarySample> samples, const Speech& say);
// How the fineness of each kind of bead was got. Half widths: core/assay/fineness.h.
Sentences fineness_in_words(std::span<const SummarySample> samples, const Speech& say);
Sentences cautions_in_words(std::span<const SummarySample> samples, const Speech& say);

}  // namespace prillbook::summary
