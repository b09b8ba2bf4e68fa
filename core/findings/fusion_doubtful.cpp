// SPDX-License-Identifier: GPL-3.0-or-later
// Something was seen at the fusion or the cupellation that casts doubt on the result.
#include <fmt/format.h>

#include "core/findings/furnace_evidence.h"

namespace prillbook::findings {
namespace {

struct Sign {
  std::string_view word, says;
};
constexpr Sign doubtful_fusion[] = {{"matte", "matte"},
                                    {"speiss", "speiss"},
                                    {"prills", "prills in the slag"},
                                    {"streaks", "a streaked slag"},
                                    {"pasty", "a pasty slag"},
                                    {"hard button", "a hard or brittle button"}};
constexpr Sign doubtful_cupellation[] = {
    {"froze", "a frozen button"}, {"spat", "spitting"}, {"sprouted", "sprouting"}, {"cracked", "a cracked cupel"}};

}  // namespace

std::optional<Finding> fusion_doubtful(const Scene& scene) {
  return first_of_charges(scene, [&](const results::FireEntry& entry) -> std::optional<Finding> {
    std::vector<std::string_view> seen;
    for (const Sign& sign : doubtful_fusion)
      if (fire::has_sign(entry.charge.fusion_signs, sign.word)) seen.push_back(sign.says);
    for (const Sign& sign : doubtful_cupellation)
      if (fire::has_sign(entry.charge.cupellation_signs, sign.word)) seen.push_back(sign.says);
    if (seen.empty()) return std::nullopt;
    Finding finding = about_furnace(scene, "fusion_doubtful", Severity::caution);
    finding.seen = fmt::format("{} showed {}.", labelled(scene, entry), fmt::join(seen, ", "));
    finding.why =
        "Matte and speiss hold more gold than slag does; prills and streaks say that the fusion was not at an end; a bead that "
        "froze, spat or sprouted has lost metal.";
    finding.to_do = "Fuse the slag or the matte again and add what it gives, or mark the charge spoiled and repeat it.";
    finding.source = "Rose p. 499; Beringer p. 99-100, 138, 140";
    finding.evidence = {of_charge(entry, "signs", fmt::format("{}", fmt::join(seen, ", ")))};
    return finding;
  });
}

}  // namespace prillbook::findings
