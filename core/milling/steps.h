// SPDX-License-Identifier: GPL-3.0-or-later
// The steps of a sample's way through the preparation room, each with what went in and what came out.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/base/id.h"
#include "core/history/journal.h"
#include "core/history/record.h"
#include "core/lab/settings.h"
#include "core/portions/portions.h"
#include "core/preparation/step_balance.h"
#include "core/readings/entry.h"

namespace prillbook::milling {

struct Step {
  StepId id;
  SampleId sample;
  PortionId portion;  // none: the sample itself
  std::string kind;
  std::optional<std::string> method, remarks;
  MachineId machine;
  readings::Figure mass_in, mass_out, top_size;
  bool closed = false;
  std::optional<Instant> began_at;
  Instant done_at;
  PersonId done_by;
};

// A part that a split or a screen gave.
struct NewPart {
  std::string purpose;
  readings::Figure mass;
  std::optional<std::string> remarks;
};

struct NewStep {
  SampleId sample;
  PortionId portion;
  std::string kind;
  std::optional<std::string> method, remarks;
  MachineId machine;
  readings::Figure mass_in, mass_out, top_size;
  bool closed = false;
  std::optional<Instant> began_at, done_at;  // done absent: now
  PersonId done_by;
  std::vector<NewPart> parts;  // of a split or screen
};

struct DoneStep {
  StepId step;
  std::vector<PortionId> parts;
};

// Errors: conflict (machine retired by then, cleaned meanwhile, in other use at that time), inconsistent (another
// sample's portion, done before it was begun, before the portion was cut or the sample came in, a method without a split,
// parts of what is no split or screen), out_of_range (masses of zero), overdrawn (parts heavier than what is left).
Result<DoneStep> do_step(history::Journal& journal, const NewStep& step);
Result<DoneStep> do_step(history::ChangeSet& set, const NewStep& step);

Result<Step> step(store::Connection& connection, StepId id);
// In the order in which they were done.
Result<std::vector<Step>> steps_of(history::Source source, SampleId sample);
Result<std::vector<Step>> steps_on(store::Connection& connection, MachineId machine);

bool gives_parts(std::string_view kind);  // "split", "screen"

// Smallest change of a mass: the step of its balance, or the last digit as it was typed.
Mass smallest_change(const readings::Reading& mass);
// nullopt while a mass is missing, where a split was not weighed whole, and for drying, whose loss is the moisture.
std::optional<StepBalance> balance_of(const Step& step, const std::vector<portions::Portion>& portions,
                                      const lab::Settings& settings);
double loss_limit_pct(std::string_view kind, const lab::Settings& settings);
// What drying drove off, of the mass before; wet basis.
std::optional<Share> moisture_of(const Step& step);

}  // namespace prillbook::milling
