// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assay/fineness.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace prillbook {
namespace {

constexpr std::array<std::pair<std::string_view, FinenessMethod>, 5> names{{{"parted", FinenessMethod::parted},
                                                                            {"density", FinenessMethod::density},
                                                                            {"touchstone", FinenessMethod::touchstone},
                                                                            {"colour", FinenessMethod::colour},
                                                                            {"stated", FinenessMethod::stated}}};

constexpr double permil(Fineness f) { return f.in(unit::permil); }

Contribution clipped_rectangle(double value, double low, double high) {
  return rectangle_part(UncertaintySource::fineness, std::max(low, 0.0) - value, std::min(high, 1000.0) - value);
}

Result<void> in_range(const FinenessReading& reading) {
  const double value = permil(reading.value);
  if (!(value >= 0 && value <= 1000))
    return Error{ErrorCode::out_of_range, "fineness_permil", "a fineness lies between 0 and 1000 permil", {}};
  if (reading.u && !(permil(*reading.u) >= 0))
    return Error{ErrorCode::out_of_range, "u_fineness_permil", "a standard uncertainty is not below 0", {}};
  if (reading.class_low.has_value() != reading.class_high.has_value() ||
      (reading.class_low && !(*reading.class_low <= reading.value && reading.value <= *reading.class_high)))
    return Error{ErrorCode::out_of_range, "fineness_permil", "the fineness lies outside its class", {}};
  return {};
}

}  // namespace

std::string_view method_name(FinenessMethod method) {
  for (const auto& [name, value] : names)
    if (value == method) return name;
  return "";
}

std::optional<FinenessMethod> find_fineness_method(std::string_view name) {
  for (const auto& [known, value] : names)
    if (known == name) return value;
  return std::nullopt;
}

FinenessReading white_bead() {
  FinenessReading reading;
  reading.value = white_limit / 2;
  reading.method = FinenessMethod::colour;
  reading.class_low = Fineness(0, unit::permil);
  reading.class_high = white_limit;
  return reading;
}

Result<std::optional<Contribution>> fineness_part(const FinenessReading& reading, bool holds_collector) {
  using enum FinenessMethod;
  PRILLBOOK_TRY(in_range(reading));
  if (holds_collector && (reading.method == density || reading.method == touchstone || reading.method == colour))
    return Error{ErrorCode::conflict, "fineness_method", "the bead holds collector silver, so only parting tells its gold", {}};
  const double value = permil(reading.value);
  if (reading.u) return std::optional(normal_part(UncertaintySource::fineness, permil(*reading.u)));
  if (reading.class_low) return std::optional(clipped_rectangle(value, permil(*reading.class_low), permil(*reading.class_high)));
  if (!reading.method) return std::optional<Contribution>{};
  switch (*reading.method) {
    case parted: return std::optional<Contribution>{};
    case touchstone:
      return std::optional(
          clipped_rectangle(value, value - permil(touchstone_half_width), value + permil(touchstone_half_width)));
    case colour:
      return std::optional(clipped_rectangle(value, value - permil(colour_half_width), value + permil(colour_half_width)));
    case density:
    case stated: break;
  }
  return Error{ErrorCode::missing_key, "u_fineness_permil", "this method needs its uncertainty given", {}};
}

}  // namespace prillbook
