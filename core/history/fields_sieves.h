// SPDX-License-Identifier: GPL-3.0-or-later
// Fields of sieves and what was sieved; see core/history/fields.h.
#pragma once

#include <array>

#include "core/history/catalogue.h"

namespace prillbook::history::fields {

namespace sieve {
inline constexpr Entity self = Entity::sieve;
inline constexpr std::array<std::string_view, 3> all_series{"astm_e11", "iso_3310_1", "tyler"};
inline constexpr Field struck{self, 1, "struck", FieldKind::flag, struck_meaning};
inline constexpr Field name{self, 2, "name", FieldKind::text, "number or opening as its rim says: 200, 75 µm", true};
inline constexpr Field series{
    self,         3,         "series", FieldKind::choice, "series of the sieve; never absent beside a mesh number", false,
    std::nullopt, all_series};
inline constexpr Field opening{self,         4,  "opening",       FieldKind::reading, "nominal opening", true,
                               std::nullopt, {}, Measure::opening};
inline constexpr Field diameter{self,         5,  "diameter",      FieldKind::reading, "diameter of the frame", false,
                                std::nullopt, {}, Measure::opening};
inline constexpr Field inspect_by{self, 6, "inspect_by", FieldKind::instant, "when the cloth is next due to be inspected"};
inline constexpr Field remarks{self, 7, "remarks", FieldKind::text, "anything else"};
inline constexpr std::array all{&struck, &name, &series, &opening, &diameter, &inspect_by, &remarks};
}  // namespace sieve

namespace sieve_stack {
inline constexpr Entity self = Entity::sieve_stack;
inline constexpr Field struck{self, 1, "struck", FieldKind::flag, struck_meaning};
inline constexpr Field name{self, 2, "name", FieldKind::text, "what the lab calls it", true};
inline constexpr Field remarks{self, 3, "remarks", FieldKind::text, "anything else"};
inline constexpr std::array all{&struck, &name, &remarks};
}  // namespace sieve_stack

namespace stack_sieve {
inline constexpr Entity self = Entity::stack_sieve;
inline constexpr Field struck{self, 1, "struck", FieldKind::flag, struck_meaning};
inline constexpr Field stack{self, 2, "stack_id", FieldKind::reference, "the stack", true, Entity::sieve_stack};
inline constexpr Field sieve{self, 3, "sieve_id", FieldKind::reference, "the sieve", true, Entity::sieve};
inline constexpr std::array all{&struck, &stack, &sieve};
}  // namespace stack_sieve

namespace sieve_analysis {
inline constexpr Entity self = Entity::sieve_analysis;
inline constexpr std::array<std::string_view, 2> methods{"dry", "wet"};
inline constexpr Field struck{self, 1, "struck", FieldKind::flag, struck_meaning};
inline constexpr Field portion{self, 2, "portion_id", FieldKind::reference, "the portion sieved", true, Entity::portion};
inline constexpr Field stack{self, 3, "stack_id", FieldKind::reference, "the stack taken", false, Entity::sieve_stack};
inline constexpr Field sieved_at{self, 4, "sieved_at", FieldKind::instant, "when it was sieved"};
inline constexpr Field sieved_by{self, 5, "sieved_by_id", FieldKind::reference, "who sieved", false, Entity::person};
inline constexpr Field method{self, 6, "method", FieldKind::choice, "dry or wet", false, std::nullopt, methods};
inline constexpr Field minutes{self, 7, "minutes", FieldKind::whole, "minutes of sieving"};
inline constexpr Field balance{self, 8, "balance_id", FieldKind::reference, "the balance", false, Entity::balance};
inline constexpr Field spoiled{self, 9, "spoiled", FieldKind::text, "why the analysis is lost; empty: it is not"};
inline constexpr Field remarks{self, 10, "remarks", FieldKind::text, "anything else"};
inline constexpr std::array all{&struck, &portion, &stack,   &sieved_at, &sieved_by,
                                &method, &minutes, &balance, &spoiled,   &remarks};
}  // namespace sieve_analysis

namespace sieve_cut {
inline constexpr Entity self = Entity::sieve_cut;
inline constexpr Field struck{self, 1, "struck", FieldKind::flag, struck_meaning};
inline constexpr Field analysis{self, 2, "analysis_id", FieldKind::reference, "the analysis", true, Entity::sieve_analysis};
inline constexpr Field sieve{self, 3, "sieve_id", FieldKind::reference, "the sieve; none: the pan", false, Entity::sieve};
inline constexpr Field name{self, 4, "name", FieldKind::text, "number or opening of the sieve at that time"};
inline constexpr Field series{
    self, 5, "series", FieldKind::choice, "series of the sieve at that time", false, std::nullopt, sieve::all_series};
inline constexpr Field opening{
    self,         6,  "opening",       FieldKind::reading, "its opening at that time; absent: the pan", false,
    std::nullopt, {}, Measure::opening};
inline constexpr Field diameter{self,         7,  "diameter",      FieldKind::reading, "its diameter at that time", false,
                                std::nullopt, {}, Measure::opening};
inline constexpr Field retained{self,         8,  "retained",   FieldKind::reading, "what lay on it, or in the pan", false,
                                std::nullopt, {}, Measure::mass};
inline constexpr Field fraction{
    self, 9, "fraction_id", FieldKind::reference, "the portion made of it, to be assayed", false, Entity::portion};
inline constexpr std::array all{&struck, &analysis, &sieve, &name, &series, &opening, &diameter, &retained, &fraction};
}  // namespace sieve_cut

}  // namespace prillbook::history::fields
