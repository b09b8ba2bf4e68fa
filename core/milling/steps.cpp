// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/milling/steps.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/custody/custody.h"
#include "core/history/fields.h"
#include "core/history/record.h"
#include "core/milling/machines.h"
#include "core/units/units.h"

namespace prillbook::milling {
namespace {

namespace step_fields = history::fields::step;
using history::Entity;
using history::Record;
using readings::cell_of;
using readings::Figure;
using readings::figure_of;

Result<Step> step_of(const Record& record) {
  Step step;
  step.id = StepId{record.id()};
  step.sample = record.reference<SampleId>(step_fields::sample);
  step.portion = record.reference<PortionId>(step_fields::portion);
  step.kind = record.text(step_fields::kind);
  step.method = record.optional_text(step_fields::method);
  step.remarks = record.optional_text(step_fields::remarks);
  step.machine = record.reference<MachineId>(step_fields::machine);
  step.closed = record.whole(step_fields::closed) != 0;
  step.done_by = record.reference<PersonId>(step_fields::done_by);
  PRILLBOOK_ASSIGN(step.done_at, parse_iso(record.text(step_fields::done_at)));
  if (const auto began = record.optional_text(step_fields::began_at)) {
    PRILLBOOK_ASSIGN(step.began_at, parse_iso(*began));
  }
  PRILLBOOK_ASSIGN(step.mass_in, figure_of(record, step_fields::mass_in));
  PRILLBOOK_ASSIGN(step.mass_out, figure_of(record, step_fields::mass_out));
  PRILLBOOK_ASSIGN(step.top_size, figure_of(record, step_fields::top_size));
  return step;
}

Result<std::vector<Step>> in_order(const std::vector<Record>& records) {
  std::vector<Step> steps;
  for (const Record& record : records) {
    PRILLBOOK_ASSIGN(Step one, step_of(record));
    steps.push_back(std::move(one));
  }
  std::stable_sort(steps.begin(), steps.end(), [](const Step& a, const Step& b) { return a.done_at.utc_ms < b.done_at.utc_ms; });
  return steps;
}

Error refused(ErrorCode code, const char* field, const char* detail) { return refusal(code, field, detail); }

Result<void> check_masses(const NewStep& step) {
  if (step.mass_in && step.mass_in->value <= 0)
    return refused(ErrorCode::out_of_range, "step.mass_in", "what goes in weighs more than zero");
  if (step.mass_out && step.mass_out->value <= 0)
    return refused(ErrorCode::out_of_range, "step.mass_out", "what comes out weighs more than zero");
  if (step.top_size && step.top_size->value <= 0)
    return refused(ErrorCode::out_of_range, "step.top_size", "a top size is above zero");
  for (const NewPart& part : step.parts)
    if (part.mass && part.mass->value <= 0)
      return refused(ErrorCode::out_of_range, "portion.mass", "a part of a split weighs more than zero");
  return {};
}

Result<void> check_shape(const NewStep& step) {
  if (step.method && step.kind != "split")
    return refused(ErrorCode::inconsistent, "step.method", "only a split has a way of splitting");
  if (!step.parts.empty() && !gives_parts(step.kind))
    return refused(ErrorCode::inconsistent, "step.kind", "only a split or a screen gives parts");
  if (gives_parts(step.kind) && step.mass_out)
    return refused(ErrorCode::inconsistent, "step.mass_out", "a split or screen gives parts: weigh those");
  const bool all_weighed =
      std::all_of(step.parts.begin(), step.parts.end(), [](const NewPart& part) { return part.mass.has_value(); });
  if (step.closed && (!gives_parts(step.kind) || !step.mass_in || step.parts.empty() || !all_weighed))
    return refused(ErrorCode::inconsistent, "step.closed", "for what was lost, weigh what went in and every part");
  return {};
}

// What is worked on must be there by then.
Result<void> check_time(store::Connection& connection, const NewStep& step, const Instant& done) {
  const Instant first = step.began_at.value_or(done);
  if (first.utc_ms > done.utc_ms) return refused(ErrorCode::inconsistent, "step.done_at", "a step is done after it was begun");
  if (step.portion) {
    PRILLBOOK_ASSIGN(const portions::Portion portion, portions::portion(connection, step.portion));
    if (portion.sample != step.sample)
      return refused(ErrorCode::inconsistent, "step.portion_id", "the portion is a part of another sample");
    if (portion.cut_at && first.utc_ms < portion.cut_at->utc_ms)
      return refused(ErrorCode::inconsistent, "step.done_at", "the portion was not cut by then");
    return {};
  }
  PRILLBOOK_ASSIGN(const custody::Sample sample, custody::sample(connection, step.sample));
  PRILLBOOK_ASSIGN(const custody::Consignment consignment, custody::consignment(connection, sample.consignment));
  if (first.utc_ms < consignment.arrived.utc_ms)
    return refused(ErrorCode::inconsistent, "step.done_at", "the sample had not come in by then");
  return {};
}

Result<void> check_machine(store::Connection& connection, const NewStep& step, const Instant& done) {
  if (!step.machine) return {};
  PRILLBOOK_ASSIGN(const Machine used, machine(connection, step.machine));
  if (used.retired(done)) return Error{ErrorCode::conflict, "step.machine_id", "the machine was retired by then", {used.name}};
  const std::int64_t from = step.began_at.value_or(done).utc_ms;
  PRILLBOOK_ASSIGN(const auto cleanings, cleanings_of(connection, step.machine));
  for (const Cleaning& one : cleanings)
    if (from < one.cleaned_at.utc_ms && one.cleaned_at.utc_ms < done.utc_ms)
      return refused(ErrorCode::conflict, "step.began_at", "the machine was cleaned in that time");
  PRILLBOOK_ASSIGN(const auto uses, steps_on(connection, step.machine));
  for (const Step& use : uses) {
    const std::int64_t other_from = use.began_at.value_or(use.done_at).utc_ms, other_to = use.done_at.utc_ms;
    if (from < other_to && other_from < done.utc_ms)
      return refused(ErrorCode::conflict, "step.began_at", "the machine was in other use in that time");
  }
  return {};
}

double typed_step(const std::string& typed) {
  // Digits behind the last mark of the number; a mark that only groups thousands was understood as such when it was read,
  // and then stands before three digits: taking those for decimals makes the step smaller, never larger.
  std::size_t decimals = 0;
  bool behind = false;
  for (const char c : typed) {
    if (c == '.' || c == ',') {
      behind = true;
      decimals = 0;
    } else if (c >= '0' && c <= '9') {
      decimals += behind;
    } else if (decimals > 0) {
      break;
    }
  }
  return std::pow(10.0, -double(decimals));
}

}  // namespace

bool gives_parts(std::string_view kind) { return kind == "split" || kind == "screen"; }

Mass smallest_change(const readings::Reading& mass) {
  if (mass.step_g && *mass.step_g > 0) return Mass(*mass.step_g, unit::gram);
  const Unit<MassDimension>* typed_in = find_mass_unit(mass.unit);
  return Mass(typed_step(mass.typed), typed_in ? *typed_in : unit::gram);
}

double loss_limit_pct(std::string_view kind, const lab::Settings& settings) {
  if (kind == "pulverise") return settings.pulverising_loss_limit_pct;
  if (kind == "screen") return settings.screening_loss_limit_pct;
  return settings.crushing_loss_limit_pct;
}

std::optional<StepBalance> balance_of(const Step& step, const std::vector<portions::Portion>& portions,
                                      const lab::Settings& settings) {
  if (!step.mass_in || step.kind == "dry" || step.kind == "composite") return std::nullopt;
  std::vector<Weighed> out;
  if (gives_parts(step.kind)) {
    if (!step.closed) return std::nullopt;
    for (const portions::Portion& part : portions) {
      if (part.step != step.id) continue;
      if (!part.mass) return std::nullopt;
      out.push_back({part.mass->mass(), smallest_change(*part.mass)});
    }
  } else if (step.mass_out) {
    out.push_back({step.mass_out->mass(), smallest_change(*step.mass_out)});
  }
  const auto balance =
      balance_step({step.mass_in->mass(), smallest_change(*step.mass_in)}, out, loss_limit_pct(step.kind, settings));
  if (!balance) return std::nullopt;
  return *balance;
}

std::optional<Share> moisture_of(const Step& step) {
  if (step.kind != "dry" || !step.mass_in || !step.mass_out || step.mass_in->value <= 0) return std::nullopt;
  if (step.mass_out->value > step.mass_in->value) return std::nullopt;
  return Share(100 * (step.mass_in->value - step.mass_out->value) / step.mass_in->value, unit::percent);
}

Result<DoneStep> do_step(history::ChangeSet& set, const NewStep& step) {
  store::Connection& connection = set.connection();
  const Instant done = step.done_at.value_or(set.when());
  PRILLBOOK_TRY(check_masses(step));
  PRILLBOOK_TRY(check_shape(step));
  PRILLBOOK_TRY(check_time(connection, step, done));
  PRILLBOOK_TRY(check_machine(connection, step, done));
  PRILLBOOK_ASSIGN(const RecordId id, set.make(Entity::step, {{step_fields::sample, cell_of(step.sample)},
                                                              {step_fields::portion, cell_of(step.portion)},
                                                              {step_fields::kind, step.kind},
                                                              {step_fields::method, cell_of(step.method)},
                                                              {step_fields::machine, cell_of(step.machine)},
                                                              {step_fields::mass_in, cell_of(step.mass_in)},
                                                              {step_fields::mass_out, cell_of(step.mass_out)},
                                                              {step_fields::closed, std::int64_t{step.closed}},
                                                              {step_fields::top_size, cell_of(step.top_size)},
                                                              {step_fields::began_at, cell_of(step.began_at)},
                                                              {step_fields::done_at, to_iso(done)},
                                                              {step_fields::done_by, cell_of(step.done_by)},
                                                              {step_fields::remarks, cell_of(step.remarks)}}));
  DoneStep made{StepId{id}, {}};
  for (const NewPart& part : step.parts) {
    portions::NewPortion fresh{step.sample, step.portion, part.purpose, part.mass, done, step.done_by, part.remarks};
    fresh.step = made.step;
    PRILLBOOK_ASSIGN(const PortionId portion, portions::cut(set, fresh));
    made.parts.push_back(portion);
  }
  PRILLBOOK_TRY(portions::check_tree(connection, step.sample));
  return made;
}

Result<DoneStep> do_step(history::Journal& journal, const NewStep& step) {
  return journal.record_for<DoneStep>("enter step", [&](history::ChangeSet& set) { return do_step(set, step); });
}

Result<Step> step(store::Connection& connection, StepId id) {
  PRILLBOOK_ASSIGN(const Record record, history::load_record(connection, Entity::step, id.value));
  return step_of(record);
}

Result<std::vector<Step>> steps_of(history::Source source, SampleId sample) {
  PRILLBOOK_ASSIGN(const auto records, history::load_referring(source, step_fields::sample, sample.value));
  return in_order(records);
}

Result<std::vector<Step>> steps_on(store::Connection& connection, MachineId machine) {
  PRILLBOOK_ASSIGN(const auto records, history::load_referring(connection, step_fields::machine, machine.value));
  return in_order(records);
}

}  // namespace prillbook::milling
