// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/readings/last_place.h"

#include <cmath>

namespace prillbook::readings {

std::optional<double> last_place(const Reading& reading) {
  std::string_view text = trimmed(reading.typed);
  if (text.starts_with('<')) text.remove_prefix(1);
  const auto number = parse_number(trimmed(text), reading.mark);
  if (!number.ok() || number->value == 0 || reading.value == 0) return std::nullopt;
  const std::size_t point = number->digits.find('.');
  const double decimals = point == std::string::npos ? 0 : static_cast<double>(number->digits.size() - point - 1);
  return std::pow(10.0, -decimals) * std::abs(reading.value / number->value);
}

}  // namespace prillbook::readings
