// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include "core/controls/materials.h"
#include "core/controls/roles.h"
#include "core/exchange/record_loader.h"
#include "core/fire/runs.h"
#include "core/milling/machines.h"
#include "core/results/run_controls.h"

namespace prillbook::exchange {

namespace fields = history::fields;

Result<void> Loader::control_material(RecordReader reader) {
  namespace f = fields::control_material;
  controls::NewMaterial fresh;
  PRILLBOOK_ASSIGN(fresh.name, reader.text("name"));
  PRILLBOOK_ASSIGN(fresh.kind, reader.text("kind"));
  PRILLBOOK_ASSIGN(fresh.mass, reader.figure("mass", Measure::mass, "g"));
  PRILLBOOK_ASSIGN(fresh.arrived_at, reader.instant("arrived_at"));
  const auto made = controls::add_material(set_, fresh);
  if (!made) return reader.placed(made.error());
  PRILLBOOK_ASSIGN(const controls::Material held, controls::material(set_.connection(), *made));
  for (const history::Field* field : {&f::origin, &f::u_meaning, &f::certificate, &f::remarks})
    PRILLBOOK_TRY(text(reader, *field, made->value));
  for (const history::Field* field : {&f::gold, &f::gold_u, &f::silver, &f::silver_u, &f::gold_sd})
    PRILLBOOK_TRY(figure(reader, *field, made->value, "g/t"));
  PRILLBOOK_TRY(instant(reader, f::used_up_at, made->value));
  charges_.clear();
  PRILLBOOK_TRY(each(reader, "portions", [&](const RecordReader& one) { return portion(one, held.stock, PortionId{}); }));
  return reader.finish();
}

Result<void> Loader::run_decision(RecordReader reader) {
  controls::NewDecision fresh;
  PRILLBOOK_ASSIGN(const std::string run, reader.text("run"));
  PRILLBOOK_ASSIGN(fresh.decision, reader.text("decision"));
  PRILLBOOK_ASSIGN(const auto reason, reader.optional_text("reason"));
  PRILLBOOK_ASSIGN(fresh.decided_at, reader.instant("decided_at"));
  PRILLBOOK_ASSIGN(fresh.decided_by, reader.person("decided_by"));
  fresh.reason = reason.value_or("");
  const auto named = fire::run_by_name(set_.connection(), run);
  if (!named) return reader.placed(named.error());
  fresh.run = named->id;
  if (const auto made = results::decide_run(set_, fresh); !made) return reader.placed(made.error());
  return reader.finish();
}

// The role that "duplicate" names, or ordinary where the test is no duplicate.
Result<controls::Role> Loader::duplicate_role(RecordReader& reader, std::string& of) {
  PRILLBOOK_ASSIGN(const auto kind, reader.optional_text("duplicate"));
  PRILLBOOK_ASSIGN(const auto label, reader.optional_text("duplicate_of"));
  if (!kind && !label) return controls::Role::ordinary;
  if (!kind || !label)
    return reader.input().error(ErrorCode::missing_key, kind ? "duplicate_of" : "duplicate",
                                "a duplicate needs its kind and what it is the duplicate of");
  of = *label;
  const controls::Role role = controls::role_named("duplicate_" + *kind);
  if (role == controls::Role::ordinary)
    return reader.input().error(ErrorCode::out_of_range, "duplicate", fmt::format("'{}' is no kind of duplicate", *kind));
  return role;
}

Result<void> Loader::role_of_charge(RecordReader& reader, ChargeId id) {
  std::string of;
  PRILLBOOK_ASSIGN(const controls::Role role, duplicate_role(reader, of));
  PRILLBOOK_ASSIGN(auto flush, reader.object("flush_of"));
  if (!of.empty()) {
    PRILLBOOK_ASSIGN(const ChargeId first,
                     controls::charge_by_label(set_.connection(), of, reader.input().path_of("duplicate_of")));
    if (const auto marked = controls::set_duplicate(set_, id, first, role); !marked) return reader.placed(marked.error());
  }
  if (!flush) return {};
  PRILLBOOK_ASSIGN(const auto at, flush->instant("cleaned_at"));
  PRILLBOOK_ASSIGN(const MachineId machine, machine_named(*flush, "machine"));
  PRILLBOOK_TRY(flush->finish());
  PRILLBOOK_ASSIGN(const auto cleanings, milling::cleanings_of(set_.connection(), machine));
  for (const milling::Cleaning& one : cleanings)
    if (at && one.cleaned_at.utc_ms == at->utc_ms) {
      const auto marked = controls::set_flush(set_, id, one.id);
      return marked ? Result<void>() : reader.placed(marked.error());
    }
  return flush->input().error(ErrorCode::not_found, "cleaned_at", "the machine was not cleaned at that time");
}

Result<void> Loader::role_of_pan_test(RecordReader& reader, PanTestId id) {
  std::string of;
  PRILLBOOK_ASSIGN(const controls::Role role, duplicate_role(reader, of));
  if (of.empty()) return {};
  PRILLBOOK_ASSIGN(const PanTestId first,
                   controls::pan_test_by_label(set_.connection(), of, reader.input().path_of("duplicate_of")));
  const auto marked = controls::set_duplicate(set_, id, first, role);
  return marked ? Result<void>() : reader.placed(marked.error());
}

}  // namespace prillbook::exchange
