// SPDX-License-Identifier: GPL-3.0-or-later
// Which samples a change reaches: whose findings have to be looked for again.
#pragma once

#include <set>
#include <span>

#include "core/history/journal.h"
#include "core/results/machine_books.h"

namespace prillbook::findings {

struct Reach {
  bool all = false;  // what every sample shares: a setting, a balance, a check, a lot, a sieve
  std::set<SampleId> samples;
};

// The samples that the changed records belong to, and those beside them that a rule looks at from there: marks of one
// consignment, the next rock through a machine, the next charge in a pot.
// `books` forget what is no longer so. Errors: damaged.
Result<Reach> reach_of(store::Connection& connection, results::MachineBooks& books, std::span<const history::Change> changes);

}  // namespace prillbook::findings
