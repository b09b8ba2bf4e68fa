// SPDX-License-Identifier: GPL-3.0-or-later
// The planted-slip suite: small notebooks of a lab week, each with one slip of real life, and weeks without any. It says how
// many slips the notebook finds and how often it cries out without cause. The slips and the weeks are our own; that these are
// the slips of a small lab is common practice, no source.
// PRILLBOOK_ALL_SLIPS=1 plants all of them; else every third and ten clean weeks, to be quick. PRILLBOOK_CLEAN_WEEKS=300 looks at
// so many clean weeks.
#include "tests/slips/slips.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cstdlib>

#include "tests/slips/lab_bench.h"

namespace prillbook::slips {
namespace {

bool all() { return std::getenv("PRILLBOOK_ALL_SLIPS") != nullptr; }

// Two samples each. One alarm of sixty samples is known.
std::uint64_t clean_weeks() {
  if (const char* wished = std::getenv("PRILLBOOK_CLEAN_WEEKS")) return std::strtoull(wished, nullptr, 10);
  return all() ? 30 : 10;
}
double allowed_alarms_pct() { return all() ? 2 : 5; }
std::size_t slip_step() { return all() ? 1 : 3; }

bool says(const std::set<std::string>& words, const std::string& wanted) { return words.contains(wanted); }

// What answered the slip. That clean weeks are quiet about all of this is a test of its own.
std::string found_by(const Slip& slip, const Noticed& seen) {
  for (const std::string& wanted : slip.found) {
    if (seen.refused.starts_with(wanted)) return "refused, " + wanted;
    if (says(seen.asked, wanted)) return "asked at entry, " + wanted;
    if (says(seen.rules, wanted)) return wanted;
    if (says(seen.beside, wanted)) return wanted + ", of the sample beside";
  }
  return {};
}

std::string all_of(const Noticed& seen) {
  std::string words = seen.refused;
  for (const auto* list : {&seen.rules, &seen.asked})
    for (const std::string& one : *list) words += (words.empty() ? "" : ", ") + one;
  return words;
}

TEST(PlantedSlips, AreFoundOrNamedAsMissed) {
  LabBench bench;
  ASSERT_GE(all_slips().size(), 60u);
  int found = 0, planted = 0;
  for (std::size_t i = 0; i < all_slips().size(); i += slip_step()) {
    const Slip& slip = all_slips()[i];
    const Json clean = clean_week(1000 + i);
    Json week = clean;
    slip.plant(week);
    ASSERT_NE(week, clean) << slip.name;
    const Noticed seen = bench.look(week, slip.now);
    const std::string by = found_by(slip, seen);
    found += !by.empty(), ++planted;
    fmt::print("{:<58} {}\n", slip.name, !by.empty() ? by : "missed");
    EXPECT_EQ(by.empty(), slip.found.empty()) << slip.name << ": " << all_of(seen);
  }
  fmt::print("{} of {} planted slips found\n", found, planted);
  if (all()) EXPECT_GE(found, 60);
}

// In per cent of the samples.
double false_alarms_of(Json (*week_of)(std::uint64_t), const char* kind) {
  LabBench bench;
  int samples = 0, number = 0;
  for (std::uint64_t seed = 1; seed <= clean_weeks(); ++seed) {
    const Noticed seen = bench.look(week_of(seed));
    EXPECT_EQ(seen.refused, "") << "week " << seed;
    EXPECT_TRUE(seen.asked.empty()) << "week " << seed << ": " << *seen.asked.begin();
    for (const auto* rules : {&seen.rules, &seen.beside}) {
      ++samples;
      number += int(rules->size());
      for (const std::string& rule : *rules) fmt::print("{} week {}: {}\n", kind, seed, rule);
    }
  }
  const double pct = 100.0 * number / samples;
  fmt::print("{} samples of {} weeks, {} false alarms: {:.1f} %\n", samples, kind, number, pct);
  return pct;
}

TEST(PlantedSlips, CleanWeeksRaiseNoFalseAlarm) { EXPECT_LE(false_alarms_of(clean_week, "clean"), allowed_alarms_pct()); }

TEST(PlantedSlips, HarderWeeksRaiseNoFalseAlarm) { EXPECT_LE(false_alarms_of(harder_week, "harder"), allowed_alarms_pct()); }

}  // namespace
}  // namespace prillbook::slips
