// SPDX-License-Identifier: GPL-3.0-or-later
// Issues a numbered summary: painted once, kept to the byte, frozen.
#pragma once

#include <functional>
#include <string>

#include "core/issue/lab_key.h"
#include "core/summary/gather.h"

namespace prillbook::exchange {

// The way out to what paints: core can not. Gives the bytes of a PDF.
using PaintPdf = std::function<Result<std::string>(const summary::Report& report, bool letter)>;

struct IssueWish {
  SummaryId summary;
  PersonId by;
  const issue::LabKey* key = nullptr;  // signs with it; nullptr: not signed
  bool over = false;                   // as preliminary, where a finding that stops is open
};

// The two halves, for a window that paints beside them.
struct Prepared {
  issue::Summary draft;
  summary::Numbered numbered;
  std::string notebook_state;  // from which it was put together
};
// Before the samples are gathered: is there anybody who issues, and a draft? It comes back as it is painted: issued.
Result<issue::Summary> draft_to_issue(store::Connection& connection, const IssueWish& wish, const Instant& now);
// Errors: conflict where a finding that stops holds it back.
Result<Prepared> prepared(store::Connection& connection, const IssueWish& wish, issue::Summary draft, summary::Numbered numbered);
// Errors: changed_since where the notebook was written to after it was prepared; those of issue::freeze.
Result<void> keep_issued(history::Journal& journal, const IssueWish& wish, const Prepared& prepared, std::string pdf);

// One gesture. Errors: missing_key without a person; conflict where it is issued already, or a finding that stops is open
// (the argument: what it says) and it is not to go out over that; those of `paint` and of the notebook. Nothing is written then.
Result<void> issue_summary(history::Journal& journal, const IssueWish& wish, const PaintPdf& paint);

}  // namespace prillbook::exchange
