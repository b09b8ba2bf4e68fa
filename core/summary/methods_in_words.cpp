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

}  // namespace

Sentences methods_in_words(std::span<const SummarySample> samples, const Speech& say) {
  Sentences out;
  const bool pan = any_sample(samples, has_pan), fire = any_sample(samples, has_fire);
  if (pan) out.push_back(say("method.pan"));
  if (fire) out.push_back(say("method.fire"));
  if (any_sample(samples, has_collector)) out.push_back(say("method.collector"));
  if (any_sample(samples, [](const SummarySample& sample) { return !sample.result.sizes.empty(); }))
    out.push_back(say("method.sieve"));
  if (pan || fire) {
    out.push_back(fire ? say("method.silver_fire") : say("method.silver_pan"));
    out.push_back(say("method.units"));
  }
  return out;
}

Sentences fineness_in_words(std::span<const SummarySample> samples, const Speech& say) {
  constexpr std::array<std::string_view, 5> methods{"parted", "density", "touchstone", "colour", "stated"};
  Sentences out;
  for (const std::string_view method : methods)
    if (any_sample(samples, [&](const SummarySample& sample) { return has_method(sample.record, method); }))
      out.push_back(say.named("fineness", method));
  return out;
}

Sentences cautions_in_words(std::span<const SummarySample> samples, const Speech& say) {
  Sentences out{say("caution.not_certified"), say("caution.as_received"), say("caution.reporting")};
  if (any_sample(samples, has_pan)) out.push_back(say("caution.pan"));
  out.push_back(say("caution.licensed"));
  return out;
}

}  // namespace prillbook::summary
