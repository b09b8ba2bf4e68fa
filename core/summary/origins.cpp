// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/summary/origins.h"

#include <fmt/format.h>

#include "core/results/reading_lines.h"
#include "core/summary/lines.h"

namespace prillbook::summary {
namespace {

constexpr const char* two_tons =
    "1 troy oz per short ton = 240/7 g/t (NIST SP 811, appendix B.8: 1 ozt = 31.1034768 g, 1 lb = 453.59237 g)";
constexpr const char* not_read = "what has no reading below is 0: losses, slag, cupel, moisture, silver";
constexpr const char* common = "common practice, no source";

struct OriginList {
  const std::vector<ReadingLine>& readings;
  std::vector<Origin> origins = {};

  std::vector<ReadingLine> of_test(const std::string& test) const {
    std::vector<ReadingLine> found;
    for (const ReadingLine& line : readings)
      if (line.test == test || line.what == "moisture, wet basis") found.push_back(line);
    return found;
  }
  Origin& add(const std::optional<Figure>& figure, std::string what, std::string formula, std::string source) {
    origins.push_back({std::move(what), figure ? with_unit(*figure) : "", std::move(formula), {}, std::move(source), {}, {}});
    return origins.back();
  }
};

void add_metal(OriginList& out, const ResultLine& line) {
  const auto readings = out.of_test(line.test);
  if (line.gold) {
    const char* formula = line.fineness_method == "parted"
                              ? "[gold after parting ÷ (1 − gold loss) + gold of slag and cupel] ÷ dry portion"
                              : "[bead × fineness ÷ (1 − gold loss) + gold of slag and cupel] ÷ dry portion";
    Origin& origin = out.add(line.gold, "Gold, " + line.test, formula,
                             "Beringer, p. 101, 115 and 145; the form metal ÷ (1 − loss) is common practice, no source");
    origin.constants = {"dry portion = portion × (1 − moisture)", not_read, "1 g/t = 1 mg/kg", two_tons};
    origin.readings = readings;
  }
  if (line.silver) {
    Origin& origin = out.add(line.silver, "Silver by difference, " + line.test,
                             "[(bead − its gold) ÷ (1 − silver loss) + silver of slag and cupel − silver put in − silver of the "
                             "reagents] ÷ dry portion",
                             "Beringer, p. 101–103 and 115");
    origin.constants = {not_read, two_tons};
    origin.readings = readings;
  }
}

void add_mean(OriginList& out, const ResultLine& line, const std::vector<std::string>& charges, const std::string& pan) {
  if (line.gold) {
    Origin& origin = out.add(line.gold, "Gold, mean of fire", "sum of the charges that count ÷ their number", common);
    origin.constants = {fmt::format("charges that count: {}", line.valid)};
    origin.from = charges;
  }
  if (line.recovery) {
    Origin& origin = out.add(line.recovery, "Pan recovery", "gold of the pan ÷ mean of fire × 100",
                             "interval of a quotient: Fieller (from memory), see docs/methods.md");
    origin.from = {pan, "Gold, mean of fire"};
  }
  if (line.gap) {
    Origin& origin = out.add(line.gap, "Fire less pan", "mean of fire − gold of the pan", common);
    origin.from = {pan, "Gold, mean of fire"};
  }
}

void add_sizes(OriginList& out, const ResultLine& line) {
  const auto readings = out.of_test(line.test);
  for (const auto& [figure, name, share] : {std::tuple{line.p80, "P80", "80"}, {line.p50, "P50", "50"}}) {
    if (!figure) continue;
    Origin& origin =
        out.add(figure, fmt::format("{}, {}", name, line.test),
                fmt::format("size that {} % of what was weighed after sieving passes: between two sieves linear in per "
                            "cent over the logarithm of size",
                            share),
                common);
    origin.readings = readings;
  }
  if (!line.sieve_loss) return;
  Origin& origin = out.add(line.sieve_loss, "Lost in sieving, " + line.test, "(portion − sum after sieving) ÷ portion × 100",
                           "ASTM C136 holds it against 0.3 %");
  origin.readings = readings;
}

}  // namespace

std::vector<Origin> origins_of(const SummarySample& sample, const Speech& say) {
  const auto readings = results::reading_lines(sample.record);
  OriginList out{readings};
  std::vector<std::string> charges;
  const auto& leading = sample.result.leading_pan;
  const std::string pan = leading ? "Gold, " + sample.result.pan[*leading].label : "";
  for (const ResultLine& line : result_lines(sample, say)) {
    if (line.kind == LineKind::charge && line.state == "done" && line.gold) charges.push_back("Gold, " + line.test);
    if (line.kind == LineKind::mean_of_charges)
      add_mean(out, line, charges, pan);
    else if (line.kind == LineKind::sieve_analysis)
      add_sizes(out, line);
    else
      add_metal(out, line);
  }
  return std::move(out.origins);
}

std::string reading_in_words(const ReadingLine& line) {
  std::string words = line.what + ": " + line.typed;
  const bool bare = !line.typed.empty() && line.typed.find_first_not_of("0123456789.,") == std::string::npos;
  if (bare) words += " " + line.unit;
  if (line.when) words += fmt::format(" · {} {}", local_date(*line.when), local_time(*line.when));
  if (!line.who.empty()) words += " · " + line.who;
  if (!line.balance.empty()) words += " · " + line.balance;
  if (line.step_g) {
    // The step of a bead balance is said in milligrams, as its maker does.
    const Mass step(*line.step_g, unit::gram);
    const auto grams = portions::in_words(step);
    const bool fine = step.in(unit::milligram) < 1;
    words += fine ? fmt::format(", step {} {}", shortest(step.in(unit::milligram)), unit::milligram.symbol)
                  : fmt::format(", step {} {}", grams.number, grams.unit);
  }
  if (!line.left_out.empty()) words += " · left out: " + line.left_out;
  return words;
}

}  // namespace prillbook::summary
