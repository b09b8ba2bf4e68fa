// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/findings/custody_words.h"

#include <fmt/format.h>

namespace prillbook::findings {

std::string moment_in_words(const Instant& instant) { return local_date(instant) + " " + local_time(instant); }

void Noted::add(std::string sentence, Evidence evidence) {
  sentences_.push_back(std::move(sentence));
  evidence_.push_back(std::move(evidence));
}

Finding Noted::finding(std::string rule, Severity severity, const Scene& scene, std::string why, std::string to_do,
                       std::string source) const {
  Finding finding;
  finding.rule = std::move(rule);
  finding.severity = severity;
  finding.sample = scene.record.sample.id;
  finding.seen = fmt::format("{}", fmt::join(sentences_, " "));
  finding.why = std::move(why);
  finding.to_do = std::move(to_do);
  finding.source = std::move(source);
  finding.evidence = evidence_;
  return finding;
}

}  // namespace prillbook::findings
