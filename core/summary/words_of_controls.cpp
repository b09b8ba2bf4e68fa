// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>
#include <fmt/ranges.h>

#include "core/summary/words.h"

namespace prillbook::summary {
namespace {

std::string verdict_in_words(results::ControlVerdict verdict, const Speech& say) {
  switch (verdict) {
    case results::ControlVerdict::waiting: return say("control.waiting");
    case results::ControlVerdict::within: return say("control.within");
    case results::ControlVerdict::warning: return say("control.warning");
    case results::ControlVerdict::outside: return say("control.outside");
    case results::ControlVerdict::not_judged: return say("control.not_judged");
  }
  return "";
}

// What was written where the control was judged, again for this reader: its words, and the mark in its figures.
std::string told_again(std::string_view group, const std::string& judged, const Speech& say) {
  std::string words = say.again(group, judged);
  if (!say.translated() || say.mark() != DecimalMark::comma) return words;
  const auto digit = [&](std::size_t i) { return i < words.size() && words[i] >= '0' && words[i] <= '9'; };
  for (std::size_t i = 1; i < words.size(); ++i)
    if (words[i] == '.' && digit(i - 1) && digit(i + 1)) words[i] = ',';
  return words;
}

// Rock of other clients stays unnamed: a duplicate of another sample is left out.
std::string control_words(const results::ControlResult& control, const Speech& say) {
  const wording::Named role{"role", say.named("role", controls::role_name(control.role))}, name{"name", control.name};
  const bool duplicate = controls::is_duplicate(control.role);
  const wording::Named what{"control", duplicate ? say("control.of", {role, name}) : say("control.named", {role, name})};
  const wording::Named verdict{"verdict", verdict_in_words(control.verdict, say)};
  if (control.found.empty()) return say("control.open", {what, verdict});
  const std::string allowed =
      control.allowed.empty() ? "" : say("control.allowed", {{"allowed", told_again("control_allowed", control.allowed, say)}});
  return say("control.judged", {what, {"found", told_again("control_found", control.found, say)}, {"allowed", allowed}, verdict});
}

std::string decision_words(const results::RunControls& run, const Speech& say) {
  if (!run.decision) return run.standing == results::RunStanding::outside ? say("decision.none") : "";
  const wording::Named reason{"reason", run.decision->reason ? ": " + *run.decision->reason : ""};
  const wording::Named date{"date", local_date(run.decision->decided_at)};
  if (run.changed_since) return say("decision.changed", {date, reason});
  if (run.standing == results::RunStanding::accepted) return say("decision.accepted", {date, reason});
  if (run.standing == results::RunStanding::held) return say("decision.held", {date, reason});
  return say("decision.repeat", {date, reason});
}

}  // namespace

Sentences controls_in_words(const SummarySample& sample, const Speech& say) {
  Sentences out;
  for (const results::RunControls& run : sample.runs) {
    std::vector<std::string> parts;
    for (const results::ControlResult& control : run.controls)
      if (!controls::is_duplicate(control.role) || control.stock == sample.record.sample.id)
        parts.push_back(control_words(control, say));
    if (parts.empty() && !run.decision) continue;
    out.push_back(
        say("control.load", {{"load", run.name},
                             {"controls", parts.empty() ? say("control.none") : fmt::format("{}", fmt::join(parts, "; "))},
                             {"decision", decision_words(run, say)}}));
  }
  return out;
}

}  // namespace prillbook::summary
