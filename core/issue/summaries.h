// SPDX-License-Identifier: GPL-3.0-or-later
// Summaries in the notebook: drafts with a number, what was issued and kept to the byte, and what takes its place.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/clock.h"
#include "core/base/id.h"
#include "core/history/journal.h"

namespace prillbook::issue {

// What the lab says metal is worth; contained value is printed only where all of a metal's three are there.
struct Price {
  std::optional<std::string> gold, silver;  // numbers as typed
  std::optional<std::string> unit;          // "USD/ozt", "EUR/g": what the number is in, after the slash ozt, g or kg
  std::optional<std::string> date;          // "2026-05-04"

  friend bool operator==(const Price&, const Price&) = default;
};

// Errors: out_of_range for a figure, unit or day that is none; inconsistent for a figure without its unit and day.
Result<void> check_price(const Price& price);

struct Summary {
  SummaryId id;
  std::string number;
  ClientId client;
  std::vector<SampleId> samples;  // in the order in which they stand
  Instant begun_at;
  SummaryId amends;
  std::optional<std::string> what_changed, why_amended;
  std::vector<std::string> hidden;  // names of parts that are not shown
  bool letter = false;              // else A4
  Price price;
  std::optional<std::string> language, title, remarks;  // as in NewDraft
  PersonId issued_by;
  bool preliminary = false;
  std::string content_hash, file_hash, public_key, signature;  // hex; empty before the issue, or unsigned
  std::optional<Instant> issued_at;

  bool is_issued() const { return issued_at.has_value(); }
};

// Parts that can be left out: pictures, sieves, photographs, custody, methods, tests.
std::span<const std::string_view> parts();

struct NewDraft {
  ClientId client;
  std::vector<SampleId> samples;
  std::vector<std::string> hidden = {};
  bool letter = false;
  Price price = {};
  std::optional<std::string> language = {};  // of its pages, "es"; none: the client's or the lab's
  std::optional<std::string> title = {};     // in the place of ours
  std::optional<std::string> remarks = {};   // beside the figures, a paragraph a line
};

// A draft with the next number. Errors: missing_key without a sample; conflict where one is another client's; out_of_range
// for a part or a price that is none; inconsistent for a price without its unit and day.
Result<SummaryId> begin_draft(history::ChangeSet& set, const NewDraft& draft);
Result<SummaryId> begin_draft(history::Journal& journal, const NewDraft& draft);

// What a draft shows, on which paper, and the price. Errors: conflict where it is issued; as begin_draft.
Result<void> change_draft(history::Journal& journal, SummaryId id, const NewDraft& draft);

// A draft that is not wanted is struck out, its number stays taken. Errors: conflict where it is issued.
Result<void> drop_draft(history::Journal& journal, SummaryId id);

// A new draft that takes the place of an issued one: same samples, parts and paper. Errors: conflict where that is not
// issued, or amended already; missing_key without what changed and why.
Result<SummaryId> amend(history::ChangeSet& set, SummaryId issued, const std::string& what_changed, const std::string& why);
Result<SummaryId> amend(history::Journal& journal, SummaryId issued, const std::string& what_changed, const std::string& why);

// What is frozen by an issue.
struct Frozen {
  std::string content;             // what it says, as JSON: kept by its hash
  std::string pdf;                 // kept whole
  std::vector<std::string> bases;  // of its samples, in their order: see basis_of
  bool preliminary = false;
  PersonId by;
  std::string public_key, signature;  // hex; empty: not signed
};

// Freezes a draft. Errors: conflict where it is issued already; out_of_range for a PDF larger than the notebook takes.
Result<void> freeze(history::ChangeSet& set, SummaryId id, const Frozen& frozen);

Result<Summary> summary(store::Connection& connection, SummaryId id);
Result<Summary> summary_by_number(store::Connection& connection, std::string_view number);
// Newest first; of all clients where none is given. A notebook of an older schema has none.
Result<std::vector<Summary>> summaries(store::Connection& connection, ClientId client = {});
// The issued summary that takes the place of this one; nullopt where none does.
Result<std::optional<Summary>> amended_by(store::Connection& connection, SummaryId id);
// The very bytes that were issued. Errors: conflict for a draft; damaged, not_found.
Result<std::string> issued_pdf(store::Connection& connection, SummaryId id);

enum class Signed { no, valid, forged };

// What the notebook knows of a PDF.
struct Verdict {
  std::optional<Summary> issued;  // nullopt: this lab has issued no such file
  std::vector<Summary> amended;   // by what, the next first
  Signed sign = Signed::no;
};
Result<Verdict> verify(store::Connection& connection, std::string_view pdf);

}  // namespace prillbook::issue
