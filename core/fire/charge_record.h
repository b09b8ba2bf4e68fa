// SPDX-License-Identifier: GPL-3.0-or-later
// The record of a crucible assay: a portion in one crucible, to its bead.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/base/id.h"
#include "core/history/journal.h"
#include "core/readings/entry.h"

namespace prillbook::fire {

struct Charge {
  ChargeId id;
  PortionId portion;
  std::optional<Instant> fired_at;
  PersonId fired_by;
  ChargeId repeat_of;
  readings::Figure collector, blank, button, slag_metal, cupel_metal, gold_loss, silver_loss;
  std::optional<std::string> slag_look, remarks;
  std::optional<std::string> spoiled, excluded;  // the reason, where it is
};

struct NewCharge {
  PortionId portion;
  std::optional<Instant> fired_at;  // absent: now
  PersonId fired_by;
  ChargeId repeat_of;
  readings::Figure collector, blank;
};

struct StartedCharge {
  ChargeId charge;
  BeadId bead;  // waits for the balance
};

// Puts a portion in a crucible, with the bead it will give. Errors: already_exists where the portion is used up by an
// earlier charge; inconsistent where `repeat_of` is not spoiled.
Result<StartedCharge> start_charge(history::Journal& journal, const NewCharge& charge);
Result<StartedCharge> start_charge(history::ChangeSet& set, const NewCharge& charge);

// A spoiled charge is neither zero nor absent: it keeps its reason. Empty text: it is not spoiled after all.
Result<void> set_spoiled(history::Journal& journal, ChargeId id, const std::string& reason);

Result<Charge> charge(store::Connection& connection, ChargeId id);
Result<std::vector<Charge>> charges_of(store::Connection& connection, PortionId portion);

}  // namespace prillbook::fire
