// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

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
std::string worth(const MeasuredGrade& grade, double grams_a_unit, const PerGram& metal, DecimalMark mark) {
  const auto money = [&](const std::optional<Grade>& one) {
    return one ? std::optional(one->in(unit::gram_per_tonne)*grams_a_unit * metal.price) : std::nullopt;
  };
  return with_unit(figure(*money(grade.value), money(grade.lo), money(grade.hi), metal.currency, {}, mark));
}

void add_worth(Sentences& out, const char* name, const MeasuredGrade* grade, const std::optional<std::string>& typed,
               const issue::Price& price, DecimalMark mark) {
  const auto metal = per_gram(typed, price);
  if (!metal || !grade || !(grade->value > Grade())) return;
  const double short_ton = Mass(1, unit::short_ton) / Mass(1, unit::tonne);
  out.push_back(
      fmt::format("At {} {} for one {} of {} on {}, a price that the lab was asked to enter, the {} in one metric tonne is "
                  "worth {}, in one short ton {}.",
                  marked(*typed, mark), metal->currency, metal->per, name, *price.date, name, worth(*grade, 1, *metal, mark),
                  worth(*grade, short_ton, *metal, mark)));
}

const MeasuredGrade* gold_of_rock(const results::SampleResult& result) {
  return result.fire.gold.mean ? &*result.fire.gold.mean : nullptr;
}

}  // namespace

Sentences contained_value(const SummarySample& sample, const issue::Price& price, DecimalMark mark) {
  Sentences out;
  add_worth(out, "gold", gold_of_rock(sample.result), price.gold, price, mark);
  add_worth(out, "silver", common_silver(sample.result.fire), price.silver, price, mark);
  if (!out.empty())
    out.push_back(
        "That is metal contained in the rock, before anything is lost in winning it and before any cost: it is not what "
        "the rock fetches.");
  return out;
}

}  // namespace prillbook::summary
