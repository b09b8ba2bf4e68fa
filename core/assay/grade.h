// SPDX-License-Identifier: GPL-3.0-or-later
// From a bead to grades of the ore it came from. Formulas and sources: docs/methods.md, "Bead to grade".
#pragma once

#include <optional>
#include <vector>

#include "core/assay/fineness.h"
#include "core/assay/interval.h"
#include "core/assay/repeats.h"
#include "core/base/result.h"
#include "core/units/units.h"

namespace prillbook {

// What was measured; an empty optional was not measured and is never taken as 0.
struct GradeInput {
  Mass portion;                      // as weighed, > 0
  std::optional<Mass> portion_step;  // of the balance that weighed the portion, > 0
  std::vector<Mass> bead;            // repeat weighings, at least one, each >= 0; all 0: none seen
  std::optional<Mass> balance_step;  // of the balance that weighed bead, parted gold, slag and cupel metal, > 0
  std::optional<Mass> repeat_sd;     // that balance's own repeatability of one weighing, >= 0
  double repeat_dof = infinite_dof;  // behind repeat_sd, >= 1
  bool tared = false;                // each mass is the difference of two readings
  // Nothing is known of how well the bead was weighed: no uncertainty is given, for one of the rest alone would be too small.
  bool bead_doubt_unknown = false;

  std::optional<FinenessReading> fineness;  // of the bead; or
  std::optional<Mass> gold;                 // parted gold of the bead

  std::optional<Mass> slag, slag_gold;          // metal recovered from the slag, and the gold of it
  std::optional<Mass> cupel, cupel_gold;        // from the cupel
  std::optional<Mass> blank;                    // silver brought by litharge and lead
  std::optional<Mass> collector;                // silver put into the crucible
  std::optional<Share> gold_loss, silver_loss;  // 0 <= loss < 100
  std::optional<Share> moisture;                // wet basis, 0 <= moisture < 100
};

// A grade with all that is known of its uncertainty.
struct MeasuredGrade {
  Grade value;
  std::vector<Contribution> parts;  // in g/t; empty: no uncertainty was given
  std::optional<Spread> spread;     // in g/t; absent where parts is empty
  std::optional<Grade> lo, hi;      // 95 %, clipped to what is possible; absent where spread is

  double g_t() const { return value.in(unit::gram_per_tonne); }
};

enum class SilverStatus {
  by_difference,
  not_above_blank,  // no figure; silver_hi is the upper limit where an uncertainty is known
  not_determined,   // no fineness, or not above the uncertainty of the collector's own loss
};
std::string_view status_name(SilverStatus status);

struct BudgetLine {
  UncertaintySource source;
  double share_pct;  // of the variance; the lines of one budget add up to 100
};

struct GradeResult {
  Mass dry_portion;
  RepeatStatistics bead_readings;
  bool none_seen = false;               // bead 0: gold 0 with the upper limit of the step
  bool fineness_known = false;          // or parted gold
  MeasuredGrade bead;                   // all corrected metal; silver below the blank counts as none
  std::optional<MeasuredGrade> gold;    // absent without fineness or parted gold, unless none was seen
  std::optional<MeasuredGrade> silver;  // only where silver_status is by_difference
  SilverStatus silver_status = SilverStatus::not_determined;
  std::optional<Grade> silver_hi;
  // What slag and cupel gave back, as part of the above: all metal, and the gold of it; absent where none was recovered, or its
  // gold was not found.
  std::optional<MeasuredGrade> recovered, recovered_gold;
  std::vector<BudgetLine> budget;  // of gold where it has one, else of the bead; largest first
};

// The printed losses of collector silver in cupelling run from 1 to 6 % (Beringer p. 102-103): without a loss given,
// silver counts as determined above 6 % of the collector; with one, above half that range.
inline constexpr Share collector_loss_limit{6, unit::percent};
inline constexpr Share collector_loss_half_range{2.5, unit::percent};

// Errors, fields by the keys of the batch verbs: out_of_range; too_small (bead_mg: no reading); conflict (fineness_permil
// beside parted gold; cupel_mg beside a loss; fineness.h); missing_key (a loss without fineness; recovered gold without its
// metal; fineness.h); inconsistent (more metal than portion, parted gold above the bead by more than a step, recovered
// gold above its metal, collector silver in and no bead seen); not_finite.
Result<GradeResult> bead_to_grade(const GradeInput& input);

std::vector<BudgetLine> budget_of(std::span<const Contribution> parts);
// Fills spread, lo and hi from value and parts; lo is clipped at 0.
MeasuredGrade measured(Grade value, std::vector<Contribution> parts);

}  // namespace prillbook
