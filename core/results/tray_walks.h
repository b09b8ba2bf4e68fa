// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/results/sample_record.h"

namespace prillbook::results {

// Fills bead_places and tray_walks from the trays that beads of the record's tests stand or stood on.
Result<void> load_tray_walks(store::Connection& connection, SampleRecord& record);

}  // namespace prillbook::results
