// SPDX-License-Identifier: GPL-3.0-or-later
// How much of a weighed portion is dry rock.
#pragma once

#include "core/results/sample_record.h"

namespace prillbook::results {

// 1 less the moisture of the sample, wet basis; 1 where none is known, or the rock was dried before the portion was cut.
double dry_share(const SampleRecord& record, const portions::Portion& portion);

}  // namespace prillbook::results
