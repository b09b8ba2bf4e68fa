// SPDX-License-Identifier: GPL-3.0-or-later
// Fields of the lab itself, and answers to findings; see core/history/fields.h.
#pragma once

#include <array>

#include "core/history/catalogue.h"

namespace prillbook::history::fields {

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
inline constexpr std::array<std::string_view, 2> languages{"en", "es"};
inline constexpr Field language{
    self,         6,        "language", FieldKind::choice, "of the summaries for this client; absent: the lab's", false,
    std::nullopt, languages};
inline constexpr std::array all{&struck, &name, &contact, &address, &remarks, &language};
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

namespace own_text {
inline constexpr Entity self = Entity::own_text;
inline constexpr Field struck{self, 1, "struck", FieldKind::flag, struck_meaning};
inline constexpr Field language{
    self, 2, "language", FieldKind::choice, "language of the words", true, std::nullopt, client::languages};
inline constexpr Field key{self, 3, "key", FieldKind::text, "the text whose place they take, \"caution.as_received\"", true};
inline constexpr Field words{self, 4, "words", FieldKind::text, "the words, with the same placeholders", true};
inline constexpr std::array all{&struck, &language, &key, &words};
}  // namespace own_text

namespace answer {
inline constexpr Entity self = Entity::answer;
inline constexpr Field struck{self, 1, "struck", FieldKind::flag, struck_meaning};
inline constexpr Field rule{self, 2, "rule", FieldKind::text, "the rule whose finding is answered", true};
inline constexpr Field scope{self, 3, "scope", FieldKind::text, "what the finding is about, \"sample:12\"", true};
inline constexpr Field evidence{self, 4, "evidence", FieldKind::text, "hash of the evidence that was answered", true};
inline constexpr Field explanation{self, 5, "explanation", FieldKind::text, "the answer in words", true};
inline constexpr std::array all{&struck, &rule, &scope, &evidence, &explanation};
}  // namespace answer

}  // namespace prillbook::history::fields
