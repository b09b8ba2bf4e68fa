// SPDX-License-Identifier: GPL-3.0-or-later
// What the findings of a sieve analysis share.
#pragma once

#include "core/findings/finding.h"

namespace prillbook::findings {

// The first analysis, not spoiled, for which `rule` says something: at most one finding a rule and sample.
template <class Rule>
std::optional<Finding> first_of_analyses(const Scene& scene, Rule&& rule) {
  for (std::size_t i = 0; i < scene.result.sizes.size() && i < scene.record.sieve_analyses.size(); ++i) {
    if (scene.result.sizes[i].state == results::SizeState::spoiled) continue;
    if (auto finding = rule(scene.record.sieve_analyses[i], scene.result.sizes[i])) return finding;
  }
  return std::nullopt;
}

// A finding about this analysis, with rule, sample and severity.
Finding about_sieves(const Scene& scene, const char* rule, Severity severity);
Evidence of_analysis(const results::SizeResult& size, std::string what, std::string figure);
std::string per_cent(double value, DecimalMark mark);  // "0.42 %"
std::string joined(const std::vector<Opening>& sizes, DecimalMark mark);

}  // namespace prillbook::findings
