// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/fire/practice.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace prillbook {
namespace {

struct Powder {
  std::string_view name;
  std::optional<Mass> Mixture::*mass;
  double g_per_ml;  // loose; common practice, no source
};
constexpr Powder powders[] = {
    {"litharge", &Mixture::litharge, 3.5}, {"soda ash", &Mixture::soda_ash, 1.0}, {"borax glass", &Mixture::borax, 1.2},
    {"silica", &Mixture::silica, 1.4},     {"flour", &Mixture::flour, 0.6},       {"nitre", &Mixture::nitre, 1.1},
    {"mixed flux", &Mixture::flux, 1.6},
};
constexpr double ore_g_per_ml = 1.5;
constexpr double nearly_all = 0.95;

}  // namespace

Result<Mixture> scaled_mixture(const Mixture& recipe, Mass recipe_ore, Mass ore) {
  const auto above_zero = [](Mass mass) { return std::isfinite(mass.in(unit::gram)) && mass > Mass(); };
  if (!above_zero(recipe_ore)) return refusal(ErrorCode::out_of_range, "recipe.ore", "a recipe is for so much ore");
  if (!above_zero(ore)) return refusal(ErrorCode::out_of_range, "portion.mass", "the ore is above 0");
  Mixture made;
  for (const Powder& powder : powders)
    if (const auto mass = recipe.*powder.mass) made.*powder.mass = *mass * (ore / recipe_ore);
  return made;
}

std::vector<ReagentDifference> mixture_differences(const Mixture& wanted, const Mixture& weighed, double allowance_pct) {
  std::vector<ReagentDifference> list;
  for (const Powder& powder : powders) {
    const auto& want = wanted.*powder.mass;
    const auto& got = weighed.*powder.mass;
    if (!want || !got) continue;
    const double apart = std::abs((*got - *want).in(unit::gram));
    if (apart > want->in(unit::gram)*allowance_pct / 100 + 1e-9) list.push_back({powder.name, *want, *got});
  }
  return list;
}

double loose_millilitres(Mass ore, const Mixture& mixture) {
  double sum = ore.in(unit::gram) / ore_g_per_ml;
  for (const Powder& powder : powders)
    if (const auto& mass = mixture.*powder.mass) sum += mass->in(unit::gram) / powder.g_per_ml;
  return sum;
}

std::optional<double> parting_ratio(Mass bead, Mass gold, Mass inquart) {
  if (!(gold > Mass())) return std::nullopt;
  return std::max(0.0, (bead - gold + inquart) / gold);
}

Result<ReducingTestResult> reducing_power_of(Mass ore, Mass button, std::optional<Mass> litharge) {
  const auto refused = [](const char* field, const char* words) { return refusal(ErrorCode::out_of_range, field, words); };
  if (!(ore > Mass()) || !std::isfinite(ore.in(unit::gram))) return refused("reducing_test.ore", "the ore is above 0");
  if (!(button >= Mass()) || !std::isfinite(button.in(unit::gram)))
    return refused("reducing_test.button", "a button is not below 0");
  if (litharge && !(*litharge > Mass())) return refused("reducing_test.litharge", "the litharge is above 0");
  ReducingTestResult result{button / ore, false};
  if (!litharge) return result;
  const Mass lead = *litharge * lead_per_litharge;
  if (button > lead * 1.02)  // own lead of the ore aside
    return Error{ErrorCode::inconsistent,
                 "reducing_test.button",
                 "the litharge holds less lead than the button",
                 {fmt::format("{:.1f} g", button.in(unit::gram)), fmt::format("{:.1f} g", lead.in(unit::gram))}};
  result.litharge_gone = button > lead * nearly_all;
  return result;
}

ProofLoss loss_of_proofs(const std::vector<ProofMasses>& proofs) {
  ProofLoss loss;
  Mass gold_in, gold_out, silver_in, silver_out;
  for (const ProofMasses& proof : proofs) {
    if (!proof.bead) continue;
    ++loss.proofs;
    const Mass silver = proof.silver_in.value_or(Mass());
    const auto gold = proof.gold_out ? proof.gold_out : silver > Mass() ? std::optional<Mass>() : proof.bead;
    if (proof.gold_in && *proof.gold_in > Mass()) {
      if (!gold) continue;
      gold_in += *proof.gold_in;
      gold_out += *gold;
    }
    if (silver > Mass()) {
      silver_in += silver;
      silver_out += *proof.bead - gold.value_or(Mass());
    }
  }
  const auto lost = [](Mass in, Mass out) { return Share(100 * (in - out) / in, unit::percent); };
  if (gold_in > Mass()) loss.gold = lost(gold_in, gold_out);
  if (silver_in > Mass()) loss.silver = lost(silver_in, silver_out);
  return loss;
}

Mass usual_button(Mass ore) { return std::clamp(ore, Mass(20, unit::gram), Mass(35, unit::gram)); }

}  // namespace prillbook
