// SPDX-License-Identifier: GPL-3.0-or-later
#include <cmath>

#include "core/assay/rounding.h"
#include "core/summary/words.h"

namespace prillbook::summary {
namespace {

using results::SampleRecord;

std::string thing_words(const custody::Sample& sample, const Speech& say) {
  if (!sample.kind) return say("arrival.sample");
  if (*sample.kind == "sweepings") return say("arrival.sweepings");
  return say("arrival.kind", {{"kind", say.named("kind", *sample.kind)}});
}

std::string rock_words(const SampleRecord& record, const Speech& say) {
  const custody::Sample& sample = record.sample;
  const auto& carrier = record.consignment.carrier;
  return say("arrival.rock", {{"what", thing_words(sample, say)},
                              {"mark", sample.mark},
                              {"place", sample.place ? say("arrival.place", {{"place", *sample.place}}) : ""},
                              {"date", local_date(record.consignment.arrived)},
                              {"consignment", record.consignment.number},
                              {"carrier", carrier ? say("arrival.carrier", {{"carrier", *carrier}}) : ""}});
}

std::string condition_words(const SampleRecord& record, const Speech& say) {
  const std::string condition = record.sample.condition.value_or("");
  if (condition == "sealed") return say("arrival.sealed");
  if (condition == "open") return say("arrival.open");
  if (condition == "wet") return say("arrival.wet");
  if (condition == "mixed") return say("arrival.mixed");
  if (condition == "torn" || condition == "leaking")
    return say("arrival.leaky", {{"condition", say.named("condition", condition)}});
  return "";
}

std::string mass_words(const SampleRecord& record, double limit_pct, const Speech& say) {
  const auto &declared = record.sample.mass_declared, &received = record.sample.mass_received;
  if (!received && !declared) return "";
  if (!received) return say("arrival.declared", {{"declared", as_typed(*declared, say)}});
  if (!declared) return say("arrival.weighed", {{"received", as_typed(*received, say)}});
  const double difference = received->value - declared->value;
  const double percent = declared->value > 0 ? 100 * difference / declared->value : 0;
  const wording::Named was{"declared", as_typed(*declared, say)}, is{"received", as_typed(*received, say)};
  if (std::abs(percent) <= limit_pct) return say("arrival.agree", {was, is});
  const wording::Named by{"percent", rounded(std::abs(percent), std::abs(percent) < 10 ? 1 : 0, say)};
  return difference < 0 ? say("arrival.less", {was, is, by}) : say("arrival.more", {was, is, by});
}

std::string moisture_words(const SampleRecord& record, const Speech& say) {
  if (!record.sample.moisture || record.sample.moisture->value <= 0) return "";
  return say("arrival.moisture", {{"water", as_typed(*record.sample.moisture, say)}});
}

}  // namespace

Sentences what_you_sent(const SampleRecord& record, double short_mass_limit_pct, const Speech& say) {
  Sentences sentences;
  for (std::string words : {rock_words(record, say), condition_words(record, say), mass_words(record, short_mass_limit_pct, say),
                            moisture_words(record, say)})
    if (!words.empty()) sentences.push_back(std::move(words));
  return sentences;
}

}  // namespace prillbook::summary
