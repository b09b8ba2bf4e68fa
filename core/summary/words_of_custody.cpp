// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>

#include "core/results/reading_lines.h"
#include "core/summary/words.h"

namespace prillbook::summary {
namespace {

std::string taken_words(const custody::Sample& sample) {
  if (!sample.taken_when && !sample.taken_by) return "";
  std::string words = "Taken";
  if (sample.taken_when) words += " " + *sample.taken_when;
  if (sample.taken_by) words += " by " + *sample.taken_by;
  return words + ", as you told us.";
}

// From the first weighing after the arrival to the last.
std::string work_words(const results::SampleRecord& record) {
  std::vector<Instant> times;
  for (const results::ReadingLine& line : results::reading_lines(record))
    if (line.when && !line.test.empty()) times.push_back(*line.when);
  if (times.empty()) return "";
  const auto [first, last] =
      std::minmax_element(times.begin(), times.end(), [](const Instant& a, const Instant& b) { return a.utc_ms < b.utc_ms; });
  const std::string from = local_date(*first), to = local_date(*last);
  return from == to ? fmt::format("Tested on {}.", from) : fmt::format("Tested from {} to {}.", from, to);
}

}  // namespace

Sentences custody_dates(const results::SampleRecord& record) {
  Sentences out;
  const auto add = [&](std::string words) {
    if (!words.empty()) out.push_back(std::move(words));
  };
  add(taken_words(record.sample));
  const std::string by = record.initials(record.consignment.received_by);
  add(fmt::format("Received {} {}{}.", local_date(record.consignment.arrived), local_time(record.consignment.arrived),
                  by.empty() ? "" : " by " + by));
  add(work_words(record));
  for (const custody::Link& link : record.custody.chain.links)
    if (link.id) add(fmt::format("{} {}: handed from {} to {}.", local_date(link.at), local_time(link.at), link.from, link.to));
  if (record.sample.retain_until) add(fmt::format("What is left is kept until {}.", local_date(*record.sample.retain_until)));
  if (record.sample.disposal) add(fmt::format("What was left was {}.", *record.sample.disposal));
  return out;
}

}  // namespace prillbook::summary
