// SPDX-License-Identifier: GPL-3.0-or-later
// The record of metallics: a portion screened, what stayed on the screen assayed whole, what passed by portions of it.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/base/id.h"
#include "core/history/journal.h"
#include "core/history/record.h"
#include "core/readings/entry.h"

namespace prillbook::gravity {

struct Metallics {
  MetallicsId id;
  PortionId portion;  // screened
  PortionId coarse;   // all of it is assayed: charges of it or of what was cut from it
  PortionId fine;     // charges of portions cut from it
  readings::Figure screen;
  std::optional<Instant> screened_at;
  PersonId screened_by;
  std::optional<std::string> remarks;
};

struct NewMetallics {
  PortionId portion;
  readings::Figure screen;             // opening; may be absent
  readings::Figure coarse, fine;       // masses, both needed
  std::optional<Instant> screened_at;  // absent: now
  PersonId screened_by;
};

// Cuts the coarse and the fine part from the portion, with purpose "fraction", and ties them together.
// Errors: already_exists where the portion was screened for metallics; missing_key without a mass; overdrawn where both
// weigh more than the portion; not_found.
Result<Metallics> start_metallics(history::ChangeSet& set, const NewMetallics& fresh);
Result<Metallics> start_metallics(history::Journal& journal, const NewMetallics& fresh);

Result<Metallics> metallics(store::Connection& connection, MetallicsId id);
Result<std::vector<Metallics>> metallics_of(history::Source source, PortionId portion);

}  // namespace prillbook::gravity
