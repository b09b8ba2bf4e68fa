// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>
#include <fmt/ranges.h>

#include "core/summary/words.h"

namespace prillbook::summary {
namespace {

std::string_view verdict_in_words(results::ControlVerdict verdict) {
  switch (verdict) {
    case results::ControlVerdict::waiting: return "no figure yet";
    case results::ControlVerdict::within: return "within";
    case results::ControlVerdict::warning: return "within, near the limit";
    case results::ControlVerdict::outside: return "outside";
    case results::ControlVerdict::not_judged: return "not judged";
  }
  return "";
}

// Rock of other clients stays unnamed: a duplicate of another sample is left out.
std::string control_words(const results::ControlResult& control) {
  const std::string what = controls::is_duplicate(control.role)
                               ? fmt::format("{} of {}", controls::role_in_words(control.role), control.name)
                               : fmt::format("{} {}", controls::role_in_words(control.role), control.name);
  if (control.found.empty()) return fmt::format("{}: {}", what, verdict_in_words(control.verdict));
  const std::string allowed = control.allowed.empty() ? "" : fmt::format(" (allowed {})", control.allowed);
  return fmt::format("{}: {}{}, {}", what, control.found, allowed, verdict_in_words(control.verdict));
}

std::string decision_words(const results::RunControls& run) {
  if (!run.decision)
    return run.standing == results::RunStanding::outside ? " Not decided yet: these results are open to doubt." : "";
  const std::string reason = run.decision->reason ? ": " + *run.decision->reason : "";
  const std::string when = local_date(run.decision->decided_at);
  if (run.changed_since) return fmt::format(" Accepted on {}, on other control results than these{}.", when, reason);
  const char* what = run.standing == results::RunStanding::accepted ? "Accepted"
                     : run.standing == results::RunStanding::held   ? "Held back"
                                                                    : "To be repeated, so left out";
  return fmt::format(" {} on {}{}.", what, when, reason);
}

}  // namespace

Sentences controls_in_words(const SummarySample& sample) {
  Sentences out;
  for (const results::RunControls& run : sample.runs) {
    std::vector<std::string> parts;
    for (const results::ControlResult& control : run.controls)
      if (!controls::is_duplicate(control.role) || control.stock == sample.record.sample.id)
        parts.push_back(control_words(control));
    if (parts.empty() && !run.decision) continue;
    out.push_back(fmt::format("Load “{}”: {}.{}", run.name,
                              parts.empty() ? std::string("no control in it") : fmt::format("{}", fmt::join(parts, "; ")),
                              decision_words(run)));
  }
  return out;
}

}  // namespace prillbook::summary
