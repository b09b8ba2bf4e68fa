// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/clock.h"

#include <fmt/format.h>

#include <chrono>
#include <ctime>
#include <optional>

namespace prillbook {
namespace {

using std::chrono::days;
using std::chrono::milliseconds;
using std::chrono::sys_days;
using std::chrono::sys_time;

struct Civil {
  int year, month, day, hour, minute, second, millisecond;
};

Civil civil_of(const Instant& instant) {
  const sys_time<milliseconds> local{milliseconds{instant.utc_ms + std::int64_t{instant.offset_minutes} * 60'000}};
  const auto day = std::chrono::floor<days>(local);
  const std::chrono::year_month_day date{day};
  const std::chrono::hh_mm_ss time{local - day};
  return {int(date.year()),
          int(unsigned(date.month())),
          int(unsigned(date.day())),
          int(time.hours().count()),
          int(time.minutes().count()),
          int(time.seconds().count()),
          int(time.subseconds().count())};
}

// Fixed-width digits at `at`; nullopt where they are not all digits.
std::optional<int> digits(std::string_view text, std::size_t at, std::size_t count) {
  if (text.size() < at + count) return std::nullopt;
  int value = 0;
  for (const char c : text.substr(at, count)) {
    if (c < '0' || c > '9') return std::nullopt;
    value = 10 * value + (c - '0');
  }
  return value;
}

std::optional<int> parse_offset(std::string_view text) {
  if (text == "Z") return 0;
  if (text.size() != 6 || (text[0] != '+' && text[0] != '-') || text[3] != ':') return std::nullopt;
  const auto hours = digits(text, 1, 2), minutes = digits(text, 4, 2);
  if (!hours || !minutes || *hours > 14 || *minutes > 59) return std::nullopt;
  const int offset = *hours * 60 + *minutes;
  return text[0] == '-' ? -offset : offset;
}

Error not_a_time(std::string_view text) {
  return {ErrorCode::out_of_range,
          "",
          fmt::format("'{}' is no date and time like 2026-05-04T09:30+02:00", text),
          {std::string(text)}};
}

}  // namespace

std::string to_iso(const Instant& instant) {
  const Civil c = civil_of(instant);
  const int offset = instant.offset_minutes < 0 ? -instant.offset_minutes : instant.offset_minutes;
  return fmt::format("{:04}-{:02}-{:02}T{:02}:{:02}:{:02}.{:03}{}{:02}:{:02}", c.year, c.month, c.day, c.hour, c.minute, c.second,
                     c.millisecond, instant.offset_minutes < 0 ? '-' : '+', offset / 60, offset % 60);
}

Result<Instant> parse_iso(std::string_view text) {
  const auto year = digits(text, 0, 4), month = digits(text, 5, 2), day = digits(text, 8, 2);
  const auto hour = digits(text, 11, 2), minute = digits(text, 14, 2);
  if (!year || !month || !day || !hour || !minute) return not_a_time(text);
  if (text[4] != '-' || text[7] != '-' || (text[10] != 'T' && text[10] != ' ') || text[13] != ':') return not_a_time(text);
  std::size_t at = 16;
  int second = 0, millisecond = 0;
  if (text.size() > at && text[at] == ':') {
    const auto seconds = digits(text, at + 1, 2);
    if (!seconds) return not_a_time(text);
    second = *seconds;
    at += 3;
    if (text.size() > at && text[at] == '.') {
      const auto fraction = digits(text, at + 1, 3);
      if (!fraction) return not_a_time(text);
      millisecond = *fraction;
      at += 4;
    }
  }
  const auto offset = parse_offset(text.substr(at));
  const std::chrono::year_month_day date{std::chrono::year{*year}, std::chrono::month{unsigned(*month)},
                                         std::chrono::day{unsigned(*day)}};
  if (!offset || !date.ok() || *hour > 23 || *minute > 59 || second > 59) return not_a_time(text);
  const auto local = sys_days{date}.time_since_epoch() + std::chrono::hours{*hour} + std::chrono::minutes{*minute} +
                     std::chrono::seconds{second} + milliseconds{millisecond};
  return Instant{std::chrono::duration_cast<milliseconds>(local).count() - std::int64_t{*offset} * 60'000, *offset};
}

std::string local_date(const Instant& instant) {
  const Civil c = civil_of(instant);
  return fmt::format("{:04}-{:02}-{:02}", c.year, c.month, c.day);
}

std::string local_time(const Instant& instant) { return to_iso(instant).substr(11, 5); }

Instant SystemClock::now() {
  const auto now = std::chrono::system_clock::now();
  const std::time_t seconds = std::chrono::system_clock::to_time_t(now);
  std::tm local{};
  localtime_r(&seconds, &local);
  return {std::chrono::duration_cast<milliseconds>(now.time_since_epoch()).count(), std::int32_t(local.tm_gmtoff / 60)};
}

Instant SteppingClock::now() {
  const Instant result = next_;
  next_.utc_ms += step_ms_;
  return result;
}

}  // namespace prillbook
