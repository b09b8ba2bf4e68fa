// SPDX-License-Identifier: GPL-3.0-or-later
// Fields of control materials and of decisions on runs; see core/history/fields.h.
#pragma once

#include <array>

#include "core/history/catalogue.h"

namespace prillbook::history::fields {

namespace control_material {
inline constexpr Entity self = Entity::control_material;
inline constexpr std::array<std::string_view, 3> kinds{"reference", "blank_rock", "blank_flux"};
inline constexpr std::array<std::string_view, 2> origins{"bought", "own"};
inline constexpr std::array<std::string_view, 3> meanings{"standard", "expanded", "limits"};
inline constexpr Field struck{self, 1, "struck", FieldKind::flag, struck_meaning};
inline constexpr Field name{self, 2, "name", FieldKind::text, "what its label says", true};
inline constexpr Field kind{
    self, 3, "kind", FieldKind::choice, "rock of known grade, barren rock, or flux alone", true, std::nullopt, kinds};
inline constexpr Field origin{
    self, 4, "origin", FieldKind::choice, "bought with a certificate, or made by the lab", false, std::nullopt, origins};
inline constexpr Field stock{self,
                             5,
                             "stock_id",
                             FieldKind::reference,
                             "the sample that its stock is kept as: portions are weighed from it",
                             true,
                             Entity::sample};
inline constexpr Field gold{self,         6,  "gold",        FieldKind::reading, "certified or assigned gold", false,
                            std::nullopt, {}, Measure::grade};
inline constexpr Field gold_u{self,         7,  "gold_u",      FieldKind::reading, "uncertainty of that, as stated", false,
                              std::nullopt, {}, Measure::grade};
inline constexpr Field silver{self,         8,  "silver",      FieldKind::reading, "certified or assigned silver", false,
                              std::nullopt, {}, Measure::grade};
inline constexpr Field silver_u{self,         9,  "silver_u",    FieldKind::reading, "uncertainty of that, as stated", false,
                                std::nullopt, {}, Measure::grade};
inline constexpr Field u_meaning{self,
                                 10,
                                 "u_meaning",
                                 FieldKind::choice,
                                 "what the stated uncertainties are: standard (k = 1), expanded (k = 2), or limits either side",
                                 false,
                                 std::nullopt,
                                 meanings};
inline constexpr Field gold_sd{self,
                               11,
                               "gold_sd",
                               FieldKind::reading,
                               "standard deviation of single charges that the control chart is drawn with",
                               false,
                               std::nullopt,
                               {},
                               Measure::grade};
inline constexpr Field certificate{self, 12, "certificate", FieldKind::text, "who vouches for the values, and how"};
inline constexpr Field used_up_at{self, 13, "used_up_at", FieldKind::instant, "from when there is none left"};
inline constexpr Field remarks{self, 14, "remarks", FieldKind::text, "anything else"};
inline constexpr std::array all{&struck, &name,     &kind,      &origin,  &stock,       &gold,       &gold_u,
                                &silver, &silver_u, &u_meaning, &gold_sd, &certificate, &used_up_at, &remarks};
}  // namespace control_material

namespace run_decision {
inline constexpr Entity self = Entity::run_decision;
inline constexpr std::array<std::string_view, 3> decisions{"accepted", "held", "repeated"};
inline constexpr Field struck{self, 1, "struck", FieldKind::flag, struck_meaning};
inline constexpr Field run{self, 2, "run_id", FieldKind::reference, "the run", true, Entity::furnace_run};
inline constexpr Field decision{self,         3,        "decision", FieldKind::choice, "what was decided of its results", true,
                                std::nullopt, decisions};
inline constexpr Field reason{self, 4, "reason", FieldKind::text, "why"};
inline constexpr Field evidence{self, 5, "evidence", FieldKind::text, "hash of what its controls said at that time"};
inline constexpr Field decided_at{self, 6, "decided_at", FieldKind::instant, "when", true};
inline constexpr Field decided_by{self, 7, "decided_by_id", FieldKind::reference, "who decided", false, Entity::person};
inline constexpr std::array all{&struck, &run, &decision, &reason, &evidence, &decided_at, &decided_by};
}  // namespace run_decision

}  // namespace prillbook::history::fields
