// SPDX-License-Identifier: GPL-3.0-or-later
// How the fineness of a bead was got, and how far it may be trusted.
#pragma once

#include <optional>
#include <string_view>

#include "core/assay/interval.h"
#include "core/base/result.h"
#include "core/units/units.h"

namespace prillbook {

enum class FinenessMethod { parted, density, touchstone, colour, stated };

std::string_view method_name(FinenessMethod method);
std::optional<FinenessMethod> find_fineness_method(std::string_view name);

// Half widths of the rectangle where the method alone sets the uncertainty. Touchstone: a half to one karat between
// needles (Agricola, De Re Metallica VII). Colour: printed statements differ by this much (Beringer p. 100, 144; Rose p. 49).
inline constexpr Fineness touchstone_half_width{30, unit::permil};
inline constexpr Fineness colour_half_width{100, unit::permil};
// A white bead is one class: books put the last yellow anywhere up to here.
inline constexpr Fineness white_limit{550, unit::permil};

struct FinenessReading {
  Fineness value;                                 // 0 to 1000 permil
  std::optional<FinenessMethod> method;           // absent: taken as given, without an uncertainty of its own unless u is there
  std::optional<Fineness> u;                      // standard uncertainty, >= 0; goes before the method's own
  std::optional<Fineness> class_low, class_high;  // a class instead of a figure: both or neither
};

// The class of a white bead: 0 to 550 permil, middle 275.
FinenessReading white_bead();

// The part a fineness brings, in permil, clipped to 0-1000; nullopt where it brings none of its own: no method and no u,
// or parted, whose uncertainty is that of its two weighings.
// Errors: out_of_range (fineness_permil, u_fineness_permil); missing_key (u_fineness_permil: density, stated);
// conflict (fineness_method: density, touchstone or colour where `holds_collector`, since the silver added sets them).
Result<std::optional<Contribution>> fineness_part(const FinenessReading& reading, bool holds_collector);

}  // namespace prillbook
