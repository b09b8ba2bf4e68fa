// SPDX-License-Identifier: GPL-3.0-or-later
// Which copies of a notebook are kept: many young ones, few old ones. Each copy stands for its day, its week and its
// month; the newest of each stays.
#pragma once

#include <chrono>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/clock.h"

namespace prillbook::upkeep {

// The hour on the wall when a copy was made; its name tells it, so no clock or time zone of a file system is asked.
using CopyTime = std::chrono::local_seconds;

CopyTime copy_time(const Instant& instant);
// "2026-05-04-093015". Nothing for a text that is no such time.
std::string to_text(CopyTime time);
std::optional<CopyTime> parse_copy_time(std::string_view text);

struct CopyRule {
  int of_newest_day = 6;
  int days = 7;     // one of each
  int weeks = 5;    // Monday to Sunday
  int months = 12;  // of the calendar
};

// Whether each of `taken` is kept, in their order. Days, weeks and months without a copy don't count, so that a lab that
// was shut for a month loses none of its old copies. A copy dated wrongly into the future stands for one day, week and month.
std::vector<bool> kept_copies(const std::vector<CopyTime>& taken, const CopyRule& rule = {});

}  // namespace prillbook::upkeep
