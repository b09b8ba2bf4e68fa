// SPDX-License-Identifier: GPL-3.0-or-later
// Two weighings of one bead lie further apart than their balance scatters.
#include <fmt/format.h>

#include <algorithm>

#include "core/findings/weighing_evidence.h"
#include "core/findings/wording.h"
#include "core/results/balance_scatter.h"
#include "core/units/units.h"
#include "core/weighing/agreement.h"

namespace prillbook::findings {
namespace {

using Repeats = std::vector<SeenWeighing>;  // of one thing on one balance

bool is_repeat(const SeenWeighing& one, const SeenWeighing& other) {
  return one.bead.id == other.bead.id && one.weighing.what == other.weighing.what &&
         one.weighing.balance == other.weighing.balance;
}

std::vector<Repeats> repeats_of(const Scene& scene) {
  std::vector<Repeats> groups;
  for (const SeenWeighing& seen : weighings_of(scene)) {
    if (seen.weighing.mass.state != readings::State::measured) continue;
    const auto group =
        std::find_if(groups.rbegin(), groups.rend(), [&](const Repeats& one) { return is_repeat(one.front(), seen); });
    if (group == groups.rend())
      groups.push_back({seen});
    else
      group->push_back(seen);
  }
  return groups;
}

std::vector<readings::Reading> figures_of(const Repeats& repeats) {
  std::vector<readings::Reading> figures;
  for (const SeenWeighing& seen : repeats) figures.push_back(seen.weighing.mass);
  return figures;
}

// Asked first, of every bead of the notebook.
bool are_close(const Repeats& repeats) {
  const auto [least, most] = std::minmax_element(
      repeats.begin(), repeats.end(),
      [](const SeenWeighing& a, const SeenWeighing& b) { return a.weighing.mass.value < b.weighing.mass.value; });
  const double high = most->weighing.mass.value;
  return high - least->weighing.mass.value <= high * weighing::spread_let_pass;
}

std::optional<weighing::Disagreement> disagreement_of(const Scene& scene, const Repeats& repeats) {
  if (are_close(repeats)) return std::nullopt;
  const auto figures = figures_of(repeats);
  const bool tared = std::any_of(repeats.begin(), repeats.end(), [](const auto& seen) { return seen.weighing.is_difference(); });
  if (!weighing::disagreement(figures, {}, tared)) return std::nullopt;
  return weighing::disagreement(figures, results::repeat_sd(scene.record, repeats.front().weighing.balance), tared);
}

std::string milligrams(Mass mass) { return two_digits(mass.in(unit::milligram)) + " mg"; }

// What was typed, and what it would be, of the only one whose digits can be exchanged to agree with the rest.
std::string exchange_in_words(const Repeats& repeats, Mass allowed) {
  std::string words;
  for (std::size_t i = 0; i < repeats.size(); ++i) {
    std::vector<readings::Reading> others = figures_of(repeats);
    others.erase(others.begin() + std::ptrdiff_t(i));
    const auto exchanged = weighing::with_digits_exchanged(repeats[i].weighing.mass, others, allowed);
    if (!exchanged) continue;
    if (!words.empty()) return {};
    words = fmt::format(" With two digits exchanged {} would be {}.", repeats[i].weighing.mass.typed, *exchanged);
  }
  return words;
}

}  // namespace

std::optional<Finding> repeats_apart(const Scene& scene) {
  for (const Repeats& repeats : repeats_of(scene)) {
    const auto spread = disagreement_of(scene, repeats);
    if (!spread) continue;
    Finding finding;
    finding.rule = "repeats_apart";
    finding.severity = Severity::caution;
    finding.sample = scene.record.sample.id;
    std::string figures;
    for (const SeenWeighing& seen : repeats) {
      figures += (figures.empty() ? "" : ", ") + seen.weighing.mass.typed;
      finding.evidence.push_back(
          {seen.label(scene), seen.weighing.mass.typed, history::Entity::weighing, seen.weighing.id.value});
    }
    finding.seen = fmt::format("Repeat weighings of the {} lie {} apart ({}); {} would be much for this balance.{}",
                               repeats.front().label(scene), milligrams(spread->range), figures, milligrams(spread->allowed),
                               exchange_in_words(repeats, spread->allowed));
    finding.why =
        "A bead does not change on the pan: a figure was misread or two of its digits turned round, or another bead lay there.";
    finding.to_do = "Weigh it once more, and leave out the figure that is wrong, with the reason.";
    finding.source = "twice the critical range of ISO 5725-6 (from memory); twice by common practice, no source";
    return finding;
  }
  return std::nullopt;
}

}  // namespace prillbook::findings
