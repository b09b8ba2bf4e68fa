// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/upkeep/copy_rule.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <numeric>

namespace prillbook::upkeep {
namespace {

using std::chrono::days;
using std::chrono::floor;
using std::chrono::local_days;
using std::chrono::year_month_day;

constexpr std::int64_t ms_a_minute = 60'000;

std::int64_t day_of(CopyTime time) { return floor<days>(time).time_since_epoch().count(); }
// 1970-01-01 was a Thursday: three days after the Monday of its week.
std::int64_t week_of(CopyTime time) { return floor<std::chrono::weeks>(days(day_of(time) + 3)).count(); }
std::int64_t month_of(CopyTime time) {
  const year_month_day date(floor<days>(time));
  return std::int64_t{int(date.year())} * 12 + unsigned(date.month());
}

// Keeps the newest of each of the `most` newest spans that have a copy. `order`: newest first.
template <class SpanOf>
void keep_newest_of(const std::vector<CopyTime>& taken, const std::vector<std::size_t>& order, int most, SpanOf span_of,
                    std::vector<bool>& kept) {
  std::optional<std::int64_t> span;
  for (const std::size_t copy : order) {
    const std::int64_t own = span_of(taken[copy]);
    if (span == own) continue;
    if (most-- <= 0) return;
    span = own;
    kept[copy] = true;
  }
}

std::optional<int> number(std::string_view text) {
  int value = 0;
  const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), value);
  const bool digits = std::all_of(text.begin(), text.end(), [](char c) { return c >= '0' && c <= '9'; });
  return digits && fault == std::errc() && end == text.data() + text.size() ? std::optional(value) : std::nullopt;
}

}  // namespace

CopyTime copy_time(const Instant& instant) {
  const std::chrono::milliseconds local(instant.utc_ms + instant.offset_minutes * ms_a_minute);
  return CopyTime(floor<std::chrono::seconds>(local));
}

std::string to_text(CopyTime time) {
  const local_days day = floor<days>(time);
  const year_month_day date(day);
  const std::chrono::hh_mm_ss hour(time - day);
  return fmt::format("{:04}-{:02}-{:02}-{:02}{:02}{:02}", int(date.year()), unsigned(date.month()), unsigned(date.day()),
                     hour.hours().count(), hour.minutes().count(), hour.seconds().count());
}

std::optional<CopyTime> parse_copy_time(std::string_view text) {
  if (text.size() != 17 || text[4] != '-' || text[7] != '-' || text[10] != '-') return std::nullopt;
  const auto year = number(text.substr(0, 4)), month = number(text.substr(5, 2)), day = number(text.substr(8, 2));
  const auto hour = number(text.substr(11, 2)), minute = number(text.substr(13, 2)), second = number(text.substr(15, 2));
  if (!year || !month || !day || !hour || !minute || !second || *hour > 23 || *minute > 59 || *second > 59) return std::nullopt;
  const year_month_day date{std::chrono::year(*year), std::chrono::month(unsigned(*month)), std::chrono::day(unsigned(*day))};
  if (!date.ok()) return std::nullopt;
  return local_days(date) + std::chrono::hours(*hour) + std::chrono::minutes(*minute) + std::chrono::seconds(*second);
}

std::vector<bool> kept_copies(const std::vector<CopyTime>& taken, const CopyRule& rule) {
  std::vector<bool> kept(taken.size(), false);
  std::vector<std::size_t> order(taken.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return taken[a] > taken[b]; });
  for (std::size_t place = 0; place < order.size(); ++place)
    if (int(place) < rule.of_newest_day && day_of(taken[order[place]]) == day_of(taken[order.front()])) kept[order[place]] = true;
  keep_newest_of(taken, order, rule.days, day_of, kept);
  keep_newest_of(taken, order, rule.weeks, week_of, kept);
  keep_newest_of(taken, order, rule.months, month_of, kept);
  return kept;
}

}  // namespace prillbook::upkeep
