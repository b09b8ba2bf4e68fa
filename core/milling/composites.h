// SPDX-License-Identifier: GPL-3.0-or-later
// Composites: a sample of the lab's own making, put together from portions of others.
#pragma once

#include <vector>

#include "core/milling/steps.h"

namespace prillbook::milling {

struct NewShare {
  SampleId sample;
  PortionId parent;  // none: taken from the sample itself
  readings::Figure mass;
  readings::Figure share;  // of the composite, as wanted; per cent
};

struct NewComposite {
  ConsignmentId consignment;  // where it is filed
  std::string mark;
  std::vector<NewShare> shares;
  std::optional<Instant> done_at;
  PersonId done_by;
};

struct Composite {
  SampleId sample;
  StepId step;
};

struct CompositeShare {
  SampleId sample;  // where it came from
  portions::Portion portion;
  readings::Figure share;
};

// Logs the composite as a sample of its own, cuts what each share brings from its sample, and notes the step.
// Errors: too_small (fewer than two shares), missing_key (a mass), out_of_range (mass of zero), overdrawn
// (arguments: cut in all, what was there, number of the sample).
Result<Composite> make_composite(history::Journal& journal, const NewComposite& composite);
Result<Composite> make_composite(history::ChangeSet& set, const NewComposite& composite);
// One share more. Errors: conflict where the share comes from the composite itself, or from a composite it is part of.
Result<PortionId> add_share(history::Journal& journal, StepId composite, const NewShare& share);

Result<std::vector<CompositeShare>> shares_of(store::Connection& connection, StepId composite);

}  // namespace prillbook::milling
