// SPDX-License-Identifier: GPL-3.0-or-later
// The pannings of one pan test, in order: the first pan, re-pans of the tail, clean-ups of the concentrate.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/base/id.h"
#include "core/history/journal.h"
#include "core/history/record.h"
#include "core/readings/entry.h"

namespace prillbook::gravity {

struct Panning {
  PanningId id;
  PanTestId test;
  std::int64_t number = 0;
  std::string kind;  // first, repan, clean_up
  std::optional<Instant> panned_at;
  PersonId panned_by;
  readings::Figure concentrate;
  std::optional<std::string> remarks;
};

struct NewPanning {
  PanTestId test;
  std::string kind;
  std::optional<Instant> panned_at;  // absent: now
  PersonId panned_by;
  readings::Figure concentrate = {};
};

// Numbers it within its test. Errors: already_exists (a second first pan), conflict (the test is spoiled), out_of_range
// (kind), inconsistent where the concentrate weighs more than the portion panned.
Result<PanningId> add_panning(history::ChangeSet& set, const NewPanning& panning);
Result<PanningId> add_panning(history::Journal& journal, const NewPanning& panning);
// Weighs what a panning kept. Errors: inconsistent as above.
Result<void> set_concentrate(history::Journal& journal, PanningId id, const readings::Figure& mass,
                             const std::optional<std::string>& why = std::nullopt);
// By their number; struck out ones are left out.
Result<std::vector<Panning>> pannings_of(history::Source source, PanTestId test);

}  // namespace prillbook::gravity
