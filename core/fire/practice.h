// SPDX-License-Identifier: GPL-3.0-or-later
// Arithmetic at the furnace besides the design of a charge. Formulas and sources: docs/methods-furnace.md.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "core/base/result.h"
#include "core/fire/charge.h"

namespace prillbook {

// A recipe for `recipe_ore` made for `ore`. Domain: both > 0. Errors: out_of_range (recipe.ore, portion.mass).
Result<Mixture> scaled_mixture(const Mixture& recipe, Mass recipe_ore, Mass ore);

struct ReagentDifference {
  std::string_view reagent;  // "litharge"
  Mass wanted, weighed;
};
// Reagents named on both sides, or wanted and weighed as nothing, that differ by more than `allowance_pct` of what was wanted.
std::vector<ReagentDifference> mixture_differences(const Mixture& wanted, const Mixture& weighed, double allowance_pct = 10);

// What the charge fills, loose, in ml: bulk densities of powders, common practice, no source. A pot should not be
// filled above two thirds (common practice, no source): the charge froths before it sinks.
double loose_millilitres(Mass ore, const Mixture& mixture);
inline constexpr double pot_fill_limit = 2.0 / 3;

// Silver that so much litharge or lead brings. Content in mass of silver to mass of lot; 1 mg in 100 g is 10 g/t.
constexpr Mass silver_brought(Grade content, Mass mass) { return mass * (content.in(unit::gram_per_tonne)*1e-6); }
// Litharge and lead usually hold 1.5 to 2.5 mg in 100 g (Beringer, note 12).
inline constexpr Grade usual_lot_silver{25, unit::gram_per_tonne};

// A cupel soaks up about its own weight of lead (Beringer p. 142).
constexpr bool cupel_too_small(Mass lead, Mass cupel) { return lead > cupel; }

// Silver to gold in a bead about to be parted. Domain: gold > 0; absent else.
std::optional<double> parting_ratio(Mass bead, Mass gold, Mass inquart);
// Below this the acid leaves silver behind: a bead that loses less than two thirds of its weight is to be inquarted and
// parted again (Beringer p. 147).
inline constexpr double least_parting_ratio = 2;

struct ReducingTestResult {
  double power;        // g lead per g ore
  bool litharge_gone;  // nearly all the litharge was reduced: the power is only a lower bound
};
// Domain: ore > 0, button >= 0, litharge > 0 where it is given.
// Errors: out_of_range; inconsistent where the button is heavier than the lead of the litharge (field reducing_test.button).
Result<ReducingTestResult> reducing_power_of(Mass ore, Mass button, std::optional<Mass> litharge);

struct ProofMasses {
  std::optional<Mass> gold_in, silver_in, bead, gold_out;
};
// Lost of what was put in, all proofs together; a gain is below 0.
struct ProofLoss {
  std::optional<Share> gold, silver;
  int proofs = 0;  // that were weighed out
};
// Only proofs with their bead weighed count; gold needs the parted gold unless no silver was put in.
ProofLoss loss_of_proofs(const std::vector<ProofMasses>& proofs);

// About the mass of the ore (Beringer p. 90), for gold ores of 50 g no more than 35 g (p. 137: 30 to 40), at least 20 g.
Mass usual_button(Mass ore);

}  // namespace prillbook
