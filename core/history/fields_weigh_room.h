// SPDX-License-Identifier: GPL-3.0-or-later
// Fields of trays and of the checks of balances; see core/history/fields.h.
#pragma once

#include <array>

#include "core/history/catalogue.h"

namespace prillbook::history::fields {

namespace tray {
inline constexpr Entity self = Entity::tray;
inline constexpr std::array<std::string_view, 4> kinds{"crucible", "mould", "cupel", "bead"};
inline constexpr Field struck{self, 1, "struck", FieldKind::flag, struck_meaning};
inline constexpr Field name{self, 2, "name", FieldKind::text, "what the lab calls it", true};
inline constexpr Field kind{self, 3, "kind", FieldKind::choice, "what stands on it", true, std::nullopt, kinds};
inline constexpr Field rows{self, 4, "rows", FieldKind::whole, "rows of the grid, from 1; 1: a numbered row", true};
inline constexpr Field columns{self, 5, "columns", FieldKind::whole, "positions of a row, from 1", true};
inline constexpr Field made_at{self, 6, "made_at", FieldKind::instant, "when it was laid out"};
inline constexpr Field put_away_at{self, 7, "put_away_at", FieldKind::instant, "when it was done with; absent: in use"};
inline constexpr Field remarks{self, 8, "remarks", FieldKind::text, "anything else"};
inline constexpr Field run{self, 72, "run_id", FieldKind::reference, "the run that took it", false, Entity::furnace_run};
inline constexpr std::array all{&struck, &name, &kind, &rows, &columns, &made_at, &put_away_at, &remarks, &run};
}  // namespace tray

namespace tray_place {
inline constexpr Entity self = Entity::tray_place;
inline constexpr Field struck{self, 1, "struck", FieldKind::flag, struck_meaning};
inline constexpr Field tray{self, 2, "tray_id", FieldKind::reference, "the tray", true, Entity::tray};
inline constexpr Field position{self, 3, "position", FieldKind::whole, "number of the position, from 1, row by row", true};
inline constexpr Field charge{self, 4, "charge_id", FieldKind::reference, "the charge that stands there", false, Entity::charge};
inline constexpr Field bead{self, 5, "bead_id", FieldKind::reference, "or the bead of a pan test", false, Entity::bead};
inline constexpr Field control{self, 6, "control", FieldKind::text, "or a control, in words"};
inline constexpr std::array all{&struck, &tray, &position, &charge, &bead, &control};
}  // namespace tray_place

namespace check_weight {
inline constexpr Entity self = Entity::check_weight;
inline constexpr Field struck{self, 1, "struck", FieldKind::flag, struck_meaning};
inline constexpr Field name{self, 2, "name", FieldKind::text, "what the lab calls it", true};
inline constexpr Field nominal{self,         3,  "nominal",    FieldKind::reading, "its mass, as its certificate says", true,
                               std::nullopt, {}, Measure::mass};
inline constexpr Field allowed{self,         4,  "allowed",    FieldKind::reading, "largest deviation that is let pass", true,
                               std::nullopt, {}, Measure::mass};
inline constexpr Field remarks{self, 5, "remarks", FieldKind::text, "anything else"};
inline constexpr std::array all{&struck, &name, &nominal, &allowed, &remarks};
}  // namespace check_weight

namespace check_weighing {
inline constexpr Entity self = Entity::check_weighing;
inline constexpr Field struck{self, 1, "struck", FieldKind::flag, struck_meaning};
inline constexpr Field balance{self, 2, "balance_id", FieldKind::reference, "the balance", true, Entity::balance};
inline constexpr Field weight{self, 3, "check_weight_id", FieldKind::reference, "the weight", true, Entity::check_weight};
inline constexpr Field mass{self,         4,  "mass",       FieldKind::reading, "what the balance showed", true,
                            std::nullopt, {}, Measure::mass};
inline constexpr Field nominal{self,         5,  "nominal",    FieldKind::reading, "mass of the weight at that time", true,
                               std::nullopt, {}, Measure::mass};
inline constexpr Field allowed{
    self, 6, "allowed", FieldKind::reading, "deviation that was let pass at that time", true, std::nullopt, {}, Measure::mass};
inline constexpr Field weighed_at{self, 7, "weighed_at", FieldKind::instant, "when it was weighed", true};
inline constexpr Field weighed_by{self, 8, "weighed_by_id", FieldKind::reference, "who weighed", false, Entity::person};
inline constexpr Field raw{self, 9, "raw", FieldKind::text, "the line that the balance sent, where it sent one"};
inline constexpr Field excluded{self, 10, "excluded", FieldKind::text, "why it does not count; empty: it counts"};
inline constexpr Field remarks{self, 11, "remarks", FieldKind::text, "anything else"};
inline constexpr std::array all{&struck,     &balance,    &weight, &mass,     &nominal, &allowed,
                                &weighed_at, &weighed_by, &raw,    &excluded, &remarks};
}  // namespace check_weighing

}  // namespace prillbook::history::fields
