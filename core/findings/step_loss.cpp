// SPDX-License-Identifier: GPL-3.0-or-later
// A step lost or gained more than it should, beyond what the weighing can explain.
#include <fmt/format.h>

#include <cmath>

#include "core/findings/finding.h"
#include "core/findings/wording.h"

namespace prillbook::findings {
namespace {

std::string limit_origin(std::string_view kind) {
  if (kind == "screen") return "ASTM C136, 0.3 % of a sieve analysis";
  return "common practice";
}

}  // namespace

std::optional<Finding> step_loss(const Scene& scene) {
  const milling::Step* worst = nullptr;
  StepBalance balance;
  for (const milling::Step& step : scene.record.steps) {
    const auto one = milling::balance_of(step, scene.record.portions, scene.record.settings);
    if (!one || !one->beyond || (worst && std::abs(one->loss_pct) <= std::abs(balance.loss_pct))) continue;
    worst = &step;
    balance = *one;
  }
  if (!worst) return std::nullopt;
  const bool gain = balance.loss < Mass{};
  const double limit = milling::loss_limit_pct(worst->kind, scene.record.settings);
  Finding finding;
  finding.rule = "step_loss";
  finding.severity = Severity::caution;
  finding.sample = scene.record.sample.id;
  finding.seen =
      fmt::format("{} {} {}: {} in, {} out, {} % of it; the limit is {} %.", step_in_words(*worst), gain ? "gained" : "lost",
                  mass_in_words(gain ? -balance.loss : balance.loss), mass_in_words(balance.in), mass_in_words(balance.out),
                  two_digits(std::abs(balance.loss_pct)), shortest(limit));
  finding.seen[0] = char(finding.seen[0] - 'a' + 'A');
  finding.why = gain ? "Rock of another sample, iron from the plates, moisture or a slip in a mass makes a step heavier."
                     : "Dust that is lost is the finest part, and seldom of the same grade as the rest.";
  finding.to_do = gain ? "Weigh again. Look at what was in the machine before, and at the balance."
                       : "Sweep the machine and its hood, weigh what is found, and weigh the sample again.";
  finding.source = limit_origin(worst->kind);
  finding.evidence = {{"mass in", mass_in_words(balance.in), history::Entity::step, worst->id.value},
                      {"mass out", mass_in_words(balance.out), history::Entity::step, worst->id.value},
                      {"standard uncertainty", mass_in_words(balance.u), history::Entity::step, worst->id.value}};
  return finding;
}

}  // namespace prillbook::findings
