// SPDX-License-Identifier: GPL-3.0-or-later
// Fields of a lot that is milled for its owner; see core/history/fields.h.
#pragma once

#include <array>

#include "core/history/catalogue.h"

namespace prillbook::history::fields::milling_lot {

inline constexpr Entity self = Entity::milling_lot;
constexpr Field read(std::int64_t code, std::string_view column, Measure measure, std::string_view meaning) {
  return {self, code, column, FieldKind::reading, meaning, false, std::nullopt, {}, measure};
}
inline constexpr Field struck{self, 1, "struck", FieldKind::flag, struck_meaning};
inline constexpr Field sample{self,          2, "sample_id", FieldKind::reference, "the sample that stands for its head", true,
                              Entity::sample};
inline constexpr Field milled_at{self, 3, "milled_at", FieldKind::instant, "when it was milled"};
inline constexpr Field milled_by{self, 4, "milled_by_id", FieldKind::reference, "who milled it", false, Entity::person};
inline constexpr Field mass = read(5, "mass", Measure::mass, "mass milled");
inline constexpr Field moisture = read(6, "moisture", Measure::share, "its moisture, wet basis; absent: milled dry");
inline constexpr Field head =
    read(7, "head", Measure::grade, "gold of the dry rock; absent: what fire assay found of the sample");
inline constexpr Field concentrate = read(8, "concentrate", Measure::mass, "dry concentrate that was kept and not smelted");
inline constexpr Field concentrate_gold = read(9, "concentrate_gold", Measure::grade, "gold of that concentrate");
inline constexpr Field sponge = read(10, "sponge", Measure::mass, "metal sponge after the mercury was driven off");
inline constexpr Field bullion = read(11, "bullion", Measure::mass, "bullion after melting");
inline constexpr Field bullion_fineness = read(12, "bullion_fineness", Measure::fineness, "gold in the bullion");
inline constexpr Field tail_gold = read(13, "tail_gold", Measure::grade, "gold of the dry tail");
inline constexpr Field owner_share = read(14, "owner_share", Measure::share, "of the gold in the bullion that is the owner's");
inline constexpr Field agreement{self, 15, "agreement", FieldKind::text, "what was agreed with the owner, in words"};
inline constexpr Field remarks{self, 16, "remarks", FieldKind::text, "anything else"};
inline constexpr std::array all{&struck,    &sample,      &milled_at,        &milled_by, &mass,    &moisture,
                                &head,      &concentrate, &concentrate_gold, &sponge,    &bullion, &bullion_fineness,
                                &tail_gold, &owner_share, &agreement,        &remarks};

}  // namespace prillbook::history::fields::milling_lot
