// SPDX-License-Identifier: GPL-3.0-or-later
// The record of a pan test: a portion panned to free gold, a concentrate remainder and a tail.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/base/id.h"
#include "core/controls/roles.h"
#include "core/history/journal.h"
#include "core/history/record.h"
#include "core/portions/portions.h"
#include "core/readings/entry.h"

namespace prillbook::gravity {

struct PanTest {
  PanTestId id;
  PortionId portion;
  std::optional<Instant> panned_at;
  PersonId panned_by;
  readings::Figure grind, largest_colour, free_gold;
  std::optional<std::string> colours, black_sand, sulphides, remarks;
  std::optional<std::string> spoiled, excluded;                              // the reason, where it is
  std::optional<std::int64_t> colours_coarse, colours_middle, colours_fine;  // above 1 mm, from 0.25 mm, below
  readings::Figure magnetite;
  std::optional<std::string> bead_by;  // cupelled, amalgamated
  std::optional<std::string> mercury;  // how it was driven off and caught
  SieveAnalysisId grind_from;          // whose P80 the grind is; none: typed
  controls::Role role = controls::Role::ordinary;
  PanTestId duplicate_of;
};

struct NewPanTest {
  PortionId portion;
  std::optional<Instant> panned_at;  // absent: now
  PersonId panned_by;
  readings::Figure grind;
};

struct StartedPanTest {
  PanTestId test;
  BeadId bead;  // waits for the balance
};

// Starts a pan test on a portion, with the bead it will give; cut from the stock of a control material it has its role. Errors:
// already_exists where the portion is panned already.
Result<StartedPanTest> start_pan_test(history::Journal& journal, const NewPanTest& test);
Result<StartedPanTest> start_pan_test(history::ChangeSet& set, const NewPanTest& test);

// Weighs what is left beside the free gold: purpose "remainder" or "tail", as a portion cut from the portion panned; a
// second weighing corrects the first. Errors: overdrawn where they weigh more than the portion by more than the lab's limit.
Result<PortionId> weigh_product(history::Journal& journal, PanTestId id, const std::string& purpose,
                                const readings::Reading& mass, PersonId by, const std::optional<std::string>& why = std::nullopt);

// Writes the grind together with the sieve analysis it was copied from; a grind that was typed has none.
Result<void> set_grind(history::Journal& journal, PanTestId id, const readings::Figure& grind, SieveAnalysisId from = {},
                       const std::optional<std::string>& why = std::nullopt);

// A spoiled test is neither zero nor absent: it keeps its reason. Empty text: it is not spoiled after all.
Result<void> set_spoiled(history::Journal& journal, PanTestId id, const std::string& reason);

Result<PanTest> pan_test(store::Connection& connection, PanTestId id);
Result<std::vector<PanTest>> pan_tests_of(history::Source source, PortionId portion);

// A line of the list at the pan.
struct PanLine {
  PortionId portion;
  PanTestId test;            // none: it waits
  std::string number, mark;  // "26-0003/2", the client's mark
  std::string when;          // ISO, of the cut or the panning
};
// Portions cut for the pan and not panned, oldest first.
Result<std::vector<PanLine>> waiting_to_pan(store::Connection& connection, std::int64_t limit, std::int64_t offset = 0);
Result<std::int64_t> count_waiting_to_pan(store::Connection& connection);
// Newest first, spoiled ones too.
Result<std::vector<PanLine>> pan_tests_made(store::Connection& connection, std::int64_t limit, std::int64_t offset = 0);

}  // namespace prillbook::gravity
