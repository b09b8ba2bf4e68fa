// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/results/sampling.h"

#include <algorithm>

namespace prillbook::results {
namespace {

// What was on the table when the portion was cut: the parent, less what earlier steps lost and earlier cuts took.
std::optional<Mass> lot_of(const SampleRecord& record, const portions::Portion& portion) {
  if (portion.step) {
    for (const milling::Step& step : record.steps)
      if (step.id == portion.step && step.mass_in) return step.mass_in->mass();
  }
  const portions::Portion* parent = record.portion(portion.parent);
  const readings::Figure& had = portion.parent ? (parent ? parent->mass : portion.mass) : record.sample.mass_received;
  if (!had) return std::nullopt;
  return had->mass();
}

}  // namespace

std::optional<Opening> largest_colour(const SampleRecord& record) {
  std::optional<Opening> largest;
  for (const PanEntry& entry : record.pan_tests) {
    if (entry.test.spoiled || !entry.test.largest_colour || entry.test.largest_colour->value <= 0) continue;
    const Opening one = entry.test.largest_colour->opening();
    if (!largest || one > *largest) largest = one;
  }
  return largest;
}

std::optional<GyInput> sampling_input(const SampleRecord& record, const SampleResult& result, const portions::Portion& portion) {
  const auto top_size = record.top_size_of(portion);
  if (!top_size || !portion.mass || portion.mass->value <= 0) return std::nullopt;
  GyInput input;
  input.top_size = *top_size;
  input.liberation = largest_colour(record).value_or(Opening(record.settings.liberation_um, unit::micrometre));
  input.grade = likely_grade(record, result).grade;
  if (!(input.grade > Grade{})) return std::nullopt;
  input.mass = portion.mass->mass();
  input.exponent = record.settings.sampling_exponent;
  input.lot = lot_of(record, portion);
  if (input.lot && *input.lot < input.mass) input.lot = input.mass;
  return input;
}

std::optional<Opening> top_size_now(const SampleRecord& record, PortionId holder) {
  const milling::Step* step =
      record.last_step_before(holder, Instant{INT64_MAX, 0}, [](const milling::Step& one) { return one.top_size.has_value(); });
  if (!step) return std::nullopt;
  return step->top_size->opening();
}

std::vector<SplitStage> stages_to(const SampleRecord& record, const portions::Portion& portion) {
  std::vector<SplitStage> stages;
  const portions::Portion* at = &portion;
  for (std::size_t depth = 0; at && depth <= record.portions.size(); ++depth) {
    const auto top_size = record.top_size_of(*at);
    const auto lot = lot_of(record, *at);
    if (top_size && lot && at->mass && at->mass->value > 0) {
      SplitStage stage{*top_size, std::max(*lot, at->mass->mass()), at->mass->mass(), {}};
      for (const milling::Step& step : record.steps)
        if (step.id == at->step && step.method) stage.method = find_split_method(*step.method);
      stages.push_back(stage);
    }
    at = at->parent ? record.portion(at->parent) : nullptr;
  }
  std::reverse(stages.begin(), stages.end());
  return stages;
}

}  // namespace prillbook::results
