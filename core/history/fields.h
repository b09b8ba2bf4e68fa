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
inline constexpr std::array all{&struck,          &number,       &client,      &arrived, &carrier,
                                &pieces_declared, &pieces_found, &received_by, &remarks};
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
inline constexpr std::array all{&struck,    &number,        &consignment,   &mark,     &kind,       &place,  &expected,
                                &condition, &mass_declared, &mass_received, &moisture, &swept_from, &remarks};
}  // namespace sample

namespace portion {
inline constexpr Entity self = Entity::portion;
inline constexpr std::array<std::string_view, 9> purposes{"pan",    "fire",      "sieve",     "duplicate", "retain",
                                                          "reject", "metallics", "remainder", "tail"};
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
inline constexpr std::array all{&struck, &sample, &parent, &number, &purpose, &mass, &cut_at, &cut_by, &remarks};
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
