// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/weighing/agreement.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "core/readings/last_place.h"
#include "core/units/units.h"

namespace prillbook::weighing {
namespace {

// The step of the balance, or the last digit of the finest figure where that is coarser: zeros at the end are seldom typed.
Mass step_of(std::span<const readings::Reading> repeats) {
  double step = 0, finest = repeats.front().value;
  for (const readings::Reading& one : repeats) {
    step = std::max(step, one.step_g.value_or(0));
    finest = std::min(finest, readings::last_place(one).value_or(finest));
  }
  return Mass(std::max(step, finest), unit::gram);
}

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

Mass largest_spread(std::size_t n, Mass sd) { return sd * (2 * critical_range_factor(n)); }

std::optional<Disagreement> disagreement(std::span<const readings::Reading> repeats, std::optional<Mass> repeat_sd, bool tared) {
  if (repeats.size() < 2) return std::nullopt;
  const auto [least, most] =
      std::minmax_element(repeats.begin(), repeats.end(), [](const auto& a, const auto& b) { return a.value < b.value; });
  const Mass range = most->mass() - least->mass();
  if (range <= most->mass() * spread_let_pass) return std::nullopt;
  const Mass sd = std::max(repeat_sd.value_or(Mass()), step_of(repeats));
  const Mass allowed = largest_spread(repeats.size(), tared ? sd * std::sqrt(2.0) : sd);
  if (range <= allowed * (1 + 1e-9)) return std::nullopt;
  return Disagreement{range, allowed};
}

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
