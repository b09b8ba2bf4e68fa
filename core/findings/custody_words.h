// SPDX-License-Identifier: GPL-3.0-or-later
// What the rules about custody share: several sentences in one finding, and times in words.
#pragma once

#include <string>
#include <vector>

#include "core/base/clock.h"
#include "core/findings/finding.h"

namespace prillbook::findings {

// "2026-05-06 10:25", in the instant's own local time.
std::string moment_in_words(const Instant& instant);

// Collects what one rule saw.
class Noted {
 public:
  void add(std::string sentence, Evidence evidence);
  bool empty() const { return sentences_.empty(); }
  Finding finding(std::string rule, Severity severity, const Scene& scene, std::string why, std::string to_do,
                  std::string source) const;

 private:
  std::vector<std::string> sentences_;
  std::vector<Evidence> evidence_;
};

}  // namespace prillbook::findings
