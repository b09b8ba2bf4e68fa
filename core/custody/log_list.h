// SPDX-License-Identifier: GPL-3.0-or-later
// Many samples at once: a client's list.
#pragma once

#include <span>
#include <vector>

#include "core/custody/custody.h"

namespace prillbook::custody {

// Logs them one after another with running lab numbers, as log_sample would; settings and the last number are looked up
// once. `consignment` of the samples themselves is not looked at. Errors as log_sample.
Result<std::vector<SampleId>> log_samples(history::ChangeSet& set, ConsignmentId consignment, std::span<const NewSample> samples);

}  // namespace prillbook::custody
