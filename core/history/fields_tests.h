// SPDX-License-Identifier: GPL-3.0-or-later
// Fields of pan tests, charges and their beads; see core/history/fields.h.
#pragma once

#include <array>

#include "core/history/catalogue.h"

namespace prillbook::history::fields {

namespace pan_test {
inline constexpr Entity self = Entity::pan_test;
inline constexpr std::array<std::string_view, 3> amounts{"none", "little", "much"};
inline constexpr Field struck{self, 1, "struck", FieldKind::flag, struck_meaning};
inline constexpr Field portion{self, 2, "portion_id", FieldKind::reference, "the portion panned", true, Entity::portion};
inline constexpr Field panned_at{self, 3, "panned_at", FieldKind::instant, "when it was panned"};
inline constexpr Field panned_by{self, 4, "panned_by_id", FieldKind::reference, "who panned", false, Entity::person};
inline constexpr Field grind{self,         5,  "grind",         FieldKind::reading, "P80 of what was panned", false,
                             std::nullopt, {}, Measure::opening};
inline constexpr Field largest_colour{
    self,         6,  "largest_colour", FieldKind::reading, "size of the largest gold grain seen", false,
    std::nullopt, {}, Measure::opening};
inline constexpr Field colours{self, 7, "colours", FieldKind::text, "colours counted, in the panner's words"};
inline constexpr Field black_sand{self, 8, "black_sand", FieldKind::choice, "black sand seen", false, std::nullopt, amounts};
inline constexpr Field sulphides{self, 9, "sulphides", FieldKind::choice, "sulphides seen", false, std::nullopt, amounts};
inline constexpr Field free_gold{self,  10,           "free_gold", FieldKind::reading, "free gold drawn off, weighed raw",
                                 false, std::nullopt, {},          Measure::mass};
inline constexpr Field spoiled{self, 11, "spoiled", FieldKind::text, "why the test is lost; empty: it is not"};
inline constexpr Field excluded{self, 12, "excluded", FieldKind::text,
                                "why the result is left out of the mean; empty: it is not"};
inline constexpr Field remarks{self, 13, "remarks", FieldKind::text, "anything else"};
inline constexpr Field colours_coarse{self, 60, "colours_coarse", FieldKind::whole, "colours counted above 1 mm"};
inline constexpr Field colours_middle{self, 61, "colours_middle", FieldKind::whole, "colours counted from 0.25 mm to 1 mm"};
inline constexpr Field colours_fine{self, 62, "colours_fine", FieldKind::whole, "colours counted below 0.25 mm"};
inline constexpr Field magnetite{self,  63,           "magnetite", FieldKind::reading, "magnetite pulled with a magnet",
                                 false, std::nullopt, {},          Measure::mass};
inline constexpr std::array<std::string_view, 2> bead_ways{"cupelled", "amalgamated"};
inline constexpr Field bead_by{self,  64,           "bead_by", FieldKind::choice, "how the free gold became a bead",
                               false, std::nullopt, bead_ways};
inline constexpr Field mercury{self, 65, "mercury", FieldKind::text,
                               "how the mercury was driven off and caught, and what became of it"};
inline constexpr Field grind_from{self,
                                  66,
                                  "grind_from_id",
                                  FieldKind::reference,
                                  "the sieve analysis that the grind was copied from",
                                  false,
                                  Entity::sieve_analysis};
inline constexpr std::array<std::string_view, 5> roles{"reference", "blank_rock", "duplicate_field", "duplicate_coarse",
                                                       "duplicate_pulp"};
inline constexpr Field role{self,  80,           "role", FieldKind::choice, "what it controls; empty: an ordinary test",
                            false, std::nullopt, roles};
inline constexpr Field duplicate_of{
    self, 81, "duplicate_of_id", FieldKind::reference, "the test that it is the duplicate of", false, Entity::pan_test};
inline constexpr std::array all{&struck,  &portion,        &panned_at,      &panned_by,    &grind,     &largest_colour,
                                &colours, &black_sand,     &sulphides,      &free_gold,    &spoiled,   &excluded,
                                &remarks, &colours_coarse, &colours_middle, &colours_fine, &magnetite, &bead_by,
                                &mercury, &grind_from,     &role,           &duplicate_of};
}  // namespace pan_test

namespace charge {
inline constexpr Entity self = Entity::charge;
inline constexpr Field struck{self, 1, "struck", FieldKind::flag, struck_meaning};
inline constexpr Field portion{self, 2, "portion_id", FieldKind::reference, "the portion fused", true, Entity::portion};
inline constexpr Field fired_at{self, 3, "fired_at", FieldKind::instant, "when it was fused"};
inline constexpr Field fired_by{self, 4, "fired_by_id", FieldKind::reference, "who fused it", false, Entity::person};
inline constexpr Field repeat_of{
    self, 5, "repeat_of_id", FieldKind::reference, "the spoiled charge that this one repeats", false, Entity::charge};
inline constexpr Field collector{
    self, 6, "collector", FieldKind::reading, "collector silver put in the crucible", false, std::nullopt, {}, Measure::mass};
inline constexpr Field blank{self,         7,  "blank",      FieldKind::reading, "silver that the litharge and lead bring", false,
                             std::nullopt, {}, Measure::mass};
inline constexpr Field button{self, 8, "button", FieldKind::reading, "lead button", false, std::nullopt, {}, Measure::mass};
inline constexpr Field slag_metal{self,         9,  "slag_metal", FieldKind::reading, "metal recovered from the slag", false,
                                  std::nullopt, {}, Measure::mass};
inline constexpr Field cupel_metal{self,         10, "cupel_metal", FieldKind::reading, "metal recovered from the cupel", false,
                                   std::nullopt, {}, Measure::mass};
inline constexpr Field gold_loss{self,  11,           "gold_loss", FieldKind::reading, "gold lost in the furnace, estimated",
                                 false, std::nullopt, {},          Measure::share};
inline constexpr Field silver_loss{
    self,         12, "silver_loss", FieldKind::reading, "silver lost in the furnace, estimated", false,
    std::nullopt, {}, Measure::share};
inline constexpr Field slag_look{self, 13, "slag_look", FieldKind::text, "look of the slag"};
inline constexpr Field spoiled{self, 14, "spoiled", FieldKind::text, "why the charge is lost; empty: it is not"};
inline constexpr Field excluded{self, 15, "excluded", FieldKind::text,
                                "why the result is left out of the mean; empty: it is not"};
inline constexpr Field remarks{self, 16, "remarks", FieldKind::text, "anything else"};
inline constexpr std::array<std::string_view, 3> cupel_kinds{"bone_ash", "magnesia", "cement"};
inline constexpr Field recipe{self, 40, "recipe_id", FieldKind::reference, "the recipe it was made by", false, Entity::recipe};
inline constexpr Field litharge{self,  41,           "litharge", FieldKind::reading, "litharge weighed in",
                                false, std::nullopt, {},         Measure::mass};
inline constexpr Field soda_ash{self,  42,           "soda_ash", FieldKind::reading, "soda ash weighed in, water-free",
                                false, std::nullopt, {},         Measure::mass};
inline constexpr Field borax{self,  43,           "borax", FieldKind::reading, "borax glass weighed in",
                             false, std::nullopt, {},      Measure::mass};
inline constexpr Field silica{self,  44,           "silica", FieldKind::reading, "silica weighed in",
                              false, std::nullopt, {},       Measure::mass};
inline constexpr Field flour{self, 45, "flour", FieldKind::reading, "flour weighed in", false, std::nullopt, {}, Measure::mass};
inline constexpr Field nitre{self, 46, "nitre", FieldKind::reading, "nitre weighed in", false, std::nullopt, {}, Measure::mass};
inline constexpr Field litharge_lot{self,  47,         "litharge_lot_id", FieldKind::reference, "the lot of the litharge",
                                    false, Entity::lot};
inline constexpr Field flux_lot{self,  48,         "flux_lot_id", FieldKind::reference, "the lot of the flux mixed ahead",
                                false, Entity::lot};
inline constexpr Field flux{self, 49, "flux", FieldKind::reading, "so much of that flux", false, std::nullopt, {}, Measure::mass};
inline constexpr Field flour_and_nitre{self, 50, "flour_and_nitre", FieldKind::text, "why it holds both flour and nitre"};
inline constexpr Field pot{self, 51, "pot_id", FieldKind::reference, "the crucible", false, Entity::pot};
inline constexpr Field fusion_run{
    self, 52, "fusion_run_id", FieldKind::reference, "the run it was fused in", false, Entity::furnace_run};
inline constexpr Field fusion_signs{
    self, 53, "fusion_signs", FieldKind::text,
    "what was seen at the fusion: matte, speiss, prills, streaks, pasty, hard button, with commas between"};
inline constexpr Field lead_added{self,  54,           "lead_added", FieldKind::reading, "lead added before cupelling",
                                  false, std::nullopt, {},           Measure::mass};
inline constexpr Field lead_lot{self, 55, "lead_lot_id", FieldKind::reference, "the lot of that lead", false, Entity::lot};
inline constexpr Field cupel_kind{self,  56,           "cupel_kind", FieldKind::choice, "what the cupel is made of",
                                  false, std::nullopt, cupel_kinds};
inline constexpr Field cupel{self, 57, "cupel", FieldKind::reading, "mass of the cupel", false, std::nullopt, {}, Measure::mass};
inline constexpr Field cupellation_run{
    self, 58, "cupellation_run_id", FieldKind::reference, "the run it was cupelled in", false, Entity::furnace_run};
inline constexpr Field cupellation_signs{
    self, 59, "cupellation_signs", FieldKind::text,
    "what was seen at the cupellation: feathers, froze, sprouted, spat, cracked, with commas between"};
inline constexpr Field slag_gold{self,  72,           "slag_gold", FieldKind::reading, "gold of the metal from the slag",
                                 false, std::nullopt, {},          Measure::mass};
inline constexpr Field cupel_gold{self,  73,           "cupel_gold", FieldKind::reading, "gold of the metal from the cupel",
                                  false, std::nullopt, {},           Measure::mass};
inline constexpr std::array<std::string_view, 7> roles{"reference",        "blank_rock",     "blank_flux", "duplicate_field",
                                                       "duplicate_coarse", "duplicate_pulp", "flush"};
inline constexpr Field role{self,  80,           "role", FieldKind::choice, "what it controls; empty: an ordinary charge",
                            false, std::nullopt, roles};
inline constexpr Field duplicate_of{
    self, 81, "duplicate_of_id", FieldKind::reference, "the charge that it is the duplicate of", false, Entity::charge};
inline constexpr Field cleaning{
    self, 82, "cleaning_id", FieldKind::reference, "the flush of a machine that it is the assay of", false, Entity::cleaning};
inline constexpr std::array all{&struck,
                                &portion,
                                &fired_at,
                                &fired_by,
                                &repeat_of,
                                &collector,
                                &blank,
                                &button,
                                &slag_metal,
                                &cupel_metal,
                                &gold_loss,
                                &silver_loss,
                                &slag_look,
                                &spoiled,
                                &excluded,
                                &remarks,
                                &recipe,
                                &litharge,
                                &soda_ash,
                                &borax,
                                &silica,
                                &flour,
                                &nitre,
                                &litharge_lot,
                                &flux_lot,
                                &flux,
                                &flour_and_nitre,
                                &pot,
                                &fusion_run,
                                &fusion_signs,
                                &lead_added,
                                &lead_lot,
                                &cupel_kind,
                                &cupel,
                                &cupellation_run,
                                &cupellation_signs,
                                &slag_gold,
                                &cupel_gold,
                                &role,
                                &duplicate_of,
                                &cleaning};
}  // namespace charge

namespace bead {
inline constexpr Entity self = Entity::bead;
inline constexpr std::array<std::string_view, 5> methods{"parted", "density", "touchstone", "colour", "stated"};
inline constexpr Field struck{self, 1, "struck", FieldKind::flag, struck_meaning};
inline constexpr Field pan_test{
    self, 2, "pan_test_id", FieldKind::reference, "the pan test it came from, or", false, Entity::pan_test};
inline constexpr Field charge{self, 3, "charge_id", FieldKind::reference, "the charge it came from", false, Entity::charge};
inline constexpr Field none_seen{self, 4, "none_seen", FieldKind::flag, "1 where no bead was seen"};
inline constexpr Field method{self,         5,      "fineness_method", FieldKind::choice, "how the fineness was got", false,
                              std::nullopt, methods};
inline constexpr Field fineness{self,         6,  "fineness",       FieldKind::reading, "gold in the bead", false,
                                std::nullopt, {}, Measure::fineness};
inline constexpr Field fineness_u{
    self,         7,  "fineness_u",     FieldKind::reading, "standard uncertainty of the fineness", false,
    std::nullopt, {}, Measure::fineness};
inline constexpr Field look{self, 8, "look", FieldKind::text, "look of the bead"};
inline constexpr Field remarks{self, 9, "remarks", FieldKind::text, "anything else"};
inline constexpr Field inquart{
    self,  40,           "inquart", FieldKind::reading, "inquart silver added to the bead before parting",
    false, std::nullopt, {},        Measure::mass};
inline constexpr Field residual_silver{
    self,         41, "residual_silver", FieldKind::reading, "silver thought to be left in the parted gold", false,
    std::nullopt, {}, Measure::share};
inline constexpr Field parting_look{self, 42, "parting_look", FieldKind::text, "how the bead parted: whole, broken, yellow left"};
inline constexpr Field melted_into{self,  72,          "melted_into_id", FieldKind::reference, "the bead that it was melted into",
                                   false, Entity::bead};
inline constexpr Field in_air{self,  73,           "in_air", FieldKind::reading, "weight in air, for the density",
                              false, std::nullopt, {},       Measure::mass};
inline constexpr Field in_water{self,  74,           "in_water", FieldKind::reading, "weight in water at 20 °C, for the density",
                                false, std::nullopt, {},         Measure::mass};
inline constexpr std::array all{&struck,  &pan_test, &charge,          &none_seen,    &method,      &fineness, &fineness_u, &look,
                                &remarks, &inquart,  &residual_silver, &parting_look, &melted_into, &in_air,   &in_water};
}  // namespace bead

namespace weighing {
inline constexpr Entity self = Entity::weighing;
inline constexpr std::array<std::string_view, 2> things{"bead", "gold"};
inline constexpr Field struck{self, 1, "struck", FieldKind::flag, struck_meaning};
inline constexpr Field bead{self, 2, "bead_id", FieldKind::reference, "the bead", true, Entity::bead};
inline constexpr Field what{
    self, 3, "what", FieldKind::choice, "the bead itself, or the gold left after parting", true, std::nullopt, things};
inline constexpr Field number{self, 4, "number", FieldKind::whole, "first, second … weighing", true};
inline constexpr Field mass{self,         5,  "mass",       FieldKind::reading, "what the balance showed", true,
                            std::nullopt, {}, Measure::mass};
inline constexpr Field balance{self, 6, "balance_id", FieldKind::reference, "the balance", false, Entity::balance};
inline constexpr Field weighed_at{self, 7, "weighed_at", FieldKind::instant, "when it was weighed"};
inline constexpr Field weighed_by{self, 8, "weighed_by_id", FieldKind::reference, "who weighed", false, Entity::person};
inline constexpr Field excluded{self, 9, "excluded", FieldKind::text, "why the weighing is left out; empty: it is not"};
inline constexpr Field raw{self, 70, "raw", FieldKind::text, "the line that the balance sent, where it sent one"};
inline constexpr Field tray{self, 72, "tray_id", FieldKind::reference, "the tray that it was taken from", false, Entity::tray};
inline constexpr Field position{self, 73, "position", FieldKind::whole, "the position on that tray, from 1"};
inline constexpr Field gross{self,  74,           "gross", FieldKind::reading, "what the balance showed with the cup",
                             false, std::nullopt, {},      Measure::mass};
inline constexpr Field tare{self, 75, "tare", FieldKind::reading, "the cup alone", false, std::nullopt, {}, Measure::mass};
inline constexpr std::array all{&struck,     &bead,     &what, &number, &mass,     &balance, &weighed_at,
                                &weighed_by, &excluded, &raw,  &tray,   &position, &gross,   &tare};
}  // namespace weighing

}  // namespace prillbook::history::fields
