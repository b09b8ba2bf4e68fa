// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include "core/results/reading_lines.h"
#include "core/summary/words.h"

namespace prillbook::summary {
namespace {

std::string taken_words(const custody::Sample& sample, const Speech& say) {
  if (!sample.taken_when && !sample.taken_by) return "";
  return say("custody.taken", {{"when", sample.taken_when ? say("custody.when", {{"when", *sample.taken_when}}) : ""},
                               {"by", sample.taken_by ? say("custody.by", {{"who", *sample.taken_by}}) : ""}});
}

// From the first weighing after the arrival to the last.
std::string work_words(const results::SampleRecord& record, const Speech& say) {
  std::vector<Instant> times;
  for (const results::ReadingLine& line : results::reading_lines(record))
    if (line.when && !line.test.empty()) times.push_back(*line.when);
  if (times.empty()) return "";
  const auto [first, last] =
      std::minmax_element(times.begin(), times.end(), [](const Instant& a, const Instant& b) { return a.utc_ms < b.utc_ms; });
  const std::string from = local_date(*first), to = local_date(*last);
  return from == to ? say("custody.tested_on", {{"date", from}}) : say("custody.tested", {{"from", from}, {"to", to}});
}

}  // namespace

Sentences custody_dates(const results::SampleRecord& record, const Speech& say) {
  Sentences out;
  const auto add = [&](std::string words) {
    if (!words.empty()) out.push_back(std::move(words));
  };
  add(taken_words(record.sample, say));
  const std::string by = record.initials(record.consignment.received_by);
  add(say("custody.received", {{"date", local_date(record.consignment.arrived)},
                               {"time", local_time(record.consignment.arrived)},
                               {"by", by.empty() ? "" : say("custody.by", {{"who", by}})}}));
  add(work_words(record, say));
  for (const custody::Link& link : record.custody.chain.links)
    if (link.id)
      add(say("custody.handed",
              {{"date", local_date(link.at)}, {"time", local_time(link.at)}, {"from", link.from}, {"to", link.to}}));
  if (record.sample.retain_until) add(say("custody.kept", {{"date", local_date(*record.sample.retain_until)}}));
  if (record.sample.disposal) add(say("custody.disposal", {{"disposal", say.named("disposal", *record.sample.disposal)}}));
  return out;
}

}  // namespace prillbook::summary
