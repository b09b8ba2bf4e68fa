// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/balance_line/steady.h"

#include <cmath>

#include "core/base/number.h"

namespace prillbook::balance_line {
namespace {

constexpr double steps_of_rest = 3;  // an empty balance wanders by so many of its last digits: common practice, no source

// One of the last digit shown, in g. Domain: `grams` is the mass of the figure.
double last_digit(const std::string& typed, double grams) {
  std::string digits;
  int decimals = 0;
  bool behind = false;
  for (const char c : typed) {
    if (c >= '0' && c <= '9') {
      digits += c;
      decimals += behind ? 1 : 0;
    } else if (c == '.' || c == ',') {
      behind = true;
    } else if (!digits.empty()) {
      break;
    }
  }
  double number = 0;
  for (const char c : digits) number = 10 * number + (c - '0');
  number *= std::pow(10, -decimals);
  return number > 0 ? std::pow(10, -decimals) * std::abs(grams) / number : 0;
}

}  // namespace

void SteadyReadings::set_rest(double grams) {
  if (grams == rest_g_) return;
  rest_g_ = grams;
  seen_empty_ = used_ = false;
}

void SteadyReadings::see(const Figure& figure, std::optional<double> grams) {
  const bool still = figure.stability == Stability::stable && grams;
  equal_ = !still ? 0 : figure.typed == typed_ ? equal_ + 1 : 1;
  typed_ = still ? figure.typed : std::string();
  if (!grams) return;
  last_g_ = *grams;
  at_rest_ = std::abs(last_g_ - rest_g_) <= steps_of_rest * last_digit(figure.typed, last_g_) || last_g_ < rest_g_;
  // Half of what lay there is gone: it was taken off, though the balance never stood at rest.
  const bool taken_off = used_ && std::abs(last_g_ - rest_g_) <= std::abs(taken_g_ - rest_g_) / 2;
  if (!at_rest_ && !taken_off) return;
  used_ = false;
  seen_empty_ = true;
}

void SteadyReadings::taken() {
  taken_g_ = last_g_;
  used_ = true;
  seen_empty_ = false;
}

}  // namespace prillbook::balance_line
