// SPDX-License-Identifier: GPL-3.0-or-later
// Fields of summaries; see core/history/fields.h.
#pragma once

#include <array>

#include "core/history/catalogue.h"
#include "core/history/fields_lab.h"

namespace prillbook::history::fields {

namespace summary {
inline constexpr Entity self = Entity::summary;
inline constexpr std::array<std::string_view, 2> papers{"a4", "letter"};
inline constexpr Field struck{self, 1, "struck", FieldKind::flag, struck_meaning};
inline constexpr Field number{self, 2, "number", FieldKind::text, "number of the summary; never given twice", true};
inline constexpr Field client{self, 3, "client_id", FieldKind::reference, "who gets it", true, Entity::client};
inline constexpr Field begun_at{self, 4, "begun_at", FieldKind::instant, "when the draft was begun", true};
inline constexpr Field amends{
    self, 5, "amends_id", FieldKind::reference, "the issued summary whose place it takes", false, Entity::summary};
inline constexpr Field what_changed{self, 6, "what_changed", FieldKind::text, "what is different in it"};
inline constexpr Field why_amended{self, 7, "why_amended", FieldKind::text,
                                   "why it was amended; never absent beside `amends_id`"};
inline constexpr Field hidden{self, 8, "hidden", FieldKind::text,
                              "parts that are not shown, by name with blanks between: pictures, sieves, photographs, custody, "
                              "methods, tests"};
inline constexpr Field paper{self, 9, "paper", FieldKind::choice, "size of the paper; absent: a4", false, std::nullopt, papers};
inline constexpr Field gold_price{self, 10, "gold_price", FieldKind::text, "price of gold that the lab entered, a number"};
inline constexpr Field silver_price{self, 11, "silver_price", FieldKind::text, "price of silver that the lab entered, a number"};
inline constexpr Field price_unit{self, 12, "price_unit", FieldKind::text, "what the price is in, \"USD/ozt\""};
inline constexpr Field price_date{self, 13, "price_date", FieldKind::text, "the day of the price, \"2026-05-04\""};
inline constexpr Field issued_by{self, 14, "issued_by_id", FieldKind::reference, "who issued it", false, Entity::person};
inline constexpr Field preliminary{self, 15, "preliminary", FieldKind::flag, "1 where it went out over a finding that stops"};
inline constexpr Field content_hash{self, 16, "content_hash", FieldKind::text, "hash of what it says, as JSON"};
inline constexpr Field file_hash{self, 17, "file_hash", FieldKind::text, "hash of the issued PDF, by which `content` holds it"};
inline constexpr Field public_key{self, 18, "public_key", FieldKind::text, "Ed25519 key of the lab, 64 hexadecimal digits"};
inline constexpr Field signature{self, 19, "signature", FieldKind::text,
                                 "Ed25519 signature of the issued PDF, 128 hexadecimal digits"};
inline constexpr Field issued_at{self, 20, "issued_at", FieldKind::instant, "when it was issued; from then on it is frozen"};
inline constexpr Field language{
    self,  21,           "language",       FieldKind::choice, "of its pages; absent: the client's, or the lab's",
    false, std::nullopt, client::languages};
inline constexpr Field title{self, 22, "title", FieldKind::text, "title in the place of ours, without the number"};
inline constexpr Field remarks{self, 23, "remarks", FieldKind::text, "what the lab says to the client beside the figures"};
inline constexpr std::array all{&struck,      &number,    &client,      &begun_at,     &amends,       &what_changed,
                                &why_amended, &hidden,    &paper,       &gold_price,   &silver_price, &price_unit,
                                &price_date,  &issued_by, &preliminary, &content_hash, &file_hash,    &public_key,
                                &signature,   &issued_at, &language,    &title,        &remarks};
}  // namespace summary

namespace summary_sample {
inline constexpr Entity self = Entity::summary_sample;
inline constexpr Field struck{self, 1, "struck", FieldKind::flag, struck_meaning};
inline constexpr Field summary{self, 2, "summary_id", FieldKind::reference, "the summary", true, Entity::summary};
inline constexpr Field sample{self, 3, "sample_id", FieldKind::reference, "a sample that it speaks of", true, Entity::sample};
inline constexpr Field basis{self, 4, "basis", FieldKind::text,
                             "the readings that it rested on when it was issued: JSON object of what was read and how"};
inline constexpr std::array all{&struck, &summary, &sample, &basis};
}  // namespace summary_sample

}  // namespace prillbook::history::fields
