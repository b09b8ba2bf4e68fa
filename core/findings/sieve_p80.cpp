// SPDX-License-Identifier: GPL-3.0-or-later
// P80 lies outside the stack, or between two sieves that are far apart.
#include <fmt/format.h>

#include "core/assay/rounding.h"
#include "core/findings/sieve_evidence.h"

namespace prillbook::findings {
namespace {

std::string where_p80_lies(const results::SizeResult& size, DecimalMark mark) {
  const auto& rows = size.curve->rows;
  switch (size.curve->p80.status) {
    case SizeStatus::above_top_sieve:
      return fmt::format("P80 of {} lies above the top sieve, {}, which only {} pass.", size.label,
                         opening_in_words(rows.front().opening, mark), per_cent(rows.front().passing_pct, mark));
    case SizeStatus::below_bottom_sieve:
      return fmt::format("P80 of {} lies below the finest sieve, {}, which {} pass.", size.label,
                         opening_in_words(rows.back().opening, mark), per_cent(rows.back().passing_pct, mark));
    case SizeStatus::inside: break;
  }
  return fmt::format("The sieves either side of P80 of {} differ {} times.", size.label,
                     rounded(size.curve->p80.bracket_ratio, 1, mark));
}

}  // namespace

std::optional<Finding> sieve_p80(const Scene& scene) {
  return first_of_analyses(
      scene, [&](const sieves::Analysis& analysis, const results::SizeResult& size) -> std::optional<Finding> {
        if (!size.curve) return std::nullopt;
        const bool inside = size.curve->p80.status == SizeStatus::inside;
        if (inside && size.curve->p80.bracket_ratio <= 2 + 1e-9) return std::nullopt;
        const DecimalMark mark = scene.record.settings.decimal_mark;
        Finding finding = about_sieves(scene, "sieve_p80", inside ? Severity::note : Severity::caution);
        finding.seen = where_p80_lies(size, mark);
        finding.why = inside ? "Between sieves so far apart the curve is a guess, and P80 with it."
                             : "Beyond its sieves a curve says nothing: there is no P80 to give.";
        const auto help = results::sizes_that_would_help(analysis, *size.curve);
        finding.to_do =
            help.empty() ? "Put a sieve between them." : fmt::format("These sizes would help: {}.", joined(help, mark));
        finding.source = "common practice";
        finding.evidence = {of_analysis(size, "P80", std::string(contract_name(size.curve->p80.status))),
                            of_analysis(size, "coarser over finer opening", rounded(size.curve->p80.bracket_ratio, 2))};
        return finding;
      });
}

}  // namespace prillbook::findings
