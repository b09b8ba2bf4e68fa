// SPDX-License-Identifier: GPL-3.0-or-later
// The client expected figures that are not there. Speaks of now, so it is looked at anew each time.
#include <fmt/format.h>

#include <algorithm>

#include "core/custody/wanted.h"
#include "core/findings/custody_words.h"

namespace prillbook::findings {
namespace {

bool has_done(const std::vector<results::TestResult>& tests) {
  return std::any_of(tests.begin(), tests.end(), [](const auto& test) { return test.state == results::TestState::done; });
}

// Tests asked for whose result is missing; those that leave no result here are not judged.
std::vector<std::string> outstanding(const Scene& scene) {
  const custody::Sample& sample = scene.record.sample;
  std::vector<std::string> missing;
  const bool panned = has_done(scene.result.pan), fired = has_done(scene.result.fire.tests);
  const auto tests = custody::wanted_tests(sample.tests_wanted.value_or(""));
  const auto wants = [&](const char* word) { return tests && std::find(tests->begin(), tests->end(), word) != tests->end(); };
  if (wants("pan") && !panned) missing.emplace_back("pan");
  if (wants("fire") && !fired) missing.emplace_back("fire");
  if ((wants("moisture") || sample.moisture_wanted) && !sample.moisture) missing.emplace_back("moisture");
  if (!sample.tests_wanted && !panned && !fired) missing.emplace_back("any test");
  return missing;
}

}  // namespace

std::optional<Finding> overdue(const Scene& scene, const Instant& now) {
  const custody::Sample& sample = scene.record.sample;
  if (!sample.due || sample.due->utc_ms >= now.utc_ms || sample.disposal || sample.treatment == "refuse") return std::nullopt;
  const std::vector<std::string> missing = outstanding(scene);
  if (missing.empty()) return std::nullopt;
  Noted noted;
  noted.add(fmt::format("Figures were due on {}; no result yet of: {}.", local_date(*sample.due), fmt::join(missing, ", ")),
            {"due", moment_in_words(*sample.due), history::Entity::sample, sample.id.value});
  return noted.finding("overdue", Severity::note, scene, "The client waits for it.",
                       "Take it in hand next, or agree on another day with the client and write that day down.",
                       "common practice");
}

}  // namespace prillbook::findings
