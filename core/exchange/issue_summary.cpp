// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/issue_summary.h"

#include "core/exchange/summary_json.h"

namespace prillbook::exchange {

Result<issue::Summary> draft_to_issue(store::Connection& connection, const IssueWish& wish, const Instant& now) {
  if (!wish.by) return refusal(ErrorCode::missing_key, "by", "say who issues it");
  PRILLBOOK_ASSIGN(issue::Summary draft, issue::summary(connection, wish.summary));
  if (draft.is_issued())
    return refusal(ErrorCode::conflict, "summary", draft.number + " is issued: it can be amended, not issued again");
  // It is painted as what it becomes, not as a draft.
  draft.issued_at = now;
  return draft;
}

Result<Prepared> prepared(store::Connection& connection, const IssueWish& wish, issue::Summary draft,
                          summary::Numbered numbered) {
  if (!numbered.held_back.empty() && !wish.over)
    return Error{ErrorCode::conflict, "summary", "a finding that stops is open: " + numbered.held_back, {numbered.held_back}};
  PRILLBOOK_ASSIGN(const history::Hash head, history::head_of(connection));
  return Prepared{std::move(draft), std::move(numbered), history::hex(head)};
}

Result<void> keep_issued(history::Journal& journal, const IssueWish& wish, const Prepared& prepared, std::string pdf) {
  PRILLBOOK_ASSIGN(const history::Hash head, history::head_of(journal.connection()));
  if (history::hex(head) != prepared.notebook_state)
    return refusal(ErrorCode::changed_since, "summary", "the notebook was written to while it was painted: issue it again");
  issue::Frozen frozen;
  frozen.pdf = std::move(pdf);
  frozen.content = summary_json(prepared.numbered.report);
  frozen.bases = prepared.numbered.bases;
  frozen.preliminary = prepared.numbered.report.preliminary;
  frozen.by = wish.by;
  if (wish.key) {
    frozen.public_key = wish.key->public_hex();
    frozen.signature = wish.key->sign(frozen.pdf);
  }
  return journal.record("issue summary", [&](history::ChangeSet& set) { return issue::freeze(set, wish.summary, frozen); });
}

Result<void> issue_summary(history::Journal& journal, const IssueWish& wish, const PaintPdf& paint) {
  const Instant now = journal.clock().now();
  PRILLBOOK_ASSIGN(issue::Summary draft, draft_to_issue(journal.connection(), wish, now));
  PRILLBOOK_ASSIGN(summary::Numbered numbered, summary::report_of_summary(journal.connection(), draft, now));
  PRILLBOOK_ASSIGN(const Prepared ready, prepared(journal.connection(), wish, std::move(draft), std::move(numbered)));
  PRILLBOOK_ASSIGN(std::string pdf, paint(ready.numbered.report, ready.draft.letter));
  return keep_issued(journal, wish, ready, std::move(pdf));
}

}  // namespace prillbook::exchange
