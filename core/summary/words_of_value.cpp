// SPDX-License-Identifier: GPL-3.0-or-later
#include <cmath>

#include "core/summary/lines.h"
#include "core/summary/words.h"
#include "core/units/units.h"

namespace prillbook::summary {
namespace {

struct PerGram {
  double price = 0;  // of one gram
  std::string currency, per;
};

std::optional<PerGram> per_gram(const std::optional<std::string>& typed, const issue::Price& price) {
  if (!typed || !price.unit || !price.date) return std::nullopt;
  const auto number = parse_number(*typed, DecimalMark::point);
  const std::size_t slash = price.unit->rfind('/');
  if (!number || slash == std::string::npos) return std::nullopt;
  PerGram found{number->value, price.unit->substr(0, slash), price.unit->substr(slash + 1)};
  // NIST SP 811, appendix B.8: one troy ounce is 31.103 4768 g.
  found.price /= found.per == "ozt" ? Mass(1, unit::troy_ounce).in(unit::gram) : found.per == "kg" ? 1000 : 1;
  return found;
}

// Money in so much rock, with the interval of the grade. `grams_a_unit`: grams of metal that 1 g/t is in it.
std::string worth(const MeasuredGrade& grade, double grams_a_unit, const PerGram& metal, const Speech& say) {
  const auto money = [&](const std::optional<Grade>& one) {
    return one ? std::optional(one->in(unit::gram_per_tonne)*grams_a_unit * metal.price) : std::nullopt;
  };
  return with_unit(figure(*money(grade.value), money(grade.lo), money(grade.hi), metal.currency, {}, say));
}

void add_worth(Sentences& out, const std::string& name, const MeasuredGrade* grade, const std::optional<std::string>& typed,
               const issue::Price& price, const Speech& say) {
  const auto metal = per_gram(typed, price);
  if (!metal || !grade || !(grade->value > Grade())) return;
  const double short_ton = Mass(1, unit::short_ton) / Mass(1, unit::tonne);
  out.push_back(say("worth.metal", {{"price", marked(*typed, say)},
                                    {"currency", metal->currency},
                                    {"unit", metal->per},
                                    {"metal", name},
                                    {"date", *price.date},
                                    {"tonne", worth(*grade, 1, *metal, say)},
                                    {"short_ton", worth(*grade, short_ton, *metal, say)}}));
}

const MeasuredGrade* gold_of_rock(const results::SampleResult& result) {
  return result.fire.gold.mean ? &*result.fire.gold.mean : nullptr;
}

}  // namespace

Sentences contained_value(const SummarySample& sample, const issue::Price& price, const Speech& say) {
  Sentences out;
  add_worth(out, say("worth.gold"), gold_of_rock(sample.result), price.gold, price, say);
  add_worth(out, say("worth.silver"), common_silver(sample.result.fire), price.silver, price, say);
  if (!out.empty()) out.push_back(say("worth.not_fetched"));
  return out;
}

}  // namespace prillbook::summary
