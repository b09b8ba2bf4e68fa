// SPDX-License-Identifier: GPL-3.0-or-later
// What the findings of weighings share.
#pragma once

#include "core/findings/finding.h"

namespace prillbook::findings {

// A weighing of the sample that counts, with what it was made on.
struct SeenWeighing {
  const weighing::Weighing& weighing;
  const weighing::Bead& bead;
  PortionId portion;
  const lab::Balance* balance = nullptr;  // null: none named

  std::string label(const Scene& scene) const;  // "bead of 26-0003/2"
};
std::vector<SeenWeighing> weighings_of(const Scene& scene);

// The weighings for which `odd` says so, as one finding: rule, severity, sample and the evidence of each are set; `seen` is
// left to the rule. nullopt where there is none.
struct OddWeighings {
  Finding finding;
  std::vector<SeenWeighing> weighings;
  std::string labels(const Scene& scene) const;  // "bead of 26-0003/2 (0.012 mg), gold of …"; at most three are named
};
std::optional<OddWeighings> odd_weighings(const Scene& scene, const char* rule, Severity severity,
                                          bool (*odd)(const Scene&, const SeenWeighing&));

weighing::CheckVerdict verdict_of(const Scene& scene, const SeenWeighing& seen);

}  // namespace prillbook::findings
