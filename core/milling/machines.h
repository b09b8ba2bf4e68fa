// SPDX-License-Identifier: GPL-3.0-or-later
// The machines of the preparation room: what they are, how they were cleaned, and what stays in them.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/base/id.h"
#include "core/history/journal.h"
#include "core/preparation/holdup.h"
#include "core/readings/entry.h"

namespace prillbook::milling {

struct Machine {
  MachineId id;
  std::string name;
  std::optional<std::string> kind, remarks;
  readings::Figure hold_up;
  std::optional<Instant> retired_at;

  bool retired(const Instant& at) const { return retired_at && retired_at->utc_ms <= at.utc_ms; }
};

struct Cleaning {
  CleaningId id;
  MachineId machine;
  std::string way;
  Instant cleaned_at;
  PersonId cleaned_by;
  readings::Figure flush_mass, flush_grade, flush_grade_u, barren_grade;
  bool kept = false;
  std::optional<std::string> remarks;
};

struct NewCleaning {
  MachineId machine;
  std::string way;                    // "brush", "air", "wipe", "flush"
  std::optional<Instant> cleaned_at;  // absent: now
  PersonId cleaned_by;
  readings::Figure flush_mass;  // a flush has one
  bool kept = false;
  std::optional<std::string> remarks;
};

// Errors: missing_key without a name; out_of_range (kind).
Result<MachineId> add_machine(history::Journal& journal, const std::string& name, const std::optional<std::string>& kind,
                              const readings::Figure& hold_up = {});
Result<std::vector<Machine>> machines(store::Connection& connection);
Result<Machine> machine(store::Connection& connection, MachineId id);
// Errors: not_found, ambiguous.
Result<Machine> machine_by_name(store::Connection& connection, std::string_view name);

// Errors: conflict where the machine is retired, or in use at that time; missing_key for a flush without a mass;
// out_of_range (way; a flush of nothing); inconsistent (a mass on what is no flush).
Result<CleaningId> clean(history::Journal& journal, const NewCleaning& cleaning);
Result<CleaningId> clean(history::ChangeSet& set, const NewCleaning& cleaning);
// The last cleaning of the machine once more, now. Errors: not_found where it was never cleaned; as clean.
Result<CleaningId> clean_again(history::Journal& journal, MachineId machine, PersonId by);
// The assay of a kept flush. Errors: inconsistent where the cleaning is no flush.
Result<void> set_flush_assay(history::Journal& journal, CleaningId id, const readings::Figure& grade, const readings::Figure& u,
                             const readings::Figure& barren);
Result<void> set_flush_assay(history::ChangeSet& set, CleaningId id, const readings::Figure& grade, const readings::Figure& u,
                             const readings::Figure& barren);

Result<Cleaning> cleaning(store::Connection& connection, CleaningId id);
// By the time of cleaning, oldest first.
Result<std::vector<Cleaning>> cleanings_of(store::Connection& connection, MachineId machine);

}  // namespace prillbook::milling
