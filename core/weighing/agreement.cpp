// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/weighing/agreement.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "core/units/units.h"

namespace prillbook::weighing {
namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }

// The place of the digit behind `from`, over a decimal mark; the end of the text where another sign comes first.
std::size_t next_digit(const std::string& text, std::size_t from) {
  std::size_t next = from + 1;
  if (next < text.size() && (text[next] == '.' || text[next] == ',')) ++next;
  return next < text.size() && is_digit(text[next]) ? next : text.size();
}

bool is_near(const readings::Reading& one, std::span<const readings::Reading> others, Mass apart) {
  return std::all_of(others.begin(), others.end(),
                     [&](const readings::Reading& other) { return std::abs(one.value - other.value) <= apart.in(unit::gram); });
}

}  // namespace

double critical_range_factor(std::size_t n) {
  constexpr std::array<double, 9> factors{2.8, 3.3, 3.6, 3.9, 4.0, 4.2, 4.3, 4.4, 4.5};  // from n = 2
  constexpr double of_twenty = 5.0;
  return n < 2 ? factors.front() : n - 2 < factors.size() ? factors[n - 2] : of_twenty;
}

Mass largest_spread(std::size_t n, Mass sd) { return sd * (1.5 * critical_range_factor(n)); }

std::optional<std::string> with_digits_exchanged(const readings::Reading& one, std::span<const readings::Reading> others,
                                                 Mass apart) {
  for (std::size_t at = 0; at < one.typed.size(); ++at) {
    const std::size_t next = next_digit(one.typed, at);
    if (!is_digit(one.typed[at]) || next == one.typed.size() || one.typed[at] == one.typed[next]) continue;
    std::string exchanged = one.typed;
    std::swap(exchanged[at], exchanged[next]);
    const auto read = readings::parse(exchanged, {one.measure, one.unit, one.mark, true});
    if (read.ok() && is_near(*read, others, apart)) return exchanged;
  }
  return std::nullopt;
}

}  // namespace prillbook::weighing
