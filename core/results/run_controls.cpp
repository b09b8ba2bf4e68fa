// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/results/run_controls.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/assay/rounding.h"
#include "core/fire/runs.h"
#include "core/history/chain.h"
#include "core/history/fields.h"
#include "core/history/record.h"
#include "core/milling/machines.h"
#include "core/results/statements.h"
#include "core/units/units.h"

namespace prillbook::results {
namespace {

using controls::Role;

std::string grade_words(const MeasuredGrade& grade, DecimalMark mark) {
  std::optional<double> half;
  if (grade.lo && grade.hi) half = (grade.hi->in(unit::gram_per_tonne)-grade.lo->in(unit::gram_per_tonne)) / 2;
  return written(grade.g_t(), half && *half > 0 ? half : std::nullopt, {}, mark) + " g/t gold";
}

std::string limit_words(double limit, std::string_view unit, DecimalMark mark) {
  return fmt::format("at most {} {}", written(limit, {}, {}, mark), unit);
}

// A bead whose gold nobody knows yet is within where all of it would be.
void judge_rock_blank(const SingleTest& test, const TestReader& reader, ControlResult& control) {
  const double limit = reader.settings().blank_limit_g_t;
  control.allowed = limit_words(limit, "g/t", reader.mark());
  if (const MeasuredGrade* gold = test.gold()) {
    control.found = test.grade->none_seen ? "no bead seen" : grade_words(*gold, reader.mark());
    control.verdict = gold->g_t() > limit ? ControlVerdict::outside : ControlVerdict::within;
  } else if (test.grade && !test.left_out && test.grade->bead.g_t() <= limit) {
    control.found = written(test.grade->bead.g_t(), {}, {}, reader.mark()) + " g/t bead";
    control.verdict = ControlVerdict::within;
  }
}

void judge_flux_blank(const SingleTest& test, const TestReader& reader, ControlResult& control) {
  const Mass limit(reader.settings().flux_blank_limit_mg, unit::milligram);
  control.allowed = limit_words(reader.settings().flux_blank_limit_mg, "mg gold", reader.mark());
  const auto bead = test.bead.none_seen ? std::optional(Mass()) : test.bead.mean(weighing::of_bead);
  auto gold = test.bead.mean(weighing::of_gold);
  if (!gold && bead && test.bead.fineness) gold = *bead * (test.bead.fineness->value / 1000);
  if (!gold && bead && *bead <= limit) gold = bead;
  if (!gold || test.left_out) return;
  control.found =
      test.bead.none_seen ? "no bead seen" : fmt::format("{} mg gold", fixed(gold->in(unit::milligram), 4, reader.mark()));
  control.verdict = *gold > limit ? ControlVerdict::outside : ControlVerdict::within;
}

void judge_reference(const ControlChart& chart, const SingleTest& test, DecimalMark mark, ControlResult& control) {
  const MeasuredGrade* gold = test.gold();
  if (!gold) return;
  control.found = grade_words(*gold, mark);
  if (!chart.limits || chart.points.empty() || chart.points.back().charge != test.charge) {
    control.verdict = ControlVerdict::not_judged;
    return;
  }
  const ChartLimits& limits = *chart.limits;
  const int places = decimals_for_uncertainty(limits.sd);
  control.allowed = fmt::format("{} ± {} g/t, 3 s", rounded(limits.target, places, mark), rounded(3 * limits.sd, places, mark));
  control.verdict = ControlVerdict::within;
  for (const ChartSignal& signal : chart.alarms) {
    if (signal.point + 1 != chart.points.size()) continue;
    control.alarms.push_back(signal);
    if (signal.rejects)
      control.verdict = ControlVerdict::outside;
    else if (control.verdict == ControlVerdict::within)
      control.verdict = ControlVerdict::warning;
  }
}

Result<void> judge_duplicate(TestReader& reader, const SingleTest& test, ControlResult& control) {
  PRILLBOOK_ASSIGN(const DuplicatePair pair, pair_of(reader, test));
  control.name = pair.first.label;
  control.verdict = pair.verdict;
  control.allowed = fmt::format("{} % apart", written(pair.limit_pct, {}, {}, reader.mark()));
  const MeasuredGrade *a = pair.first.gold(), *b = pair.second.gold();
  if (a && b)
    control.found = fmt::format("{} and {} g/t gold, {} % apart", written(a->g_t(), {}, 0.01, reader.mark()),
                                written(b->g_t(), {}, 0.01, reader.mark()), fixed(*pair.apart_pct, 0, reader.mark()));
  return {};
}

Result<ControlResult> judge(TestReader& reader, const SingleTest& test) {
  ControlResult control{test.charge, test.label, test.role, {}, {}, {}, ControlVerdict::waiting, {}, test.sample};
  if (controls::is_duplicate(test.role)) {
    PRILLBOOK_TRY(judge_duplicate(reader, test, control));
    return control;
  }
  PRILLBOOK_ASSIGN(const auto material, controls::material_of(reader.connection(), test.sample));
  if (material) control.name = material->name;
  if (test.role == Role::blank_rock) judge_rock_blank(test, reader, control);
  if (test.role == Role::blank_flux) judge_flux_blank(test, reader, control);
  if (test.role == Role::reference && material) {
    PRILLBOOK_ASSIGN(const ControlChart chart, control_chart(reader, *material, test.charge));
    judge_reference(chart, test, reader.mark(), control);
  }
  if (test.role == Role::flush) {
    control.verdict = ControlVerdict::not_judged;
    if (test.gold()) control.found = grade_words(*test.gold(), reader.mark());
  }
  if (test.left_out) {
    control.verdict = ControlVerdict::not_judged;
    control.found = *test.left_out;
  }
  return control;
}

std::string evidence_of(const std::vector<ControlResult>& controls) {
  std::string bytes;
  for (const ControlResult& one : controls)
    bytes += fmt::format("{}|{}|{}|{}\n", one.label, role_name(one.role), one.found, int(one.verdict));
  return history::hex_digest(bytes);
}

bool any(const std::vector<ControlResult>& controls, ControlVerdict verdict) {
  return std::any_of(controls.begin(), controls.end(), [&](const ControlResult& one) { return one.verdict == verdict; });
}

// An acceptance stands for what it was given on; a held or repeated load stays so until something else is decided.
RunStanding standing_of(RunControls& run) {
  if (run.decision) {
    if (run.decision->decision == "held") return RunStanding::held;
    if (run.decision->decision == "repeated") return RunStanding::repeated;
    if (run.decision->evidence == run.evidence) return RunStanding::accepted;
    run.changed_since = true;
  }
  if (run.controls.empty()) return RunStanding::no_controls;
  if (run.outside()) return RunStanding::outside;
  return any(run.controls, ControlVerdict::waiting) ? RunStanding::waiting : RunStanding::within;
}

// A figure that is computed is written down with a point, to four places that count.
readings::Figure grade_reading(double value, const char* unit) {
  auto reading = readings::parse(shortest(std::round(value * 10000) / 10000), {Measure::grade, unit, DecimalMark::point, true});
  return reading ? readings::Figure(*std::move(reading)) : readings::Figure();
}

}  // namespace

std::string_view standing_name(RunStanding standing) {
  switch (standing) {
    case RunStanding::no_controls: return "no_controls";
    case RunStanding::waiting: return "waiting";
    case RunStanding::within: return "within";
    case RunStanding::outside: return "outside";
    case RunStanding::accepted: return "accepted";
    case RunStanding::held: return "held";
    case RunStanding::repeated: return "repeated";
  }
  return "";
}

bool RunControls::outside() const { return any(controls, ControlVerdict::outside); }

Result<RunControls> run_controls(TestReader& reader, FurnaceRunId id) {
  RunControls made;
  made.run = id;
  PRILLBOOK_ASSIGN(const history::Record record,
                   history::load_record(reader.connection(), history::Entity::furnace_run, id.value));
  made.name = record.text(history::fields::furnace_run::name);
  PRILLBOOK_ASSIGN(const auto charges, fire::charges_in(reader.connection(), id));
  for (const ChargeId charge : charges) {
    PRILLBOOK_ASSIGN(const history::Record one, history::load_record(reader.connection(), history::Entity::charge, charge.value));
    if (one.text(history::fields::charge::role).empty()) continue;
    PRILLBOOK_ASSIGN(const SingleTest test, reader.read(charge));
    PRILLBOOK_ASSIGN(ControlResult control, judge(reader, test));
    made.controls.push_back(std::move(control));
  }
  PRILLBOOK_ASSIGN(made.decision, controls::standing_decision(reader.connection(), id));
  made.evidence = evidence_of(made.controls);
  made.standing = standing_of(made);
  return made;
}

namespace {

Result<std::vector<RunControls>> runs_listed(TestReader& reader, const store::Sql& statement, std::int64_t most) {
  std::vector<FurnaceRunId> ids;
  PRILLBOOK_TRY(reader.connection().rows(statement, {most}, [&](const store::Row& row) {
    ids.push_back(FurnaceRunId{row.integer(0)});
    return true;
  }));
  std::vector<RunControls> list;
  for (const FurnaceRunId id : ids) {
    PRILLBOOK_ASSIGN(RunControls run, run_controls(reader, id));
    list.push_back(std::move(run));
  }
  return list;
}

}  // namespace

Result<std::vector<RunControls>> runs_with_controls(TestReader& reader, std::int64_t most) {
  return runs_listed(reader, sql::runs_with_controls, most);
}

Result<int> count_runs_to_decide(store::Connection& connection, std::int64_t most) {
  PRILLBOOK_ASSIGN(TestReader reader, TestReader::open(connection));
  PRILLBOOK_ASSIGN(const auto runs, runs_listed(reader, sql::runs_to_decide, most));
  return int(std::count_if(runs.begin(), runs.end(), [](const RunControls& run) { return run.outside(); }));
}

Result<void> decide_run(history::ChangeSet& set, controls::NewDecision decision) {
  PRILLBOOK_ASSIGN(TestReader reader, TestReader::open(set.connection()));
  PRILLBOOK_ASSIGN(const RunControls run, run_controls(reader, decision.run));
  decision.evidence = run.evidence;
  decision.over_a_control = run.outside();
  const auto made = controls::decide(set, decision);
  return made ? Result<void>() : made.error();
}

Result<void> decide_run(history::Journal& journal, FurnaceRunId run, const std::string& decision, const std::string& reason,
                        PersonId by) {
  return journal.record("decide run", [&](history::ChangeSet& set) {
    return decide_run(set, {run, decision, reason, {}, false, {}, by});
  });
}

Result<void> take_flush_assay(history::Journal& journal, ChargeId id) {
  PRILLBOOK_ASSIGN(TestReader reader, TestReader::open(journal.connection()));
  PRILLBOOK_ASSIGN(const SingleTest test, reader.read(id));
  PRILLBOOK_ASSIGN(const fire::Charge held, fire::charge(journal.connection(), id));
  if (!held.cleaning || !test.gold()) return refusal(ErrorCode::missing_key, "charge.bead", "the flush has no gold figure yet");
  PRILLBOOK_ASSIGN(const milling::Cleaning flush, milling::cleaning(journal.connection(), held.cleaning));
  const auto& spread = test.gold()->spread;
  return milling::set_flush_assay(journal, held.cleaning, grade_reading(test.gold()->g_t(), "g/t"),
                                  spread ? grade_reading(spread->u, "g/t") : readings::Figure(), flush.barren_grade);
}

Result<void> take_lot_silver(history::Journal& journal, ChargeId id) {
  PRILLBOOK_ASSIGN(const fire::Charge held, fire::charge(journal.connection(), id));
  PRILLBOOK_ASSIGN(const weighing::Bead bead, weighing::bead_of(journal.connection(), id));
  const auto metal = bead.mean(weighing::of_bead);
  if (!held.litharge_lot || !held.litharge || !(held.litharge->mass() > Mass()))
    return refusal(ErrorCode::missing_key, "charge.litharge", "its litharge and the lot of it are not entered");
  if (!metal) return refusal(ErrorCode::missing_key, "charge.bead", "the bead is not weighed yet");
  const Mass silver = *metal - bead.mean(weighing::of_gold).value_or(Mass());
  const double mg_per_100_g = grade(silver, held.litharge->mass()).in(unit::gram_per_tonne) / 10;
  return readings::enter(journal, history::fields::lot::silver, held.litharge_lot.value,
                         readings::cell_of(grade_reading(std::max(0.0, mg_per_100_g), "mg/100 g")));
}

}  // namespace prillbook::results
