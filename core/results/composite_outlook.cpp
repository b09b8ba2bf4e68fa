// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/results/composite_outlook.h"

#include <algorithm>

#include "core/preparation/composite.h"

namespace prillbook::results {
namespace {

using milling::NewShare;

bool weighed(const NewShare& share) { return share.mass && share.mass->value > 0; }
bool has_wish(const NewShare& share) { return share.share && share.share->value > 0; }

void say_parts(CompositeOutlook& outlook, const std::vector<NewShare>& shares) {
  for (const NewShare& share : shares)
    if (weighed(share)) outlook.total += share.mass->mass();
  for (const NewShare& share : shares)
    outlook.parts.push_back(weighed(share) ? std::optional(Share(100 * (share.mass->mass() / outlook.total), unit::percent))
                                           : std::nullopt);
}

void say_what_to_take(CompositeOutlook& outlook, const std::vector<NewShare>& shares) {
  outlook.to_take.resize(shares.size());
  const auto first = std::find_if(shares.begin(), shares.end(), weighed);
  if (first == shares.end() || !std::all_of(shares.begin(), shares.end(), has_wish)) return;
  std::vector<double> wanted;
  double sum = 0;
  for (const NewShare& share : shares) {
    wanted.push_back(share.share->value);
    sum += share.share->value;
  }
  const auto masses = masses_for_shares(first->mass->mass() * (sum / first->share->value), wanted);
  if (!masses) return;
  for (std::size_t i = 0; i < shares.size(); ++i)
    if (!weighed(shares[i])) outlook.to_take[i] = (*masses)[i];
}

Result<void> say_grade(store::Connection& connection, CompositeOutlook& outlook, const std::vector<NewShare>& shares,
                       const lab::Settings& settings) {
  if (shares.empty() || !std::all_of(shares.begin(), shares.end(), weighed)) return {};
  std::vector<CompositePart> parts;
  for (const NewShare& share : shares) {
    PRILLBOOK_ASSIGN(const LikelyGrade likely, likely_grade(connection, share.sample, settings));
    outlook.basis = std::max(outlook.basis, likely.basis);
    parts.push_back({share.mass->mass().in(unit::gram), likely.grade});
  }
  if (const auto grade = composite_grade(parts)) outlook.grade = *grade;
  return {};
}

}  // namespace

Result<CompositeOutlook> composite_outlook(store::Connection& connection, const std::vector<NewShare>& shares,
                                           const lab::Settings& settings) {
  CompositeOutlook outlook;
  say_parts(outlook, shares);
  say_what_to_take(outlook, shares);
  PRILLBOOK_TRY(say_grade(connection, outlook, shares, settings));
  return outlook;
}

}  // namespace prillbook::results
