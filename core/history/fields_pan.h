// SPDX-License-Identifier: GPL-3.0-or-later
// Fields of pannings and of metallics; see core/history/fields.h.
#pragma once

#include <array>

#include "core/history/catalogue.h"

namespace prillbook::history::fields {

namespace panning {
inline constexpr Entity self = Entity::panning;
inline constexpr std::array<std::string_view, 3> kinds{"first", "repan", "clean_up"};
inline constexpr Field struck{self, 1, "struck", FieldKind::flag, struck_meaning};
inline constexpr Field pan_test{self, 2, "pan_test_id", FieldKind::reference, "the pan test", true, Entity::pan_test};
inline constexpr Field number{self, 3, "number", FieldKind::whole, "first, second … panning", true};
inline constexpr Field kind{
    self,         4,    "kind", FieldKind::choice, "first pan, re-pan of the tail, or clean-up of the concentrate", true,
    std::nullopt, kinds};
inline constexpr Field panned_at{self, 5, "panned_at", FieldKind::instant, "when"};
inline constexpr Field panned_by{self, 6, "panned_by_id", FieldKind::reference, "who panned", false, Entity::person};
inline constexpr Field concentrate{self,         7,  "concentrate", FieldKind::reading, "what it kept, weighed", false,
                                   std::nullopt, {}, Measure::mass};
inline constexpr Field remarks{self, 8, "remarks", FieldKind::text, "anything else"};
inline constexpr std::array all{&struck, &pan_test, &number, &kind, &panned_at, &panned_by, &concentrate, &remarks};
}  // namespace panning

namespace metallics {
inline constexpr Entity self = Entity::metallics;
inline constexpr Field struck{self, 1, "struck", FieldKind::flag, struck_meaning};
inline constexpr Field portion{self, 2, "portion_id", FieldKind::reference, "the portion screened", true, Entity::portion};
inline constexpr Field coarse{
    self, 3, "coarse_id", FieldKind::reference, "what stayed on the screen, assayed whole", true, Entity::portion};
inline constexpr Field fine{
    self, 4, "fine_id", FieldKind::reference, "what passed, assayed by portions cut from it", true, Entity::portion};
inline constexpr Field screen{self,         5,  "screen",        FieldKind::reading, "opening of the screen", false,
                              std::nullopt, {}, Measure::opening};
inline constexpr Field screened_at{self, 6, "screened_at", FieldKind::instant, "when"};
inline constexpr Field screened_by{self, 7, "screened_by_id", FieldKind::reference, "who screened", false, Entity::person};
inline constexpr Field remarks{self, 8, "remarks", FieldKind::text, "anything else"};
inline constexpr std::array all{&struck, &portion, &coarse, &fine, &screen, &screened_at, &screened_by, &remarks};
}  // namespace metallics

}  // namespace prillbook::history::fields
