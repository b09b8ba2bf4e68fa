// SPDX-License-Identifier: GPL-3.0-or-later
// More was lost in sieving than the limit allows.
#include <fmt/format.h>

#include "core/findings/sieve_evidence.h"

namespace prillbook::findings {

std::optional<Finding> sieve_loss(const Scene& scene) {
  return first_of_analyses(scene, [&](const sieves::Analysis&, const results::SizeResult& size) -> std::optional<Finding> {
    if (!size.curve || size.curve->loss_pct <= size.loss_limit_pct + 1e-9) return std::nullopt;
    const DecimalMark mark = scene.record.settings.decimal_mark;
    Finding finding = about_sieves(scene, "sieve_loss", Severity::caution);
    finding.seen = fmt::format("Sieving {} lost {} of the portion; the limit is {}.", size.label,
                               per_cent(size.curve->loss_pct, mark), per_cent(size.loss_limit_pct, mark));
    finding.why = "What is lost is mostly the finest dust: the curve reads coarser than the rock was.";
    finding.to_do = "Brush the sieves and the lid over the pan and weigh again; look for a mass that was not written down.";
    finding.source =
        "ASTM C136: the sum agrees with the mass before within 0.3 %, never below twice the uncertainty of the weighings";
    finding.evidence = {of_analysis(size, "loss", per_cent(size.curve->loss_pct, mark)),
                        of_analysis(size, "limit", per_cent(size.loss_limit_pct, mark))};
    return finding;
  });
}

}  // namespace prillbook::findings
