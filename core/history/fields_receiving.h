// SPDX-License-Identifier: GPL-3.0-or-later
// Fields of what arrives and who has it; see core/history/fields.h.
#pragma once

#include <array>

#include "core/history/catalogue.h"

namespace prillbook::history::fields {

namespace consignment {
inline constexpr Entity self = Entity::consignment;
inline constexpr Field struck{self, 1, "struck", FieldKind::flag, struck_meaning};
inline constexpr Field number{self, 2, "number", FieldKind::text, "consignment number; unique, never used again", true};
inline constexpr Field client{self, 3, "client_id", FieldKind::reference, "whose rock it is", true, Entity::client};
inline constexpr Field arrived{self, 4, "arrived", FieldKind::instant, "when it came to the counter", true};
inline constexpr Field carrier{self, 5, "carrier", FieldKind::text, "who brought it"};
inline constexpr Field pieces_declared{self, 6, "pieces_declared", FieldKind::whole, "pieces the carrier or client named"};
inline constexpr Field pieces_found{self, 7, "pieces_found", FieldKind::whole, "pieces counted at the counter"};
inline constexpr Field received_by{self, 8, "received_by_id", FieldKind::reference, "who took it in", false, Entity::person};
inline constexpr Field remarks{self, 9, "remarks", FieldKind::text, "anything else"};
inline constexpr Field seals{self, 10, "seals", FieldKind::text, "seal numbers as found"};
inline constexpr Field pieces_condition{self, 11, "pieces_condition", FieldKind::text, "condition of the pieces in short"};
inline constexpr Field whole_form{self, 12, "whole_form", FieldKind::flag, "1 where every hand-over is to be written down"};
inline constexpr std::array all{&struck,       &number,      &client,  &arrived, &carrier,          &pieces_declared,
                                &pieces_found, &received_by, &remarks, &seals,   &pieces_condition, &whole_form};
}  // namespace consignment

namespace sample {
inline constexpr Entity self = Entity::sample;
inline constexpr std::array<std::string_view, 8> kinds{"grab", "chip",    "channel",     "bulk",
                                                       "dump", "tailing", "concentrate", "sweepings"};
inline constexpr std::array<std::string_view, 5> classes{"barren", "low", "ordinary", "rich", "specimen"};
inline constexpr std::array<std::string_view, 6> conditions{"sealed", "open", "torn", "leaking", "wet", "mixed"};
inline constexpr Field struck{self, 1, "struck", FieldKind::flag, struck_meaning};
inline constexpr Field number{self, 2, "number", FieldKind::text, "lab number; unique, never used again", true};
inline constexpr Field consignment{
    self, 3, "consignment_id", FieldKind::reference, "what it came with", true, Entity::consignment};
inline constexpr Field mark{self, 4, "mark", FieldKind::text, "the client's own mark", true};
inline constexpr Field kind{self, 5, "kind", FieldKind::choice, "kind of sample", false, std::nullopt, kinds};
inline constexpr Field place{self, 6, "place", FieldKind::text, "place taken"};
inline constexpr Field expected{self, 7, "expected", FieldKind::choice, "expected class", false, std::nullopt, classes};
inline constexpr Field condition{
    self, 8, "condition", FieldKind::choice, "condition of the bag on receipt", false, std::nullopt, conditions};
inline constexpr Field mass_declared{self,         9,  "mass_declared", FieldKind::reading, "mass the client named", false,
                                     std::nullopt, {}, Measure::mass};
inline constexpr Field mass_received{
    self, 10, "mass_received", FieldKind::reading, "net mass weighed at the counter", false, std::nullopt, {}, Measure::mass};
inline constexpr Field moisture{self,  11,           "moisture", FieldKind::reading, "moisture, wet basis",
                                false, std::nullopt, {},         Measure::share};
inline constexpr Field swept_from{
    self, 12, "swept_from_id", FieldKind::reference, "sweepings: the sample that leaked", false, Entity::sample};
inline constexpr Field remarks{self, 13, "remarks", FieldKind::text, "anything else"};
inline constexpr std::array<std::string_view, 3> treatments{"none", "treat_apart", "refuse"};
inline constexpr std::array<std::string_view, 2> disposals{"returned", "disposed"};
inline constexpr Field gross{self, 14, "gross", FieldKind::reading, "mass with the bag", false, std::nullopt, {}, Measure::mass};
inline constexpr Field tare{self,  15,           "tare", FieldKind::reading, "mass of the empty bag",
                            false, std::nullopt, {},     Measure::mass};
inline constexpr Field moisture_wanted{self, 16, "moisture_wanted", FieldKind::flag, "1 where the client wants the moisture"};
inline constexpr Field tests_wanted{self, 17, "tests_wanted", FieldKind::text,
                                    "tests the client wants: pan, fire, sieve, metallics, moisture, with commas between"};
inline constexpr Field due{self, 18, "due", FieldKind::instant, "when the client expects the figures"};
inline constexpr Field price_agreed{self, 19, "price_agreed", FieldKind::text, "price agreed, in words"};
inline constexpr Field price_paid{self, 20, "price_paid", FieldKind::text, "price paid, in words"};
inline constexpr Field treatment{
    self, 21, "treatment", FieldKind::choice, "whether it has to be treated apart or refused", false, std::nullopt, treatments};
inline constexpr Field treatment_reason{self, 22, "treatment_reason", FieldKind::text, "why it is treated apart or refused"};
inline constexpr Field retain_until{self, 23, "retain_until", FieldKind::instant, "how long what is left is kept"};
inline constexpr Field disposal{self,  24,           "disposal", FieldKind::choice, "what became of what was left",
                                false, std::nullopt, disposals};
inline constexpr Field disposed_at{self, 25, "disposed_at", FieldKind::instant, "when it was returned or disposed of"};
inline constexpr Field taken_by{self, 26, "taken_by", FieldKind::text, "who took it, as the client says"};
inline constexpr Field taken_when{self, 27, "taken_when", FieldKind::text, "when it was taken, as the client says"};
inline constexpr std::array all{&struck,          &number,           &consignment,  &mark,          &kind,
                                &place,           &expected,         &condition,    &mass_declared, &mass_received,
                                &moisture,        &swept_from,       &remarks,      &gross,         &tare,
                                &moisture_wanted, &tests_wanted,     &due,          &price_agreed,  &price_paid,
                                &treatment,       &treatment_reason, &retain_until, &disposal,      &disposed_at,
                                &taken_by,        &taken_when};
}  // namespace sample

namespace piece {
inline constexpr Entity self = Entity::piece;
inline constexpr std::array<std::string_view, 4> seal_states{"intact", "broken", "missing", "renewed"};
inline constexpr Field struck{self, 1, "struck", FieldKind::flag, struck_meaning};
inline constexpr Field consignment{
    self, 2, "consignment_id", FieldKind::reference, "the consignment it is part of", true, Entity::consignment};
inline constexpr Field number{self, 3, "number", FieldKind::whole, "first, second … piece of the consignment", true};
inline constexpr Field condition{
    self, 4, "condition", FieldKind::choice, "condition on receipt", false, std::nullopt, sample::conditions};
inline constexpr Field seal_declared{self, 5, "seal_declared", FieldKind::text, "seal number the client or carrier named"};
inline constexpr Field seal{self, 6, "seal", FieldKind::text, "seal number as found"};
inline constexpr Field seal_state{self,         7,          "seal_state", FieldKind::choice, "state of the seal as found", false,
                                  std::nullopt, seal_states};
inline constexpr Field remarks{self, 8, "remarks", FieldKind::text, "anything else"};
inline constexpr std::array all{&struck, &consignment, &number, &condition, &seal_declared, &seal, &seal_state, &remarks};
}  // namespace piece

namespace place {
inline constexpr Entity self = Entity::place;
inline constexpr Field struck{self, 1, "struck", FieldKind::flag, struck_meaning};
inline constexpr Field name{self, 2, "name", FieldKind::text, "what the lab calls it; unique", true};
inline constexpr Field remarks{self, 3, "remarks", FieldKind::text, "anything else"};
inline constexpr std::array all{&struck, &name, &remarks};
}  // namespace place

namespace hand_over {
inline constexpr Entity self = Entity::hand_over;
inline constexpr Field struck{self, 1, "struck", FieldKind::flag, struck_meaning};
inline constexpr Field sample{self, 2, "sample_id", FieldKind::reference, "the sample, or", false, Entity::sample};
inline constexpr Field consignment{
    self, 3, "consignment_id", FieldKind::reference, "the whole consignment that changed hands", false, Entity::consignment};
inline constexpr Field from{self, 4, "from_holder", FieldKind::text, "who gave it: initials, a name or a firm", true};
inline constexpr Field to{self, 5, "to_holder", FieldKind::text, "who took it: initials, a name or a firm", true};
inline constexpr Field place{self, 6, "place_id", FieldKind::reference, "where it went", false, Entity::place};
inline constexpr Field handed_at{self, 7, "handed_at", FieldKind::instant, "when it changed hands", true};
inline constexpr Field reason{self, 8, "reason", FieldKind::text, "why"};
inline constexpr Field seal{self, 9, "seal", FieldKind::text, "seal number seen at that time"};
inline constexpr Field seal_state{self,  10,           "seal_state",      FieldKind::choice, "state of the seal at that time",
                                  false, std::nullopt, piece::seal_states};
inline constexpr Field condition{self,  11,           "condition",       FieldKind::choice, "condition at that time",
                                 false, std::nullopt, sample::conditions};
inline constexpr Field written_by{
    self, 12, "written_by_id", FieldKind::reference, "whose initials stand beside it", false, Entity::person};
inline constexpr Field remarks{self, 13, "remarks", FieldKind::text, "anything else"};
inline constexpr std::array all{&struck, &sample, &consignment, &from,      &to,         &place,  &handed_at,
                                &reason, &seal,   &seal_state,  &condition, &written_by, &remarks};
}  // namespace hand_over

namespace own_metal {
inline constexpr Entity self = Entity::own_metal;
inline constexpr std::array<std::string_view, 6> things{"bead", "parted_gold", "free_gold", "concentrate", "pulp", "reject"};
inline constexpr std::array<std::string_view, 3> fates{"returned", "kept", "used_up"};
inline constexpr Field struck{self, 1, "struck", FieldKind::flag, struck_meaning};
inline constexpr Field sample{self, 2, "sample_id", FieldKind::reference, "the sample it came from", true, Entity::sample};
inline constexpr Field what{self, 3, "what", FieldKind::choice, "what it is", true, std::nullopt, things};
inline constexpr Field fate{self, 4, "fate", FieldKind::choice, "what became of it", true, std::nullopt, fates};
inline constexpr Field mass{self, 5, "mass", FieldKind::reading, "its mass", false, std::nullopt, {}, Measure::mass};
inline constexpr Field happened_at{self, 6, "happened_at", FieldKind::instant, "when", true};
inline constexpr Field to_whom{self, 7, "to_whom", FieldKind::text, "who took it: the name typed stands for the signature"};
inline constexpr Field written_by{
    self, 8, "written_by_id", FieldKind::reference, "whose initials stand beside it", false, Entity::person};
inline constexpr Field remarks{self, 9, "remarks", FieldKind::text, "anything else"};
inline constexpr std::array all{&struck, &sample, &what, &fate, &mass, &happened_at, &to_whom, &written_by, &remarks};
}  // namespace own_metal

namespace told_figure {
inline constexpr Entity self = Entity::told_figure;
inline constexpr std::array<std::string_view, 5> things{"gold", "silver", "recovery", "mass", "moisture"};
inline constexpr Field struck{self, 1, "struck", FieldKind::flag, struck_meaning};
inline constexpr Field sample{self, 2, "sample_id", FieldKind::reference, "the sample it speaks of", true, Entity::sample};
inline constexpr Field what{self, 3, "what", FieldKind::choice, "which figure", true, std::nullopt, things};
inline constexpr Field said{self, 4, "said", FieldKind::text, "the figure in the words in which it was told", true};
inline constexpr Field to_whom{self, 5, "to_whom", FieldKind::text, "who was told", true};
inline constexpr Field told_at{self, 6, "told_at", FieldKind::instant, "when", true};
inline constexpr Field told_by{self, 7, "told_by_id", FieldKind::reference, "who told it", false, Entity::person};
inline constexpr Field remarks{self, 8, "remarks", FieldKind::text, "anything else"};
inline constexpr std::array all{&struck, &sample, &what, &said, &to_whom, &told_at, &told_by, &remarks};
}  // namespace told_figure

namespace column_match {
inline constexpr Entity self = Entity::column_match;
inline constexpr std::array<std::string_view, 10> targets{"none",      "mark",          "kind",          "place",    "expected",
                                                          "condition", "mass_declared", "mass_received", "moisture", "remarks"};
inline constexpr Field struck{self, 1, "struck", FieldKind::flag, struck_meaning};
inline constexpr Field client{self, 2, "client_id", FieldKind::reference, "whose lists have this heading", true, Entity::client};
inline constexpr Field heading{self, 3, "heading", FieldKind::text, "heading of the column, in small letters", true};
inline constexpr Field field{
    self,         4,      "field", FieldKind::choice, "the field of the sample it stands for; none: it is passed over", true,
    std::nullopt, targets};
inline constexpr Field unit{self, 5, "unit", FieldKind::text, "unit of its bare numbers"};
inline constexpr std::array all{&struck, &client, &heading, &field, &unit};
}  // namespace column_match

namespace attachment {
inline constexpr Entity self = Entity::attachment;
inline constexpr std::array<std::string_view, 6> kinds{"bag", "rock", "pan", "bead", "paper", "other"};
inline constexpr Field struck{self, 1, "struck", FieldKind::flag, struck_meaning};
inline constexpr Field sample{self, 2, "sample_id", FieldKind::reference, "the sample it shows, or", false, Entity::sample};
inline constexpr Field consignment{
    self, 3, "consignment_id", FieldKind::reference, "the consignment it shows", false, Entity::consignment};
inline constexpr Field kind{self, 4, "kind", FieldKind::choice, "what it shows", false, std::nullopt, kinds};
inline constexpr Field caption{self, 5, "caption", FieldKind::text, "what is to be seen on it"};
inline constexpr Field taken_at{self, 6, "taken_at", FieldKind::instant, "when it was taken"};
inline constexpr Field original_name{self, 7, "original_name", FieldKind::text, "name of the file it came from"};
inline constexpr Field hash{self, 8, "hash", FieldKind::text, "hash of its bytes, by which `content` holds them", true};
inline constexpr Field width{self, 9, "width", FieldKind::whole, "width in pixels", true};
inline constexpr Field height{self, 10, "height", FieldKind::whole, "height in pixels", true};
inline constexpr Field byte_count{self, 11, "byte_count", FieldKind::whole, "how many bytes it has", true};
inline constexpr Field original{self, 12, "original", FieldKind::flag,
                                "1 where the file was kept as it came, with what the camera wrote in it"};
inline constexpr std::array all{&struck,        &sample, &consignment, &kind,   &caption,    &taken_at,
                                &original_name, &hash,   &width,       &height, &byte_count, &original};
}  // namespace attachment

}  // namespace prillbook::history::fields
