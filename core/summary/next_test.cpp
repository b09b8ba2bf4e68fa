// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/summary/next_test.h"

#include <fmt/format.h>

#include <algorithm>

#include "core/portions/portions.h"

namespace prillbook::summary {
namespace {

using results::SampleResult;
using results::TestResult;

constexpr double more_charges = 3;  // beside the one there is: half the doubt by luck

// The largest part of the doubt of the gap.
std::optional<UncertaintySource> largest_doubt(const GoldSides& sides) {
  std::vector<Contribution> parts = sides.fire_parts;
  parts.insert(parts.end(), sides.pan_parts.begin(), sides.pan_parts.end());
  const auto budget = budget_of(parts);
  if (budget.empty()) return std::nullopt;
  return budget.front().source;
}

Mass one_charge(const SampleResult& result) {
  const double charges = std::max(1, int(result.fire.gold.valid));
  return result.fire.dry_portions / charges;
}

NextTest narrower(const SampleResult& result) {
  const Mass panned = result.pan[*result.leading_pan].grade->dry_portion, charge = one_charge(result);
  switch (largest_doubt(result.comparison->gold_sides).value_or(UncertaintySource::sampling)) {
    case UncertaintySource::fineness:
      return {"Part the bead whose fineness was read or told: that narrows the gap most, and takes no rock.", {}, {}};
    case UncertaintySource::bead_step:
    case UncertaintySource::bead_repeats:
    case UncertaintySource::parted_gold:
    case UncertaintySource::portion_step:
      return {"Fuse a charge of twice the mass: its bead stands further above the step of the balance.", charge * 2, {}};
    case UncertaintySource::collector:
    case UncertaintySource::collector_loss:
      return {"Fuse a charge without collector silver: what was lost of it then plays no part.", charge, {}};
    case UncertaintySource::slag:
    case UncertaintySource::cupel:
      return {"Fuse another charge and leave slag and cupel alone: their metal is the largest doubt.", charge, {}};
    case UncertaintySource::sampling:
    case UncertaintySource::between_charges: break;
  }
  if (result.fire.gold.valid > more_charges)
    return {"Screen a portion for metallics: more charges alone narrow the luck of the grains slowly.", panned, {}};
  return {"Fuse three more charges: together they halve what the luck of the grains leaves open.", charge * more_charges, {}};
}

NextTest of_comparison(const SampleResult& result) {
  const Comparison& comparison = *result.comparison;
  const Mass panned = result.pan[*result.leading_pan].grade->dry_portion;
  if (comparison.gold.verdict == Verdict::not_determined)
    return {"Name the balances of the weighings: without their step nothing can be said about the gap.", {}, {}};
  if (comparison.gold.verdict == Verdict::gold_left_behind) {
    if (!result.remainder.gold.mean || !result.tail.gold.mean)
      return {"Assay the concentrate remainder and the tail: that tells locked gold from lost gold, and takes no rock.", {}, {}};
    return {"Regrind a portion finer and pan it again: that shows whether grinding frees more.", panned, {}};
  }
  if (comparison.basis == VerdictBasis::weighing)
    return {"Measure the largest colour in the pan: then the luck of the grains can be judged, and it takes no rock.", {}, {}};
  if (comparison.gold.verdict == Verdict::pan_exceeds_fire)
    return {"Screen a portion as large as the one panned for metallics: single charges miss a grain that the pan caught.",
            panned,
            {}};
  return narrower(result);
}

}  // namespace

std::optional<NextTest> next_test(const SummarySample& sample) {
  if (!sample.result.comparison || !sample.result.leading_pan) return std::nullopt;
  NextTest test = of_comparison(sample.result);
  test.left = portions::left_of(sample.record.portions, sample.record.sample.mass_received, PortionId{}, sample.record.losses);
  return test;
}

std::string cost_words(const NextTest& test, DecimalMark mark) {
  if (!test.costs) return "";
  const auto said = [mark](Mass mass) {
    const bool kilograms = mass.in(unit::gram) >= 1000;
    return with_unit(figure(kilograms ? mass.in(unit::kilogram) : mass.in(unit::gram), {}, {}, kilograms ? "kg" : "g", {}, mark));
  };
  const std::string costs = said(*test.costs);
  if (!test.left) return fmt::format("It takes {} of rock.", costs);
  if (!test.enough())
    return fmt::format("It takes {}; only {} of the rock are left uncut.", costs, said(std::max(Mass(), *test.left)));
  return fmt::format("It takes {} of the {} of rock that are left uncut.", costs, said(*test.left));
}

}  // namespace prillbook::summary
