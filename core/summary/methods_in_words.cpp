// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/summary/methods_in_words.h"

#include <algorithm>
#include <array>

#include "core/summary/lines.h"

namespace prillbook::summary {
namespace {

using results::SampleRecord;

template <class Predicate>
bool any_sample(std::span<const SummarySample> samples, Predicate predicate) {
  return std::any_of(samples.begin(), samples.end(), predicate);
}

bool has_pan(const SummarySample& sample) { return !sample.record.pan_tests.empty(); }
bool has_fire(const SummarySample& sample) { return !sample.record.charges.empty(); }
bool has_collector(const SummarySample& sample) {
  const auto& charges = sample.record.charges;
  return std::any_of(charges.begin(), charges.end(),
                     [](const results::FireEntry& entry) { return entry.charge.collector && entry.charge.collector->value > 0; });
}

bool has_method(const SampleRecord& record, std::string_view method) {
  const auto uses = [&](const auto& entry) { return entry.bead.method == method; };
  return std::any_of(record.pan_tests.begin(), record.pan_tests.end(), uses) ||
         std::any_of(record.charges.begin(), record.charges.end(), uses);
}

struct MethodWords {
  std::string_view name, words;
};

constexpr std::array<MethodWords, 5> fineness_words{{
    {"parted", "Parted: the silver of the bead was dissolved in acid and the gold left was weighed."},
    {"density", "Density: the bead was weighed in air and under a liquid; copper makes such a figure read low."},
    {"touchstone", "Touchstone: the streak was compared with needles of known gold, to ± 30 ‰."},
    {"colour",
     "Colour: the bead was placed in a colour class, to ± 100 ‰ because printed statements differ by that much; a guide, not a "
     "measurement."},
    {"stated", "Stated: the figure came from elsewhere and was not checked here."},
}};

}  // namespace

Sentences methods_in_words(std::span<const SummarySample> samples) {
  Sentences out;
  const bool pan = any_sample(samples, has_pan), fire = any_sample(samples, has_fire);
  if (pan)
    out.push_back("Pan test: a weighed portion was panned by hand, the free gold drawn off, brought to a bead and weighed.");
  if (fire)
    out.push_back(
        "Fire assay: a weighed portion was fused with litharge and flux; the lead takes up gold and silver, is drawn off in a "
        "cupel, and the bead left was weighed.");
  if (any_sample(samples, has_collector))
    out.push_back("Collector silver: silver was added in the crucible to gather the gold, and taken off again by calculation.");
  if (any_sample(samples, [](const SummarySample& sample) { return !sample.result.sizes.empty(); }))
    out.push_back(
        "Sieve analysis: a weighed portion was shaken through a stack of sieves and what lay on each was weighed; P80 and P50 "
        "are "
        "read between two sieves, linear in per cent passing over the logarithm of size, and never beyond the stack.");
  if (pan || fire) {
    out.push_back(
        fire ? "Silver is by difference: the bead less its gold, less the silver that was put in or came with the reagents."
             : "Silver is by difference: the bead less its gold.");
    out.push_back(
        "g/t is grams of metal in a metric tonne of rock; ozt/short ton is troy ounces in a short ton of 2000 lb. "
        "1 ozt/short ton is 34.29 g/t.");
  }
  return out;
}

Sentences fineness_in_words(std::span<const SummarySample> samples) {
  Sentences out;
  for (const MethodWords& method : fineness_words)
    if (any_sample(samples, [&](const SummarySample& sample) { return has_method(sample.record, method.name); }))
      out.emplace_back(method.words);
  return out;
}

Sentences cautions_in_words(std::span<const SummarySample> samples) {
  Sentences out{
      "This is no certified assay.",
      "It speaks of the sample as we received it, not of the ground or the heap that it came from.",
      "It is not meant for public reporting of mineral resources or reserves; that is for a qualified person, under the code "
      "that "
      "applies where you are.",
  };
  if (any_sample(samples, has_pan)) out.push_back("What a pan catches by hand is not what a mill would recover.");
  out.push_back(
      "Before you treat ore with fire, acid, litharge, cyanide or mercury, read the product sheets and the local rules and "
      "consult licensed practice.");
  return out;
}

}  // namespace prillbook::summary
