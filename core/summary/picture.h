// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/summary/summary.h"

namespace prillbook::summary {

// Pan and fire on one scale in g/t, with the sampling error where the verdict allows for it. Silver stands beside where
// it does not squeeze the gold. No rows where there is no grade.
IntervalPicture picture_of(const SummarySample& sample, DecimalMark mark);

}  // namespace prillbook::summary
