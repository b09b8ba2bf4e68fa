// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/findings/sieve_evidence.h"

#include <fmt/format.h>

#include "core/assay/rounding.h"

namespace prillbook::findings {

Finding about_sieves(const Scene& scene, const char* rule, Severity severity) {
  Finding finding;
  finding.rule = rule;
  finding.severity = severity;
  finding.sample = scene.record.sample.id;
  return finding;
}

Evidence of_analysis(const results::SizeResult& size, std::string what, std::string figure) {
  return {std::move(what), std::move(figure), history::Entity::sieve_analysis, size.analysis.value};
}

std::string per_cent(double value, DecimalMark mark) { return rounded(value, 2, mark) + " %"; }

std::string joined(const std::vector<Opening>& sizes, DecimalMark mark) {
  std::string words;
  for (std::size_t i = 0; i < sizes.size(); ++i)
    words += (i == 0 ? "" : i + 1 == sizes.size() ? " and " : ", ") + opening_in_words(sizes[i], mark);
  return words;
}

}  // namespace prillbook::findings
