// SPDX-License-Identifier: GPL-3.0-or-later
// Rock that was wet by what is written of it, with neither its moisture nor a drying.
#include <fmt/format.h>

#include <algorithm>

#include "core/findings/finding.h"
#include "core/findings/mass_before.h"
#include "core/findings/wording.h"
#include "core/units/units.h"

namespace prillbook::findings {
namespace {

constexpr double most_water_pct = 10;  // more was kept back, not dried off

bool is_told(const results::SampleRecord& record) {
  const bool dried = std::any_of(record.steps.begin(), record.steps.end(), [](const auto& step) { return step.kind == "dry"; });
  return record.sample.moisture || dried;
}

Finding about_moisture(const Scene& scene, Severity severity) {
  Finding finding;
  finding.rule = "moisture_not_written";
  finding.severity = severity;
  finding.sample = scene.record.sample.id;
  finding.why =
      "Without its moisture wet rock counts as dry: the bag weighs too much, and the grade of what is cut wet is too low.";
  finding.source = "common practice, no source";
  return finding;
}

std::optional<Finding> came_wet(const Scene& scene) {
  const results::SampleRecord& record = scene.record;
  if (record.sample.condition != "wet" || (record.pan_tests.empty() && record.charges.empty())) return std::nullopt;
  Finding finding = about_moisture(scene, Severity::caution);
  finding.seen = "It came wet and was tested; neither its moisture nor a drying is written.";
  finding.to_do = "Write the moisture, or the drying with the mass before and after.";
  finding.evidence = {{"condition", "wet", history::Entity::sample, record.sample.id.value}};
  return finding;
}

const milling::Step* first_of_bag(const results::SampleRecord& record) {
  const auto first =
      std::find_if(record.steps.begin(), record.steps.end(), [](const milling::Step& step) { return !step.portion; });
  return first == record.steps.end() ? nullptr : &*first;
}

std::optional<Finding> grew_lighter(const Scene& scene) {
  const results::SampleRecord& record = scene.record;
  const milling::Step* step = first_of_bag(record);
  if (!step || !step->mass_in || step->closed) return std::nullopt;
  const auto before = mass_before(record, *step);
  if (!before || !(before->mass > Mass())) return std::nullopt;
  const Mass lost = before->mass - step->mass_in->mass();
  const double pct = 100 * (lost / before->mass);
  const bool explained = lost <= before->u_against(*step->mass_in) * 2;
  if (explained || pct <= record.settings.moisture_apart_pct || pct > most_water_pct) return std::nullopt;
  Finding finding = about_moisture(scene, Severity::note);
  finding.seen =
      fmt::format("{} should have gone into the {}, and {} did: {} % less, with no drying written.", mass_in_words(before->mass),
                  step_in_words(*step), mass_in_words(step->mass_in->mass()), two_digits(pct));
  finding.to_do = "If it dried, write the drying with both masses. If rock was kept back or spilt, write that down.";
  finding.evidence = {{"mass before", mass_in_words(before->mass), history::Entity::sample, record.sample.id.value},
                      {"mass in", typed_with_unit(*step->mass_in), history::Entity::step, step->id.value}};
  return finding;
}

}  // namespace

std::optional<Finding> moisture_not_written(const Scene& scene) {
  if (is_told(scene.record)) return std::nullopt;
  auto finding = came_wet(scene);
  return finding ? std::move(finding) : grew_lighter(scene);
}

}  // namespace prillbook::findings
