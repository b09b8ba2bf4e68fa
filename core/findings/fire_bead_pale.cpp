// SPDX-License-Identifier: GPL-3.0-or-later
// The fire bead holds less than half the gold, for its weight, that the pan bead holds.
#include <fmt/format.h>

#include <algorithm>

#include "core/findings/furnace_evidence.h"

namespace prillbook::findings {
namespace {

constexpr double half_as_fine = 0.5;  // common practice, no source

std::optional<double> permil_of(const results::TestResult& test) {
  if (!test.grade || !test.grade->gold || !test.grade->fineness_known) return std::nullopt;
  const double bead = test.grade->bead.g_t();
  if (!(bead > 0)) return std::nullopt;
  return 1000 * test.grade->gold->g_t() / bead;
}

}  // namespace

std::optional<Finding> fire_bead_pale(const Scene& scene) {
  if (!scene.result.leading_pan) return std::nullopt;
  const auto pan = permil_of(scene.result.pan[*scene.result.leading_pan]);
  if (!pan) return std::nullopt;
  for (const results::TestResult& test : scene.result.fire.tests) {
    if (test.state != results::TestState::done) continue;
    const auto fire = permil_of(test);
    const auto entry = std::find_if(scene.record.charges.begin(), scene.record.charges.end(),
                                    [&](const results::FireEntry& one) { return one.charge.id == test.charge; });
    if (!fire || entry == scene.record.charges.end() || entry->charge.collector || *fire >= half_as_fine * *pan) continue;
    const DecimalMark mark = scene.record.settings.decimal_mark;
    Finding finding = about_furnace(scene, "fire_bead_pale", Severity::note);
    finding.seen = fmt::format("The metal of {} is {} ‰ fine, that of the pan {} ‰.", test.label, fixed(*fire, 0, mark),
                               fixed(*pan, 0, mark));
    finding.why =
        "Silver minerals that the pan leaves make the fire bead paler; so does collector silver that was not written down, or "
        "a litharge rich in silver.";
    finding.to_do = "Look whether silver was put into the crucible, and at the blank of its lots.";
    finding.source = "common practice, no source; half as fine";
    finding.evidence = {of_charge(*entry, "fire bead", fixed(*fire, 0, mark) + " ‰"),
                        {"pan bead", fixed(*pan, 0, mark) + " ‰", history::Entity::pan_test,
                         scene.result.pan[*scene.result.leading_pan].pan_test.value}};
    return finding;
  }
  return std::nullopt;
}

}  // namespace prillbook::findings
