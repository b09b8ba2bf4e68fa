// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <cmath>

#include "core/assay/rounding.h"
#include "core/summary/words.h"

namespace prillbook::summary {
namespace {

using results::SampleRecord;

std::string rock_words(const SampleRecord& record) {
  const custody::Sample& sample = record.sample;
  std::string words =
      sample.kind ? (*sample.kind == "sweepings" ? "Sweepings" : fmt::format("A {} sample", *sample.kind)) : "A sample";
  words += fmt::format(" with your mark “{}”", sample.mark);
  if (sample.place) words += fmt::format(", taken at {}", *sample.place);
  words += fmt::format(". It came on {} with consignment {}", local_date(record.consignment.arrived), record.consignment.number);
  if (record.consignment.carrier) words += fmt::format(", brought by {}", *record.consignment.carrier);
  return words + ".";
}

std::string condition_words(const SampleRecord& record) {
  const std::string condition = record.sample.condition.value_or("");
  if (condition == "sealed") return "It arrived sealed.";
  if (condition == "open") return "It arrived open.";
  if (condition == "wet") return "It arrived wet.";
  if (condition == "mixed") return "It arrived mixed with other rock: the figures speak of the mixture.";
  if (condition == "torn" || condition == "leaking")
    return fmt::format(
        "The bag arrived {}. Dust and fines leave first and can be richer than the rest: "
        "the figures speak of what arrived.",
        condition);
  return "";
}

std::string mass_words(const SampleRecord& record, const lab::Settings& settings) {
  const auto &declared = record.sample.mass_declared, &received = record.sample.mass_received;
  const DecimalMark mark = settings.decimal_mark;
  if (!received && !declared) return "";
  if (!received) return fmt::format("You declared {}; we did not weigh it on arrival.", as_typed(*declared, mark));
  if (!declared) return fmt::format("We weighed {} on arrival.", as_typed(*received, mark));
  const double difference = received->value - declared->value;
  const double percent = declared->value > 0 ? 100 * difference / declared->value : 0;
  const std::string both =
      fmt::format("You declared {}; we weighed {} on arrival", as_typed(*declared, mark), as_typed(*received, mark));
  if (std::abs(percent) <= settings.short_mass_limit_pct) return both + ": the two agree.";
  return fmt::format("{}: {} % {} than declared.", both, rounded(std::abs(percent), std::abs(percent) < 10 ? 1 : 0, mark),
                     difference < 0 ? "less" : "more");
}

std::string moisture_words(const SampleRecord& record, DecimalMark mark) {
  if (!record.sample.moisture || record.sample.moisture->value <= 0) return "";
  return fmt::format("It held {} of water; all grades below are of the dry rock.", as_typed(*record.sample.moisture, mark));
}

}  // namespace

Sentences what_you_sent(const SampleRecord& record, const lab::Settings& settings) {
  Sentences sentences;
  for (std::string words :
       {rock_words(record), condition_words(record), mass_words(record, settings), moisture_words(record, settings.decimal_mark)})
    if (!words.empty()) sentences.push_back(std::move(words));
  return sentences;
}

}  // namespace prillbook::summary
