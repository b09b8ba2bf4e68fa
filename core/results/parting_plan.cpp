// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/results/parting_plan.h"

#include "core/assay/inquart.h"
#include "core/fire/practice.h"
#include "core/units/units.h"

namespace prillbook::results {

Result<std::optional<PartingPlan>> parting_plan(const weighing::Bead& bead) {
  const std::optional<Mass> whole = bead.melt ? std::optional(bead.melt->together) : bead.mean(weighing::of_bead);
  if (!whole) return std::optional<PartingPlan>{};
  const Mass added = bead.inquart ? bead.inquart->mass() : Mass();
  const auto parted = bead.parted();
  std::optional<Mass> gold;
  if (parted)
    gold = parted->gold;
  else if (bead.fineness)
    gold = *whole * (bead.fineness->fineness().in(unit::permil) / 1000);
  const auto ratio = gold ? parting_ratio(*whole, *gold, added) : std::nullopt;
  if (!ratio) return std::optional<PartingPlan>{};
  PartingPlan plan{*ratio, {}};
  if (!parted) {
    PRILLBOOK_ASSIGN(plan.silver_to_add, silver_to_add(*gold, *whole - *gold + added, quartation));
  }
  return std::optional(plan);
}

}  // namespace prillbook::results
