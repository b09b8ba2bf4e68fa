// SPDX-License-Identifier: GPL-3.0-or-later
// The tree of weighed parts under a sample, and what is left of each.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/base/id.h"
#include "core/history/journal.h"
#include "core/history/record.h"
#include "core/readings/entry.h"
#include "core/units/quantity.h"

namespace prillbook::portions {

struct Portion {
  PortionId id;
  SampleId sample;
  PortionId parent;  // none: cut from the sample itself
  std::int64_t number = 0;
  std::string purpose;
  readings::Figure mass;
  std::optional<Instant> cut_at;
  PersonId cut_by;
  std::optional<std::string> remarks;
  StepId step;  // the step of preparation that gave it, if any
};

struct NewPortion {
  SampleId sample;
  PortionId parent;
  std::string purpose;
  readings::Figure mass;
  std::optional<Instant> cut_at;  // absent: now
  PersonId cut_by;
  std::optional<std::string> remarks;
  StepId step = {};
};

// What a step of preparation took away from what it worked on: dust, moisture; below 0 where it came out heavier.
struct Loss {
  PortionId parent;  // none: the sample itself
  Mass mass;
};

// Numbers the portion under its sample. Errors: overdrawn where it is heavier than what is left of its parent;
// inconsistent where the parent belongs to another sample; out_of_range (purpose, mass 0); missing_key.
Result<PortionId> cut(history::Journal& journal, const NewPortion& portion);
// The same inside a gesture that does more.
Result<PortionId> cut(history::ChangeSet& set, const NewPortion& portion);

// Corrects the mass of a portion. Errors: overdrawn where its parent could not give it, or what was cut from it is more.
Result<void> set_mass(history::Journal& journal, PortionId id, const readings::Figure& mass,
                      const std::optional<std::string>& why);

// Corrects the received mass of a sample under the same rule.
Result<void> set_received_mass(history::Journal& journal, SampleId id, const readings::Figure& mass,
                               const std::optional<std::string>& why);

Result<Portion> portion(store::Connection& connection, PortionId id);
Result<std::vector<Portion>> portions_of(history::Source source, SampleId sample);

// What the steps noted for a sample lost, each by its masses in and out; a split weighed whole by what its parts lack.
Result<std::vector<Loss>> losses_of(history::Source source, SampleId sample);

// Mass of the parent less the masses cut from it and what its steps lost, at least 0; absent where the parent was not weighed.
// Portions not weighed count as nothing. `parent` none: what is left of the sample.
std::optional<Mass> left_of(const std::vector<Portion>& portions, const readings::Figure& sample_mass, PortionId parent,
                            const std::vector<Loss>& losses = {});

// A mass as the lab says it: kg from 1 kg up, g below; sums of decimal figures come without the dust of binary arithmetic.
struct MassInWords {
  std::string number;  // with a point, to a millionth of the unit at most
  std::string_view unit;
};
MassInWords in_words(Mass mass);

// What a tree may give beyond what the parent had, in per cent of it.
struct Allowance {
  double pan_product_pct = 0;  // remainder and tail: iron, moisture
  double step_pct = 0;         // where a step was weighed in and out: scatter of weighings
};

// No parent has given more than it had less what its steps lost, but for the lab's allowance. Errors: overdrawn, with what was
// asked for and what there was.
Result<void> check_tree(const std::vector<Portion>& portions, const readings::Figure& sample_mass, const Allowance& allowance,
                        const std::vector<Loss>& losses = {});
// The same on what the notebook holds.
Result<void> check_tree(store::Connection& connection, SampleId sample);

}  // namespace prillbook::portions
