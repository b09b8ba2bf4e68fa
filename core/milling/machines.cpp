// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/milling/machines.h"

#include <fmt/format.h>

#include <algorithm>

#include "core/history/fields.h"
#include "core/history/record.h"
#include "core/milling/steps.h"

namespace prillbook::milling {
namespace {

namespace machine_fields = history::fields::machine;
namespace cleaning_fields = history::fields::cleaning;
using history::Entity;
using history::Record;
using readings::cell_of;
using readings::Figure;
using readings::figure_of;

Result<Machine> machine_of(const Record& record) {
  Machine machine{MachineId{record.id()},
                  record.text(machine_fields::name),
                  record.optional_text(machine_fields::kind),
                  record.optional_text(machine_fields::remarks),
                  {},
                  {}};
  PRILLBOOK_ASSIGN(machine.hold_up, figure_of(record, machine_fields::hold_up));
  if (const auto at = record.optional_text(machine_fields::retired_at)) {
    PRILLBOOK_ASSIGN(machine.retired_at, parse_iso(*at));
  }
  return machine;
}

Result<Cleaning> cleaning_of(const Record& record) {
  Cleaning cleaning;
  cleaning.id = CleaningId{record.id()};
  cleaning.machine = record.reference<MachineId>(cleaning_fields::machine);
  cleaning.way = record.text(cleaning_fields::way);
  cleaning.cleaned_by = record.reference<PersonId>(cleaning_fields::cleaned_by);
  cleaning.kept = record.whole(cleaning_fields::kept) != 0;
  cleaning.remarks = record.optional_text(cleaning_fields::remarks);
  PRILLBOOK_ASSIGN(cleaning.cleaned_at, parse_iso(record.text(cleaning_fields::cleaned_at)));
  PRILLBOOK_ASSIGN(cleaning.flush_mass, figure_of(record, cleaning_fields::flush_mass));
  PRILLBOOK_ASSIGN(cleaning.flush_grade, figure_of(record, cleaning_fields::flush_grade));
  PRILLBOOK_ASSIGN(cleaning.flush_grade_u, figure_of(record, cleaning_fields::flush_grade_u));
  PRILLBOOK_ASSIGN(cleaning.barren_grade, figure_of(record, cleaning_fields::barren_grade));
  return cleaning;
}

Result<void> check_flush(const NewCleaning& cleaning) {
  if (cleaning.way != "flush") {
    if (!cleaning.flush_mass) return {};
    return refusal(ErrorCode::inconsistent, "cleaning.flush_mass", "only a flush has a mass of barren rock");
  }
  if (!cleaning.flush_mass)
    return refusal(ErrorCode::missing_key, "cleaning.flush_mass", "how much barren rock was put through?");
  if (cleaning.flush_mass->value <= 0)
    return refusal(ErrorCode::out_of_range, "cleaning.flush_mass", "a flush has a mass above zero");
  return {};
}

Result<void> check_idle(store::Connection& connection, MachineId id, const Instant& at) {
  PRILLBOOK_ASSIGN(const auto uses, steps_on(connection, id));
  for (const Step& use : uses)
    if (use.began_at && use.began_at->utc_ms < at.utc_ms && at.utc_ms < use.done_at.utc_ms)
      return refusal(ErrorCode::conflict, "cleaning.cleaned_at",
                     "the machine was at work at that time; clean it before or after");
  return {};
}

}  // namespace

Result<MachineId> add_machine(history::Journal& journal, const std::string& name, const std::optional<std::string>& kind,
                              const Figure& hold_up) {
  PRILLBOOK_ASSIGN(const RecordId id, journal.record_for<RecordId>("add machine", [&](history::ChangeSet& set) {
    return set.make(Entity::machine, {{machine_fields::name, cell_of(std::optional(name))},
                                      {machine_fields::kind, cell_of(kind)},
                                      {machine_fields::hold_up, cell_of(hold_up)}});
  }));
  return MachineId{id};
}

Result<std::vector<Machine>> machines(store::Connection& connection) {
  PRILLBOOK_ASSIGN(const auto records, history::load_all(connection, Entity::machine));
  std::vector<Machine> all;
  for (const Record& record : records) {
    PRILLBOOK_ASSIGN(Machine one, machine_of(record));
    all.push_back(std::move(one));
  }
  return all;
}

Result<Machine> machine(store::Connection& connection, MachineId id) {
  PRILLBOOK_ASSIGN(const Record record, history::load_record(connection, Entity::machine, id.value));
  return machine_of(record);
}

Result<Machine> machine_by_name(store::Connection& connection, std::string_view name) {
  PRILLBOOK_ASSIGN(const auto all, machines(connection));
  const Machine* found = nullptr;
  for (const Machine& one : all) {
    if (one.name != name) continue;
    if (found)
      return Error{ErrorCode::ambiguous, "machine", fmt::format("two machines are called {}", name), {std::string(name)}};
    found = &one;
  }
  if (!found) return Error{ErrorCode::not_found, "machine", fmt::format("there is no machine {}", name), {std::string(name)}};
  return *found;
}

Result<CleaningId> clean(history::ChangeSet& set, const NewCleaning& cleaning) {
  const Instant at = cleaning.cleaned_at.value_or(set.when());
  PRILLBOOK_TRY(check_flush(cleaning));
  PRILLBOOK_ASSIGN(const Machine used, machine(set.connection(), cleaning.machine));
  if (used.retired(at)) return Error{ErrorCode::conflict, "cleaning.machine_id", "the machine was retired by then", {used.name}};
  PRILLBOOK_TRY(check_idle(set.connection(), cleaning.machine, at));
  PRILLBOOK_ASSIGN(const RecordId id, set.make(Entity::cleaning, {{cleaning_fields::machine, cell_of(cleaning.machine)},
                                                                  {cleaning_fields::way, cleaning.way},
                                                                  {cleaning_fields::cleaned_at, to_iso(at)},
                                                                  {cleaning_fields::cleaned_by, cell_of(cleaning.cleaned_by)},
                                                                  {cleaning_fields::flush_mass, cell_of(cleaning.flush_mass)},
                                                                  {cleaning_fields::kept, std::int64_t{cleaning.kept}},
                                                                  {cleaning_fields::remarks, cell_of(cleaning.remarks)}}));
  return CleaningId{id};
}

Result<CleaningId> clean(history::Journal& journal, const NewCleaning& cleaning) {
  return journal.record_for<CleaningId>("clean machine", [&](history::ChangeSet& set) { return clean(set, cleaning); });
}

Result<CleaningId> clean_again(history::Journal& journal, MachineId machine, PersonId by) {
  PRILLBOOK_ASSIGN(const auto earlier, cleanings_of(journal.connection(), machine));
  if (earlier.empty()) return refusal(ErrorCode::not_found, "cleaning", "the machine was never cleaned: say how once");
  const Cleaning& last = earlier.back();
  return clean(journal, {machine, last.way, {}, by, last.flush_mass, last.kept, {}});
}

Result<void> set_flush_assay(history::ChangeSet& set, CleaningId id, const Figure& grade, const Figure& u, const Figure& barren) {
  PRILLBOOK_ASSIGN(const Cleaning flush, cleaning(set.connection(), id));
  if (flush.way != "flush") return refusal(ErrorCode::inconsistent, "cleaning.flush_grade", "only a flush can be assayed");
  PRILLBOOK_TRY(set.set(cleaning_fields::flush_grade, id.value, cell_of(grade)));
  PRILLBOOK_TRY(set.set(cleaning_fields::flush_grade_u, id.value, cell_of(u)));
  return set.set(cleaning_fields::barren_grade, id.value, cell_of(barren));
}

Result<void> set_flush_assay(history::Journal& journal, CleaningId id, const Figure& grade, const Figure& u,
                             const Figure& barren) {
  return journal.record("enter flush assay", [&](history::ChangeSet& set) { return set_flush_assay(set, id, grade, u, barren); });
}

Result<Cleaning> cleaning(store::Connection& connection, CleaningId id) {
  PRILLBOOK_ASSIGN(const Record record, history::load_record(connection, Entity::cleaning, id.value));
  return cleaning_of(record);
}

Result<std::vector<Cleaning>> cleanings_of(store::Connection& connection, MachineId machine) {
  PRILLBOOK_ASSIGN(const auto records, history::load_referring(connection, cleaning_fields::machine, machine.value));
  std::vector<Cleaning> all;
  for (const Record& record : records) {
    PRILLBOOK_ASSIGN(Cleaning one, cleaning_of(record));
    all.push_back(std::move(one));
  }
  std::stable_sort(all.begin(), all.end(),
                   [](const Cleaning& a, const Cleaning& b) { return a.cleaned_at.utc_ms < b.cleaned_at.utc_ms; });
  return all;
}

}  // namespace prillbook::milling
