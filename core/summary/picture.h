// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/summary/summary.h"

namespace prillbook::summary {

// Pan and fire on one scale in g/t, with the sampling error where the verdict allows for it. Silver stands beside where
// it does not squeeze the gold. No rows where there is no grade.
// Silver of both tests, or for the client's page of the one that leads: of fire, where there is one.
enum class SilverRows { of_both, of_the_leading };
IntervalPicture picture_of(const SummarySample& sample, const Speech& say, SilverRows silver);

}  // namespace prillbook::summary
