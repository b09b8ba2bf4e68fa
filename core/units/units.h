// SPDX-License-Identifier: GPL-3.0-or-later
// The units the trade uses, with their exact definitions, and look-up by the symbol a person types.
// Source of the factors: NIST SP 811 (2008) appendix B.8; the grain is 64.79891 mg exactly.
#pragma once

#include <optional>
#include <span>
#include <string_view>

#include "core/units/quantity.h"

namespace prillbook {

namespace unit {

inline constexpr Unit<MassDimension> microgram{{1, 1'000'000}, "µg"};
inline constexpr Unit<MassDimension> milligram{{1, 1000}, "mg"};
inline constexpr Unit<MassDimension> gram{{1, 1}, "g"};
inline constexpr Unit<MassDimension> kilogram{{1000, 1}, "kg"};
inline constexpr Unit<MassDimension> tonne{{1'000'000, 1}, "t"};
inline constexpr Unit<MassDimension> carat{{1, 5}, "ct"};
inline constexpr Unit<MassDimension> grain{{6'479'891, 100'000'000}, "gr"};
inline constexpr Unit<MassDimension> pennyweight{{155'517'384, 100'000'000}, "dwt"};
inline constexpr Unit<MassDimension> troy_ounce{{311'034'768, 10'000'000}, "ozt"};
inline constexpr Unit<MassDimension> pound{{45'359'237, 100'000}, "lb"};
inline constexpr Unit<MassDimension> short_ton{{90'718'474, 100}, "short ton"};
inline constexpr Unit<MassDimension> long_ton{{10'160'469'088, 10'000}, "long ton"};

inline constexpr Unit<GradeDimension> gram_per_tonne{{1, 1}, "g/t"};
inline constexpr Unit<GradeDimension> ppm{{1, 1}, "ppm"};
inline constexpr Unit<GradeDimension> milligram_per_kilogram{{1, 1}, "mg/kg"};
inline constexpr Unit<GradeDimension> milligram_in_hundred_gram{{10, 1}, "mg/100 g"};
inline constexpr Unit<GradeDimension> ounce_per_short_ton{{240, 7}, "ozt/short ton"};
inline constexpr Unit<GradeDimension> ounce_per_long_ton{{1500, 49}, "ozt/long ton"};
inline constexpr Unit<GradeDimension> pennyweight_per_short_ton{{12, 7}, "dwt/short ton"};
inline constexpr Unit<GradeDimension> pennyweight_per_long_ton{{75, 49}, "dwt/long ton"};
inline constexpr Unit<GradeDimension> percent_of_mass{{10'000, 1}, "%"};

inline constexpr Unit<FinenessDimension> permil{{1, 1}, "‰"};
inline constexpr Unit<FinenessDimension> percent_fine{{10, 1}, "%"};
inline constexpr Unit<FinenessDimension> karat{{125, 3}, "kt"};

inline constexpr Unit<OpeningDimension> micrometre{{1, 1}, "µm"};
inline constexpr Unit<OpeningDimension> millimetre{{1000, 1}, "mm"};
inline constexpr Unit<OpeningDimension> centimetre{{10'000, 1}, "cm"};

inline constexpr Unit<DensityDimension> gram_per_cubic_centimetre{{1, 1}, "g/cm³"};

inline constexpr Unit<ShareDimension> percent{{1, 1}, "%"};

}  // namespace unit

// The unit a person means by `symbol`, without regard to case where that is unambiguous ("MG", "Kg", "ug", "um");
// nullptr where the symbol names no unit of this dimension.
const Unit<MassDimension>* find_mass_unit(std::string_view symbol);
const Unit<FinenessDimension>* find_fineness_unit(std::string_view symbol);
const Unit<OpeningDimension>* find_opening_unit(std::string_view symbol);

// Grade units by the names of the batch contract: g_t, ppm, mg_kg, ozt_st, ozt_lt, pct, dwt_st, dwt_lt.
const Unit<GradeDimension>* find_grade_unit(std::string_view contract_name);

// `value` in unit `from`, expressed in unit `to`: one multiplication and one division by exact integers.
template <class D>
constexpr double convert(double value, const Unit<D>& from, const Unit<D>& to) {
  return scaled(value, from.in_base / to.in_base);
}

// Metal in a portion. Domain: portion > 0.
constexpr Grade grade(Mass metal, Mass portion) { return Grade(metal / portion * 1e6, unit::gram_per_tonne); }

}  // namespace prillbook
