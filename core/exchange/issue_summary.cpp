// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/issue_summary.h"

#include "core/exchange/summary_json.h"

namespace prillbook::exchange {

Result<void> issue_summary(history::Journal& journal, const IssueWish& wish, const PaintPdf& paint) {
  if (!wish.by) return refusal(ErrorCode::missing_key, "by", "say who issues it");
  PRILLBOOK_ASSIGN(issue::Summary draft, issue::summary(journal.connection(), wish.summary));
  if (draft.is_issued())
    return refusal(ErrorCode::conflict, "summary", draft.number + " is issued: it can be amended, not issued again");
  // It is painted as what it becomes, not as a draft.
  draft.issued_at = journal.clock().now();
  PRILLBOOK_ASSIGN(const summary::Numbered numbered, summary::report_of_summary(journal.connection(), draft, *draft.issued_at));
  if (!numbered.held_back.empty() && !wish.over)
    return Error{ErrorCode::conflict, "summary", "a finding that stops is open: " + numbered.held_back, {numbered.held_back}};
  issue::Frozen frozen;
  PRILLBOOK_ASSIGN(frozen.pdf, paint(numbered.report, draft.letter));
  frozen.content = summary_json(numbered.report);
  frozen.bases = numbered.bases;
  frozen.preliminary = numbered.report.preliminary;
  frozen.by = wish.by;
  if (wish.key) {
    frozen.public_key = wish.key->public_hex();
    frozen.signature = wish.key->sign(frozen.pdf);
  }
  return journal.record("issue summary", [&](history::ChangeSet& set) { return issue::freeze(set, wish.summary, frozen); });
}

}  // namespace prillbook::exchange
