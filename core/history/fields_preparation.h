// SPDX-License-Identifier: GPL-3.0-or-later
// Fields of portions, machines, and the steps of preparation; see core/history/fields.h.
#pragma once

#include <array>

#include "core/history/catalogue.h"

namespace prillbook::history::fields {

namespace portion {
inline constexpr Entity self = Entity::portion;
inline constexpr std::array<std::string_view, 14> purposes{"pan",      "fire",      "sieve",     "duplicate", "retain",
                                                           "reject",   "metallics", "remainder", "tail",      "split",
                                                           "oversize", "undersize", "composite", "fraction"};
inline constexpr Field struck{self, 1, "struck", FieldKind::flag, struck_meaning};
inline constexpr Field sample{self, 2, "sample_id", FieldKind::reference, "the sample it is part of", true, Entity::sample};
inline constexpr Field parent{
    self,           3, "parent_id", FieldKind::reference, "the portion it was cut from; none: from the sample itself", false,
    Entity::portion};
inline constexpr Field number{self, 4, "number", FieldKind::whole, "running number under the sample", true};
inline constexpr Field purpose{self, 5, "purpose", FieldKind::choice, "what it was cut for", true, std::nullopt, purposes};
inline constexpr Field mass{self, 6, "mass", FieldKind::reading, "mass weighed", false, std::nullopt, {}, Measure::mass};
inline constexpr Field cut_at{self, 7, "cut_at", FieldKind::instant, "when it was cut"};
inline constexpr Field cut_by{self, 8, "cut_by_id", FieldKind::reference, "who cut it", false, Entity::person};
inline constexpr Field remarks{self, 9, "remarks", FieldKind::text, "anything else"};
inline constexpr Field step{self,  10,          "step_id", FieldKind::reference, "the step of preparation that gave it",
                            false, Entity::step};
inline constexpr std::array all{&struck, &sample, &parent, &number, &purpose, &mass, &cut_at, &cut_by, &remarks, &step};
}  // namespace portion

namespace machine {
inline constexpr Entity self = Entity::machine;
inline constexpr std::array<std::string_view, 6> kinds{"crusher", "pulveriser", "splitter", "screen", "oven", "other"};
inline constexpr Field struck{self, 1, "struck", FieldKind::flag, struck_meaning};
inline constexpr Field name{self, 2, "name", FieldKind::text, "what the lab calls it", true};
inline constexpr Field kind{self, 3, "kind", FieldKind::choice, "kind of machine", false, std::nullopt, kinds};
inline constexpr Field hold_up{self,         4,  "hold_up",    FieldKind::reading, "what stays in it after a sample", false,
                               std::nullopt, {}, Measure::mass};
inline constexpr Field retired_at{self, 5, "retired_at", FieldKind::instant, "from when it is no longer used"};
inline constexpr Field remarks{self, 6, "remarks", FieldKind::text, "anything else"};
inline constexpr std::array all{&struck, &name, &kind, &hold_up, &retired_at, &remarks};
}  // namespace machine

namespace step {
inline constexpr Entity self = Entity::step;
inline constexpr std::array<std::string_view, 7> kinds{"dry", "crush", "pulverise", "blend", "split", "screen", "composite"};
inline constexpr std::array<std::string_view, 4> methods{"riffle", "cone_and_quarter", "rotary", "scoop"};
inline constexpr Field struck{self, 1, "struck", FieldKind::flag, struck_meaning};
inline constexpr Field sample{self, 2, "sample_id", FieldKind::reference, "the sample worked on", true, Entity::sample};
inline constexpr Field portion{
    self, 3, "portion_id", FieldKind::reference, "the portion worked on; none: the sample itself", false, Entity::portion};
inline constexpr Field kind{self, 4, "kind", FieldKind::choice, "what was done", true, std::nullopt, kinds};
inline constexpr Field method{self, 5, "method", FieldKind::choice, "how it was split", false, std::nullopt, methods};
inline constexpr Field machine{self, 6, "machine_id", FieldKind::reference, "the machine", false, Entity::machine};
inline constexpr Field mass_in{self, 7, "mass_in", FieldKind::reading, "mass put in", false, std::nullopt, {}, Measure::mass};
inline constexpr Field mass_out{
    self,         8,  "mass_out",   FieldKind::reading, "mass that came out, where it stayed in one", false,
    std::nullopt, {}, Measure::mass};
inline constexpr Field closed{self, 9, "closed", FieldKind::flag,
                              "1 where all that a split or screen gave was weighed: what is missing is lost"};
inline constexpr Field top_size{self,  10,           "top_size", FieldKind::reading, "opening that 95 % passes afterwards",
                                false, std::nullopt, {},         Measure::opening};
inline constexpr Field began_at{self, 11, "began_at", FieldKind::instant, "when it was begun"};
inline constexpr Field done_at{self, 12, "done_at", FieldKind::instant, "when it was done", true};
inline constexpr Field done_by{self, 13, "done_by_id", FieldKind::reference, "who did it", false, Entity::person};
inline constexpr Field remarks{self, 14, "remarks", FieldKind::text, "anything else"};
inline constexpr std::array all{&struck,   &sample, &portion,  &kind,     &method,  &machine, &mass_in,
                                &mass_out, &closed, &top_size, &began_at, &done_at, &done_by, &remarks};
}  // namespace step

namespace step_share {
inline constexpr Entity self = Entity::step_share;
inline constexpr Field struck{self, 1, "struck", FieldKind::flag, struck_meaning};
inline constexpr Field step{self, 2, "step_id", FieldKind::reference, "the composite", true, Entity::step};
inline constexpr Field portion{self,           3, "portion_id", FieldKind::reference, "the portion that went into it", true,
                               Entity::portion};
inline constexpr Field share{self,         4,  "share",       FieldKind::reading, "share of the composite that was wanted", false,
                             std::nullopt, {}, Measure::share};
inline constexpr std::array all{&struck, &step, &portion, &share};
}  // namespace step_share

namespace cleaning {
inline constexpr Entity self = Entity::cleaning;
inline constexpr std::array<std::string_view, 4> ways{"brush", "air", "wipe", "flush"};
inline constexpr Field struck{self, 1, "struck", FieldKind::flag, struck_meaning};
inline constexpr Field machine{self, 2, "machine_id", FieldKind::reference, "the machine", true, Entity::machine};
inline constexpr Field way{self, 3, "way", FieldKind::choice, "how it was cleaned", true, std::nullopt, ways};
inline constexpr Field cleaned_at{self, 4, "cleaned_at", FieldKind::instant, "when it was cleaned", true};
inline constexpr Field cleaned_by{self, 5, "cleaned_by_id", FieldKind::reference, "who cleaned it", false, Entity::person};
inline constexpr Field flush_mass{self,         6,  "flush_mass", FieldKind::reading, "barren rock put through", false,
                                  std::nullopt, {}, Measure::mass};
inline constexpr Field kept{self, 7, "kept", FieldKind::flag, "1 where the flush was kept for assay"};
inline constexpr Field flush_grade{self,         8,  "flush_grade", FieldKind::reading, "gold in the flush that came out", false,
                                   std::nullopt, {}, Measure::grade};
inline constexpr Field flush_grade_u{self,         9,  "flush_grade_u", FieldKind::reading, "standard uncertainty of that", false,
                                     std::nullopt, {}, Measure::grade};
inline constexpr Field barren_grade{self,         10, "barren_grade", FieldKind::reading, "gold in the barren rock before", false,
                                    std::nullopt, {}, Measure::grade};
inline constexpr Field remarks{self, 11, "remarks", FieldKind::text, "anything else"};
inline constexpr std::array all{&struck, &machine,     &way,           &cleaned_at,   &cleaned_by, &flush_mass,
                                &kept,   &flush_grade, &flush_grade_u, &barren_grade, &remarks};
}  // namespace cleaning

namespace crushing_plan {
inline constexpr Entity self = Entity::crushing_plan;
inline constexpr Field struck{self, 1, "struck", FieldKind::flag, struck_meaning};
inline constexpr Field machine{self, 2, "machine_id", FieldKind::reference, "the machine", true, Entity::machine};
inline constexpr Field made_at{self, 3, "made_at", FieldKind::instant, "when it was made", true};
inline constexpr Field made_by{self, 4, "made_by_id", FieldKind::reference, "who made it", false, Entity::person};
inline constexpr Field remarks{self, 5, "remarks", FieldKind::text, "anything else"};
inline constexpr std::array all{&struck, &machine, &made_at, &made_by, &remarks};
}  // namespace crushing_plan

namespace plan_place {
inline constexpr Entity self = Entity::plan_place;
inline constexpr Field struck{self, 1, "struck", FieldKind::flag, struck_meaning};
inline constexpr Field plan{self, 2, "plan_id", FieldKind::reference, "the crushing order", true, Entity::crushing_plan};
inline constexpr Field number{self, 3, "number", FieldKind::whole, "place in the order, from 1", true};
inline constexpr Field sample{self, 4, "sample_id", FieldKind::reference, "the sample", true, Entity::sample};
inline constexpr Field flush_mass{
    self, 5, "flush_mass", FieldKind::reading, "barren rock owed before it, each flush", false, std::nullopt, {}, Measure::mass};
inline constexpr Field flushes{self, 6, "flushes", FieldKind::whole, "flushes owed before it"};
inline constexpr std::array all{&struck, &plan, &number, &sample, &flush_mass, &flushes};
}  // namespace plan_place

}  // namespace prillbook::history::fields
