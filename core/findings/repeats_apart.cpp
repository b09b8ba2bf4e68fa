// SPDX-License-Identifier: GPL-3.0-or-later
// Two weighings of one bead lie further apart than their balance scatters.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/findings/weighing_evidence.h"
#include "core/findings/wording.h"
#include "core/milling/steps.h"
#include "core/results/balance_scatter.h"
#include "core/units/units.h"
#include "core/weighing/agreement.h"

namespace prillbook::findings {
namespace {

constexpr double least_share = 0.005;  // of the mass: less moves no grade that a client would see

using Repeats = std::vector<SeenWeighing>;  // of one thing on one balance

bool is_repeat(const SeenWeighing& one, const SeenWeighing& other) {
  return one.bead.id == other.bead.id && one.weighing.what == other.weighing.what &&
         one.weighing.balance == other.weighing.balance;
}

std::vector<Repeats> repeats_of(const Scene& scene) {
  std::vector<Repeats> groups;
  for (const SeenWeighing& seen : weighings_of(scene)) {
    if (seen.weighing.mass.state != readings::State::measured) continue;
    if (groups.empty() || !is_repeat(groups.back().front(), seen)) groups.emplace_back();
    groups.back().push_back(seen);
  }
  return groups;
}

// At least one step of the balance: a scatter below what it shows is not seen.
Mass scatter_of(const Scene& scene, const Repeats& repeats) {
  Mass sd = results::repeat_sd(scene.record, repeats.front().weighing.balance).value_or(Mass());
  bool tared = false;
  for (const SeenWeighing& seen : repeats) {
    sd = std::max(sd, milling::smallest_change(seen.weighing.mass));
    tared = tared || seen.weighing.is_difference();
  }
  return tared ? sd * std::sqrt(2.0) : sd;
}

struct Spread {
  Mass range, allowed;
};

std::optional<Spread> spread_beyond(const Scene& scene, const Repeats& repeats) {
  if (repeats.size() < 2) return std::nullopt;
  const auto [least, most] = std::minmax_element(
      repeats.begin(), repeats.end(),
      [](const SeenWeighing& a, const SeenWeighing& b) { return a.weighing.mass.value < b.weighing.mass.value; });
  const Mass range = most->weighing.mass.mass() - least->weighing.mass.mass();
  if (!(range > most->weighing.mass.mass() * least_share)) return std::nullopt;
  const Mass allowed = weighing::largest_spread(repeats.size(), scatter_of(scene, repeats));
  if (!(range > allowed)) return std::nullopt;
  return Spread{range, allowed};
}

std::string milligrams(Mass mass) { return two_digits(mass.in(unit::milligram)) + " mg"; }

// What was typed, and what it would be, of the only one whose digits can be exchanged to agree with the rest.
std::string exchange_in_words(const Repeats& repeats, Mass allowed) {
  std::string words;
  for (std::size_t i = 0; i < repeats.size(); ++i) {
    std::vector<readings::Reading> others;
    for (std::size_t j = 0; j < repeats.size(); ++j)
      if (j != i) others.push_back(repeats[j].weighing.mass);
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
    const auto spread = spread_beyond(scene, repeats);
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
    finding.source = "ISO 5725-6, critical range (from memory), and half as much again by common practice, no source";
    return finding;
  }
  return std::nullopt;
}

}  // namespace prillbook::findings
