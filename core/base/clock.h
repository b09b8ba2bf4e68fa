// SPDX-License-Identifier: GPL-3.0-or-later
// Time is passed in, never read in core: UTC in milliseconds with the local offset kept beside it.
#pragma once

#include <compare>
#include <cstdint>
#include <string>
#include <string_view>

#include "core/base/result.h"

namespace prillbook {

struct Instant {
  std::int64_t utc_ms = 0;          // milliseconds since 1970-01-01T00:00:00Z
  std::int32_t offset_minutes = 0;  // local time minus UTC, -14 h to +14 h

  friend bool operator==(const Instant&, const Instant&) = default;
};

// "2026-05-04T09:30:00.000+02:00": local time and its offset. Years 0000 to 9999.
std::string to_iso(const Instant& instant);
// Reads what to_iso writes; seconds and fraction may be absent, "Z" is offset 0.
Result<Instant> parse_iso(std::string_view text);
// "2026-05-04" and "09:30" in the instant's own local time.
std::string local_date(const Instant& instant);
std::string local_time(const Instant& instant);

class Clock {
 public:
  virtual ~Clock() = default;
  virtual Instant now() = 0;
};

// The machine's clock and time zone.
class SystemClock : public Clock {
 public:
  Instant now() override;
};

// Starts at a given instant and moves a fixed step at each call: demo, batch load, tests.
class SteppingClock : public Clock {
 public:
  explicit SteppingClock(Instant start, std::int64_t step_ms = 1000) : next_(start), step_ms_(step_ms) {}
  Instant now() override;
  void set(Instant instant) { next_ = instant; }

 private:
  Instant next_;
  std::int64_t step_ms_;
};

}  // namespace prillbook
