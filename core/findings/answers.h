// SPDX-License-Identifier: GPL-3.0-or-later
// What people said to the findings of samples.
#pragma once

#include <map>
#include <span>

#include "core/findings/finding.h"

namespace prillbook::findings {

// An answer that no finding of the sample stands on any more.
struct PastAnswer {
  std::string rule;
  Answer answer;
};

class Answers {
 public:
  // Everything that was said of these samples. Errors: the faults of the file.
  static Result<Answers> read(store::Connection& connection, std::span<const SampleId> samples);

  // Each finding with the newest answer to this very evidence. Domain: findings of the samples read.
  std::vector<OpenOrAnswered> beside(std::vector<Finding> findings) const;
  // Those that none of `standing`, the findings of the sample, has; newest first.
  std::vector<PastAnswer> past(SampleId sample, std::span<const OpenOrAnswered> standing) const;

 private:
  struct Kept {
    std::string rule, evidence;
    Answer answer;
  };
  const std::vector<Kept>& of(SampleId sample) const;

  std::map<std::string, std::vector<Kept>> by_scope_;  // newest first
};

Result<std::vector<OpenOrAnswered>> with_answers(store::Connection& connection, SampleId sample, std::vector<Finding> findings);
Result<std::vector<PastAnswer>> past_answers(store::Connection& connection, SampleId sample,
                                             std::span<const OpenOrAnswered> standing);

}  // namespace prillbook::findings
