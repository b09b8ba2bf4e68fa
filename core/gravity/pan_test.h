// SPDX-License-Identifier: GPL-3.0-or-later
// The record of a pan test: a portion panned to free gold, a concentrate remainder and a tail.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/base/id.h"
#include "core/history/journal.h"
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
  std::optional<std::string> spoiled, excluded;  // the reason, where it is
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

// Starts a pan test on a portion, with the bead it will give. Errors: already_exists where the portion is panned already.
Result<StartedPanTest> start_pan_test(history::Journal& journal, const NewPanTest& test);
Result<StartedPanTest> start_pan_test(history::ChangeSet& set, const NewPanTest& test);

// Weighs what is left beside the free gold: purpose "remainder" or "tail", as a portion cut from the portion panned; a
// second weighing corrects the first. Errors: overdrawn where they weigh more than the portion by more than the lab's limit.
Result<PortionId> weigh_product(history::Journal& journal, PanTestId id, const std::string& purpose,
                                const readings::Reading& mass, PersonId by, const std::optional<std::string>& why = std::nullopt);

// A spoiled test is neither zero nor absent: it keeps its reason. Empty text: it is not spoiled after all.
Result<void> set_spoiled(history::Journal& journal, PanTestId id, const std::string& reason);

Result<PanTest> pan_test(store::Connection& connection, PanTestId id);
Result<std::vector<PanTest>> pan_tests_of(store::Connection& connection, PortionId portion);

}  // namespace prillbook::gravity
