// SPDX-License-Identifier: GPL-3.0-or-later
// Fields of what the furnace needs and does; see core/history/fields.h.
#pragma once

#include <array>

#include "core/history/catalogue.h"

namespace prillbook::history::fields {

namespace lot {
inline constexpr Entity self = Entity::lot;
inline constexpr std::array<std::string_view, 3> kinds{"flux", "litharge", "lead"};
inline constexpr Field struck{self, 1, "struck", FieldKind::flag, struck_meaning};
inline constexpr Field name{self, 2, "name", FieldKind::text, "what its label says", true};
inline constexpr Field kind{self, 3, "kind", FieldKind::choice, "what it is", true, std::nullopt, kinds};
inline constexpr Field made_at{self, 4, "made_at", FieldKind::instant, "when it was mixed or opened"};
inline constexpr Field made_by{self, 5, "made_by_id", FieldKind::reference, "who mixed or opened it", false, Entity::person};
inline constexpr Field mixture{self, 6, "mixture", FieldKind::text, "what a flux was mixed of, in words"};
inline constexpr Field silver{
    self, 7, "silver", FieldKind::reading, "silver that a blank fusion found in it", false, std::nullopt, {}, Measure::grade};
inline constexpr Field used_up_at{self, 8, "used_up_at", FieldKind::instant, "from when there is none left"};
inline constexpr Field remarks{self, 9, "remarks", FieldKind::text, "anything else"};
inline constexpr std::array all{&struck, &name, &kind, &made_at, &made_by, &mixture, &silver, &used_up_at, &remarks};
}  // namespace lot

namespace pot {
inline constexpr Entity self = Entity::pot;
inline constexpr Field struck{self, 1, "struck", FieldKind::flag, struck_meaning};
inline constexpr Field name{self, 2, "name", FieldKind::text, "what is written on it", true};
inline constexpr Field millilitres{self, 3, "millilitres", FieldKind::whole, "what it holds to the brim"};
inline constexpr Field broken_at{self, 4, "broken_at", FieldKind::instant, "from when it is no longer used"};
inline constexpr Field remarks{self, 5, "remarks", FieldKind::text, "anything else"};
inline constexpr std::array all{&struck, &name, &millilitres, &broken_at, &remarks};
}  // namespace pot

namespace recipe {
inline constexpr Entity self = Entity::recipe;
inline constexpr Field struck{self, 1, "struck", FieldKind::flag, struck_meaning};
inline constexpr Field name{self, 2, "name", FieldKind::text, "what the lab calls it", true};
inline constexpr Field ore{
    self,         3,  "ore",        FieldKind::reading, "the ore it is for; other masses are scaled by it", false,
    std::nullopt, {}, Measure::mass};
inline constexpr Field litharge{self, 4, "litharge", FieldKind::reading, "litharge", false, std::nullopt, {}, Measure::mass};
inline constexpr Field soda_ash{self,         5,  "soda_ash",   FieldKind::reading, "soda ash, water-free", false,
                                std::nullopt, {}, Measure::mass};
inline constexpr Field borax{self, 6, "borax", FieldKind::reading, "borax glass", false, std::nullopt, {}, Measure::mass};
inline constexpr Field silica{self, 7, "silica", FieldKind::reading, "silica", false, std::nullopt, {}, Measure::mass};
inline constexpr Field flour{self, 8, "flour", FieldKind::reading, "flour", false, std::nullopt, {}, Measure::mass};
inline constexpr Field nitre{self, 9, "nitre", FieldKind::reading, "nitre", false, std::nullopt, {}, Measure::mass};
inline constexpr Field flux_lot{self,  10,         "flux_lot_id", FieldKind::reference, "the flux mixed ahead that it takes",
                                false, Entity::lot};
inline constexpr Field flux{self, 11, "flux", FieldKind::reading, "so much of that flux", false, std::nullopt, {}, Measure::mass};
inline constexpr Field remarks{self, 12, "remarks", FieldKind::text, "anything else"};
inline constexpr std::array all{&struck, &name,  &ore,   &litharge, &soda_ash, &borax,
                                &silica, &flour, &nitre, &flux_lot, &flux,     &remarks};
}  // namespace recipe

namespace reducing_test {
inline constexpr Entity self = Entity::reducing_test;
inline constexpr Field struck{self, 1, "struck", FieldKind::flag, struck_meaning};
inline constexpr Field sample{self, 2, "sample_id", FieldKind::reference, "the ore", true, Entity::sample};
inline constexpr Field ore{self, 3, "ore", FieldKind::reading, "ore in the crucible", false, std::nullopt, {}, Measure::mass};
inline constexpr Field litharge{self,         4,  "litharge",   FieldKind::reading, "litharge in the crucible", false,
                                std::nullopt, {}, Measure::mass};
inline constexpr Field soda_ash{self,         5,  "soda_ash",   FieldKind::reading, "soda ash in the crucible", false,
                                std::nullopt, {}, Measure::mass};
inline constexpr Field button{self,         6,  "button",     FieldKind::reading, "lead button it gave", false,
                              std::nullopt, {}, Measure::mass};
inline constexpr Field done_at{self, 7, "done_at", FieldKind::instant, "when it was done"};
inline constexpr Field done_by{self, 8, "done_by_id", FieldKind::reference, "who did it", false, Entity::person};
inline constexpr Field remarks{self, 9, "remarks", FieldKind::text, "anything else"};
inline constexpr std::array all{&struck, &sample, &ore, &litharge, &soda_ash, &button, &done_at, &done_by, &remarks};
}  // namespace reducing_test

namespace charge_design {
inline constexpr Entity self = Entity::charge_design;
inline constexpr std::array<std::string_view, 5> ore_kinds{"siliceous", "oxide", "sulphide", "carbonate", "mixed"};
inline constexpr Field struck{self, 1, "struck", FieldKind::flag, struck_meaning};
inline constexpr Field portion{self, 2, "portion_id", FieldKind::reference, "the portion to be fused", true, Entity::portion};
inline constexpr Field ore_kind{self, 3, "ore_kind", FieldKind::choice, "kind of ore", false, std::nullopt, ore_kinds};
inline constexpr Field silica_share{self,         4,  "silica_share", FieldKind::reading, "silica in the ore", false,
                                    std::nullopt, {}, Measure::share};
inline constexpr Field sulphides{self, 5, "sulphides", FieldKind::text,
                                 "sulphides in the ore, each with its share in %: \"pyrite 40, galena 5\""};
inline constexpr Field button_target{self,         6,  "button_target", FieldKind::reading, "lead button wanted", false,
                                     std::nullopt, {}, Measure::mass};
inline constexpr Field reducing_test{
    self, 7, "reducing_test_id", FieldKind::reference, "the test whose reducing power is taken", false, Entity::reducing_test};
inline constexpr Field cupel{
    self,         8,  "cupel",      FieldKind::reading, "mass of the cupel that the button is to go on", false,
    std::nullopt, {}, Measure::mass};
inline constexpr Field remarks{self, 9, "remarks", FieldKind::text, "anything else"};
inline constexpr std::array all{&struck,        &portion,       &ore_kind, &silica_share, &sulphides,
                                &button_target, &reducing_test, &cupel,    &remarks};
}  // namespace charge_design

namespace furnace_run {
inline constexpr Entity self = Entity::furnace_run;
inline constexpr std::array<std::string_view, 4> kinds{"fusion", "cupellation", "roast", "anneal"};
inline constexpr Field struck{self, 1, "struck", FieldKind::flag, struck_meaning};
inline constexpr Field name{self, 2, "name", FieldKind::text, "what the lab calls it", true};
inline constexpr Field kind{self, 3, "kind", FieldKind::choice, "what it is for", false, std::nullopt, kinds};
inline constexpr Field began_at{self, 4, "began_at", FieldKind::instant, "when it was loaded"};
inline constexpr Field ended_at{self, 5, "ended_at", FieldKind::instant, "when it was drawn"};
inline constexpr Field run_by{self, 6, "run_by_id", FieldKind::reference, "who ran it", false, Entity::person};
inline constexpr Field set_c{self, 7, "set_c", FieldKind::whole, "temperature set, °C"};
inline constexpr Field places{self, 8, "places", FieldKind::whole, "how many pots or cupels it took"};
inline constexpr Field remarks{self, 9, "remarks", FieldKind::text, "anything else"};
inline constexpr std::array all{&struck, &name, &kind, &began_at, &ended_at, &run_by, &set_c, &places, &remarks};
}  // namespace furnace_run

namespace run_reading {
inline constexpr Entity self = Entity::run_reading;
inline constexpr Field struck{self, 1, "struck", FieldKind::flag, struck_meaning};
inline constexpr Field run{self, 2, "run_id", FieldKind::reference, "the run", true, Entity::furnace_run};
inline constexpr Field read_at{self, 3, "read_at", FieldKind::instant, "when it was read", true};
inline constexpr Field set_c{self, 4, "set_c", FieldKind::whole, "temperature set, °C"};
inline constexpr Field read_c{self, 5, "read_c", FieldKind::whole, "temperature read, °C"};
inline constexpr Field remarks{self, 6, "remarks", FieldKind::text, "what was done or seen then"};
inline constexpr std::array all{&struck, &run, &read_at, &set_c, &read_c, &remarks};
}  // namespace run_reading

namespace proof {
inline constexpr Entity self = Entity::proof;
inline constexpr Field struck{self, 1, "struck", FieldKind::flag, struck_meaning};
inline constexpr Field run{self, 2, "run_id", FieldKind::reference, "the run it went through", true, Entity::furnace_run};
inline constexpr Field gold_in{self, 3, "gold_in", FieldKind::reading, "gold put in", false, std::nullopt, {}, Measure::mass};
inline constexpr Field silver_in{self,         4,  "silver_in",  FieldKind::reading, "silver put in", false,
                                 std::nullopt, {}, Measure::mass};
inline constexpr Field lead{self,         5,  "lead",       FieldKind::reading, "lead it was wrapped in", false,
                            std::nullopt, {}, Measure::mass};
inline constexpr Field bead{self, 6, "bead", FieldKind::reading, "bead that was left", false, std::nullopt, {}, Measure::mass};
inline constexpr Field gold_out{self,         7,  "gold_out",   FieldKind::reading, "gold of it after parting", false,
                                std::nullopt, {}, Measure::mass};
inline constexpr Field remarks{self, 8, "remarks", FieldKind::text, "anything else"};
inline constexpr std::array all{&struck, &run, &gold_in, &silver_in, &lead, &bead, &gold_out, &remarks};
}  // namespace proof

}  // namespace prillbook::history::fields
