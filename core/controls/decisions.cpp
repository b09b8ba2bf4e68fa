// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/controls/decisions.h"

#include "core/history/fields.h"
#include "core/history/record.h"
#include "core/readings/entry.h"

namespace prillbook::controls {
namespace {

namespace decision_fields = history::fields::run_decision;
using history::Entity;
using readings::cell_of;

Result<RunDecision> decision_of(const history::Record& record) {
  RunDecision made;
  made.id = RunDecisionId{record.id()};
  made.run = record.reference<FurnaceRunId>(decision_fields::run);
  made.decision = record.text(decision_fields::decision);
  made.reason = record.optional_text(decision_fields::reason);
  made.evidence = record.text(decision_fields::evidence);
  made.decided_by = record.reference<PersonId>(decision_fields::decided_by);
  PRILLBOOK_ASSIGN(made.decided_at, parse_iso(record.text(decision_fields::decided_at)));
  return made;
}

}  // namespace

Result<RunDecisionId> decide(history::ChangeSet& set, const NewDecision& fresh) {
  const bool plain = fresh.decision == "accepted" && !fresh.over_a_control;
  if (!plain && trimmed(fresh.reason).empty())
    return refusal(ErrorCode::missing_key, "run_decision.reason", "such a decision needs its reason");
  PRILLBOOK_ASSIGN(const RecordId id,
                   set.make(Entity::run_decision, {{decision_fields::run, cell_of(fresh.run)},
                                                   {decision_fields::decision, cell_of(std::optional(fresh.decision))},
                                                   {decision_fields::reason, cell_of(std::optional(fresh.reason))},
                                                   {decision_fields::evidence, cell_of(std::optional(fresh.evidence))},
                                                   {decision_fields::decided_at, to_iso(fresh.decided_at.value_or(set.when()))},
                                                   {decision_fields::decided_by, cell_of(fresh.decided_by)}}));
  return RunDecisionId{id};
}

Result<std::vector<RunDecision>> decisions_of(store::Connection& connection, FurnaceRunId run) {
  PRILLBOOK_ASSIGN(const auto records, history::load_referring(connection, decision_fields::run, run.value));
  std::vector<RunDecision> list;
  for (const history::Record& record : records) {
    PRILLBOOK_ASSIGN(RunDecision one, decision_of(record));
    list.push_back(std::move(one));
  }
  return list;
}

Result<std::optional<RunDecision>> standing_decision(store::Connection& connection, FurnaceRunId run) {
  PRILLBOOK_ASSIGN(const auto all, decisions_of(connection, run));
  return all.empty() ? std::optional<RunDecision>() : std::optional(all.back());
}

}  // namespace prillbook::controls
