// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/units/units.h"

#include <algorithm>
#include <array>
#include <string>

#include "core/base/text.h"

namespace prillbook {
namespace {

template <class D>
struct Named {
  std::string_view name;
  const Unit<D>* unit;
};

template <class D, std::size_t N>
const Unit<D>* find(const std::array<Named<D>, N>& names, std::string_view symbol) {
  const auto named = [&](std::string_view name) {
    return std::find_if(names.begin(), names.end(), [&](const Named<D>& one) { return one.name == name; });
  };
  auto found = named(symbol);
  if (found == names.end()) found = named(lower_ascii(symbol));
  return found == names.end() ? nullptr : found->unit;
}

// A bare "oz" or "ton" is left out on purpose: ounces are troy or avoirdupois, tons long, short or metric.
constexpr std::array<Named<MassDimension>, 22> mass_names{
    {{"ug", &unit::microgram},     {"µg", &unit::microgram},    {"μg", &unit::microgram},
     {"mcg", &unit::microgram},    {"mg", &unit::milligram},    {"g", &unit::gram},
     {"gm", &unit::gram},          {"kg", &unit::kilogram},     {"kilo", &unit::kilogram},
     {"t", &unit::tonne},          {"tonne", &unit::tonne},     {"ct", &unit::carat},
     {"gr", &unit::grain},         {"grain", &unit::grain},     {"dwt", &unit::pennyweight},
     {"ozt", &unit::troy_ounce},   {"oz t", &unit::troy_ounce}, {"troy oz", &unit::troy_ounce},
     {"lb", &unit::pound},         {"lbs", &unit::pound},       {"short ton", &unit::short_ton},
     {"long ton", &unit::long_ton}}};

constexpr std::array<Named<FinenessDimension>, 7> fineness_names{{{"‰", &unit::permil},
                                                                  {"permil", &unit::permil},
                                                                  {"fine", &unit::permil},
                                                                  {"%", &unit::percent_fine},
                                                                  {"pct", &unit::percent_fine},
                                                                  {"kt", &unit::karat},
                                                                  {"karat", &unit::karat}}};

constexpr std::array<Named<OpeningDimension>, 6> opening_names{{{"um", &unit::micrometre},
                                                                {"µm", &unit::micrometre},
                                                                {"μm", &unit::micrometre},
                                                                {"micron", &unit::micrometre},
                                                                {"microns", &unit::micrometre},
                                                                {"mm", &unit::millimetre}}};

constexpr std::array<Named<GradeDimension>, 8> grade_names{{{"g_t", &unit::gram_per_tonne},
                                                            {"ppm", &unit::ppm},
                                                            {"mg_kg", &unit::milligram_per_kilogram},
                                                            {"ozt_st", &unit::ounce_per_short_ton},
                                                            {"ozt_lt", &unit::ounce_per_long_ton},
                                                            {"pct", &unit::percent_of_mass},
                                                            {"dwt_st", &unit::pennyweight_per_short_ton},
                                                            {"dwt_lt", &unit::pennyweight_per_long_ton}}};

}  // namespace

const Unit<MassDimension>* find_mass_unit(std::string_view symbol) { return find(mass_names, symbol); }
const Unit<FinenessDimension>* find_fineness_unit(std::string_view symbol) { return find(fineness_names, symbol); }
const Unit<OpeningDimension>* find_opening_unit(std::string_view symbol) { return find(opening_names, symbol); }

const Unit<GradeDimension>* find_grade_unit(std::string_view contract_name) {
  const auto found = std::find_if(grade_names.begin(), grade_names.end(),
                                  [&](const Named<GradeDimension>& named) { return named.name == contract_name; });
  return found == grade_names.end() ? nullptr : found->unit;
}

}  // namespace prillbook
