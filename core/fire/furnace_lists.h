// SPDX-License-Identifier: GPL-3.0-or-later
// What waits at the furnace, and what went through it.
#pragma once

#include <string>
#include <vector>

#include "core/base/id.h"
#include "core/store/connection.h"

namespace prillbook::fire {

struct FurnaceLine {
  PortionId portion;
  ChargeId charge;           // none: still to be made up
  std::string number, mark;  // "26-0003/2"
  std::string when;          // ISO, of the cut or of the fusion; may be empty
  bool complete = false;
};

// Charges whose bead is not weighed, then portions cut for "fire" that are in no crucible yet.
Result<std::vector<FurnaceLine>> waiting_at_the_furnace(store::Connection& connection, std::int64_t limit,
                                                        std::int64_t offset = 0);
// Portions to be made up, charges whose bead is not weighed, and runs that are not drawn.
Result<std::int64_t> count_waiting_at_the_furnace(store::Connection& connection);
// Spoiled, or with a bead that was weighed or looked for in vain; newest first.
Result<std::vector<FurnaceLine>> charges_made(store::Connection& connection, std::int64_t limit, std::int64_t offset = 0);
// The oldest spoiled charge of the sample that no other repeats; none where there is none.
Result<ChargeId> spoiled_without_repeat(store::Connection& connection, SampleId sample);

}  // namespace prillbook::fire
