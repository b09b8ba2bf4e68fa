// SPDX-License-Identifier: GPL-3.0-or-later
// The fields of every record, by table. Add a field at the end of its table with the next free code.
#pragma once

#include <array>

#include "core/history/catalogue.h"

namespace prillbook::history::fields {

inline constexpr std::string_view struck_meaning = "1 where the entry is struck out";

namespace setting {
inline constexpr Entity self = Entity::setting;
inline constexpr Field struck{self, 1, "struck", FieldKind::flag, struck_meaning};
inline constexpr Field name{self, 2, "name", FieldKind::text, "name of the setting, as docs/settings.md lists them", true};
inline constexpr Field value{self, 3, "value", FieldKind::text, "value as typed"};
inline constexpr std::array all{&struck, &name, &value};
}  // namespace setting

namespace person {
inline constexpr Entity self = Entity::person;
inline constexpr Field struck{self, 1, "struck", FieldKind::flag, struck_meaning};
inline constexpr Field initials{self, 2, "initials", FieldKind::text, "initials that stand beside entries; unique", true};
inline constexpr Field name{self, 3, "name", FieldKind::text, "full name"};
inline constexpr std::array all{&struck, &initials, &name};
}  // namespace person

namespace client {
inline constexpr Entity self = Entity::client;
inline constexpr Field struck{self, 1, "struck", FieldKind::flag, struck_meaning};
inline constexpr Field name{self, 2, "name", FieldKind::text, "name of the person or firm; need not be unique", true};
inline constexpr Field contact{self, 3, "contact", FieldKind::text, "telephone, e-mail or the way to leave word"};
inline constexpr Field address{self, 4, "address", FieldKind::text, "postal address"};
inline constexpr Field remarks{self, 5, "remarks", FieldKind::text, "anything else"};
inline constexpr std::array all{&struck, &name, &contact, &address, &remarks};
}  // namespace client

namespace balance {
inline constexpr Entity self = Entity::balance;
inline constexpr Field struck{self, 1, "struck", FieldKind::flag, struck_meaning};
inline constexpr Field name{self, 2, "name", FieldKind::text, "what the lab calls it", true};
inline constexpr Field step{self,         3,  "step",       FieldKind::reading, "smallest change it shows", false,
                            std::nullopt, {}, Measure::mass};
inline constexpr Field capacity{self, 4, "capacity", FieldKind::reading, "largest load", false, std::nullopt, {}, Measure::mass};
inline constexpr Field repeatability{
    self,         5,  "repeatability", FieldKind::reading, "standard deviation of repeat weighings", false,
    std::nullopt, {}, Measure::mass};
inline constexpr Field remarks{self, 6, "remarks", FieldKind::text, "anything else"};
inline constexpr std::array all{&struck, &name, &step, &capacity, &repeatability, &remarks};
}  // namespace balance

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
inline constexpr std::array all{&struck,     &portion,   &panned_at, &panned_by, &grind,    &largest_colour, &colours,
                                &black_sand, &sulphides, &free_gold, &spoiled,   &excluded, &remarks};
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
inline constexpr std::array all{&struck,     &portion,     &fired_at,  &fired_by,    &repeat_of, &collector, &blank,    &button,
                                &slag_metal, &cupel_metal, &gold_loss, &silver_loss, &slag_look, &spoiled,   &excluded, &remarks};
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
inline constexpr std::array all{&struck, &pan_test, &charge, &none_seen, &method, &fineness, &fineness_u, &look, &remarks};
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
inline constexpr std::array all{&struck, &bead, &what, &number, &mass, &balance, &weighed_at, &weighed_by, &excluded};
}  // namespace weighing

namespace answer {
inline constexpr Entity self = Entity::answer;
inline constexpr Field struck{self, 1, "struck", FieldKind::flag, struck_meaning};
inline constexpr Field rule{self, 2, "rule", FieldKind::text, "the rule whose finding is answered", true};
inline constexpr Field scope{self, 3, "scope", FieldKind::text, "what the finding is about, \"sample:12\"", true};
inline constexpr Field evidence{self, 4, "evidence", FieldKind::text, "hash of the evidence that was answered", true};
inline constexpr Field explanation{self, 5, "explanation", FieldKind::text, "the answer in words", true};
inline constexpr std::array all{&struck, &rule, &scope, &evidence, &explanation};
}  // namespace answer

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
inline constexpr std::array<std::string_view, 10> targets{"none",          "mark",          "kind",     "place",  "expected", "condition",
                                                          "mass_declared", "mass_received", "moisture", "remarks"};
inline constexpr Field struck{self, 1, "struck", FieldKind::flag, struck_meaning};
inline constexpr Field client{self, 2, "client_id", FieldKind::reference, "whose lists have this heading", true, Entity::client};
inline constexpr Field heading{self, 3, "heading", FieldKind::text, "heading of the column, in small letters", true};
inline constexpr Field field{
    self, 4, "field", FieldKind::choice, "the field of the sample it stands for; none: it is passed over", true, std::nullopt,
    targets};
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
