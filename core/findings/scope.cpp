// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/findings/scope.h"

#include <algorithm>
#include <charconv>

#include "core/findings/statements.h"
#include "core/history/fields.h"
#include "core/history/record.h"

namespace prillbook::findings {
namespace {

using history::Entity;
using results::MachineBooks;

constexpr std::ptrdiff_t uses_behind = 8;  // as far as machine_state() looks back

// How a change of one kind of record is followed.
enum class Way { to_owner, all, machine, consignment, summary, answer, sample, load, material, tray, nowhere };

Way way_of(Entity entity) {
  switch (entity) {
    case Entity::setting:
    case Entity::person:
    case Entity::balance:
    case Entity::check_weight:
    case Entity::check_weighing:
    case Entity::lot:
    case Entity::pot:
    case Entity::sieve: return Way::all;
    case Entity::machine:
    case Entity::cleaning:
    case Entity::crushing_plan:
    case Entity::plan_place: return Way::machine;
    case Entity::consignment: return Way::consignment;
    case Entity::summary: return Way::summary;
    case Entity::answer: return Way::answer;
    case Entity::sample: return Way::sample;
    case Entity::furnace_run:
    case Entity::run_decision: return Way::load;
    case Entity::control_material: return Way::material;
    case Entity::tray:
    case Entity::tray_place: return Way::tray;
    case Entity::client:
    case Entity::own_text:
    case Entity::place:
    case Entity::column_match:
    case Entity::attachment:
    case Entity::sieve_stack:
    case Entity::stack_sieve:
    case Entity::recipe:
    case Entity::run_reading:
    case Entity::proof: return Way::nowhere;
    default: return Way::to_owner;
  }
}

// A record belongs to a sample through one of these.
bool owns(Entity entity) {
  constexpr Entity owners[] = {Entity::sample, Entity::consignment, Entity::portion,        Entity::pan_test,  Entity::charge,
                               Entity::bead,   Entity::step,        Entity::sieve_analysis, Entity::metallics, Entity::summary};
  return std::find(std::begin(owners), std::end(owners), entity) != std::end(owners);
}

class Walk {
 public:
  Walk(store::Connection& connection, MachineBooks& books) : connection_(connection), books_(books) {}

  Result<void> follow(const history::Change& change) {
    switch (way_of(change.entity)) {
      case Way::all: reach_.all = true; return {};
      case Way::nowhere: return {};
      case Way::machine: books_.forget_machines(); return through_machine(change.entity, change.record);
      case Way::answer: return answered(change.record);
      case Way::load: return through_load(change.entity, change.record);
      case Way::material: return through_material(change.record);
      case Way::tray: return through_tray(change.entity, change.record);
      case Way::sample: {
        namespace f = history::fields::sample;
        if (change.field == 0 || change.field == f::mark.code || change.field == history::struck_code)
          PRILLBOOK_TRY(add(sql::samples_of_consignment_of, change.record));
        return climb(change.entity, change.record);
      }
      default:
        if (change.entity == Entity::step) books_.forget_machines();
        if (change.entity == Entity::charge) PRILLBOOK_TRY(charge_changed(change));
        return climb(change.entity, change.record);
    }
  }

  Result<Reach> beside() {
    const std::set<SampleId> own = reach_.samples;
    for (const SampleId sample : own) {
      PRILLBOOK_TRY(add(sql::next_in_pot, sample.value));
      PRILLBOOK_TRY(add(sql::samples_paired_with, sample.value));
      PRILLBOOK_TRY(behind_on_machines(sample));
    }
    return std::move(reach_);
  }

 private:
  Result<void> add(const store::Sql& statement, RecordId record) {
    return connection_.rows(statement, {record}, [&](const store::Row& row) {
      reach_.samples.insert(SampleId{row.integer(0)});
      return true;
    });
  }

  // Up to the sample, or to what holds several.
  Result<void> climb(Entity entity, RecordId record) {
    if (entity == Entity::sample) {
      reach_.samples.insert(SampleId{record});
      return {};
    }
    if (entity == Entity::consignment) return add(sql::samples_of_consignment, record);
    if (entity == Entity::summary) return add(sql::samples_of_summary, record);
    if (entity == Entity::charge) PRILLBOOK_TRY(beside_control(record));
    PRILLBOOK_ASSIGN(const history::Record held, history::load_record(connection_, entity, record));
    for (const history::Field* field : history::spec_of(entity).fields) {
      if (!field->refers || !owns(*field->refers)) continue;
      // What a record was cut from or came out of is of the same sample.
      if (const auto owner = held.optional_whole(*field)) return climb(*field->refers, *owner);
    }
    return {};
  }

  Result<void> through_machine(Entity entity, RecordId record) {
    if (entity == Entity::machine) return add(sql::samples_on_machine, record);
    PRILLBOOK_ASSIGN(const history::Record held, history::load_record(connection_, entity, record));
    for (const history::Field* field : history::spec_of(entity).fields)
      if (field->refers == Entity::machine || field->refers == Entity::crushing_plan)
        if (const auto owner = held.optional_whole(*field)) PRILLBOOK_TRY(through_machine(*field->refers, *owner));
    return {};
  }

  Result<void> through_load(Entity entity, RecordId record) {
    if (entity == Entity::furnace_run) return add(sql::samples_in_load, record);
    PRILLBOOK_ASSIGN(const history::Record held, history::load_record(connection_, entity, record));
    const auto load = held.optional_whole(history::fields::run_decision::run);
    return load ? add(sql::samples_in_load, *load) : Result<void>();
  }

  // The order on a tray is of all that stands there.
  Result<void> through_tray(Entity entity, RecordId record) {
    if (entity == Entity::tray) return add(sql::samples_on_tray, record);
    PRILLBOOK_ASSIGN(const history::Record held, history::load_record(connection_, entity, record));
    const auto tray = held.optional_whole(history::fields::tray_place::tray);
    return tray ? add(sql::samples_on_tray, *tray) : Result<void>();
  }

  Result<void> through_material(RecordId record) {
    PRILLBOOK_ASSIGN(const history::Record held, history::load_record(connection_, Entity::control_material, record));
    const auto stock = held.optional_whole(history::fields::control_material::stock);
    if (!stock) return {};
    reach_.samples.insert(SampleId{*stock});
    return beside_controls_of(*stock, 0);
  }

  // What a control says speaks for the loads it went through, and on its chart for those of the controls after it.
  Result<void> beside_control(RecordId charge) {
    std::vector<std::pair<RecordId, RecordId>> controls;
    PRILLBOOK_TRY(connection_.rows(sql::controls_of_charge, {charge}, [&](const store::Row& row) {
      controls.emplace_back(row.integer(0), row.integer(1));
      return true;
    }));
    for (const auto& [stock, first] : controls) PRILLBOOK_TRY(beside_controls_of(stock, first));
    return {};
  }

  Result<void> beside_controls_of(RecordId stock, RecordId first) {
    return connection_.rows(sql::samples_beside_controls, {stock, first}, [&](const store::Row& row) {
      reach_.samples.insert(SampleId{row.integer(0)});
      return true;
    });
  }

  // A control counts for the charges after it, and one that was taken out of a load is missed there.
  Result<void> charge_changed(const history::Change& change) {
    namespace f = history::fields::charge;
    const bool counted = change.field == f::role.code || change.field == f::spoiled.code || change.field == history::struck_code;
    if (counted) PRILLBOOK_TRY(add(sql::samples_of_later_charges, change.record));
    if (counted || change.field == f::fusion_run.code || change.field == f::cupellation_run.code)
      return add(sql::samples_of_former_loads, change.record);
    return {};
  }

  Result<void> answered(RecordId record) {
    PRILLBOOK_ASSIGN(const history::Record held, history::load_record(connection_, Entity::answer, record));
    const std::string scope = held.text(history::fields::answer::scope);
    constexpr std::string_view of_sample = "sample:";
    RecordId id = 0;
    if (!scope.starts_with(of_sample)) return {};
    std::from_chars(scope.data() + of_sample.size(), scope.data() + scope.size(), id);
    if (id > 0) reach_.samples.insert(SampleId{id});
    return {};
  }

  // A use whose rock was assayed teaches the hold-up where an assayed flush came right behind it.
  static bool teaches(const MachineBooks::Book& book, std::vector<milling::Step>::const_iterator use) {
    const auto next = std::next(use);
    const std::int64_t until = next == book.uses.end() ? INT64_MAX : next->done_at.utc_ms;
    return std::any_of(book.cleanings.begin(), book.cleanings.end(), [&](const milling::Cleaning& one) {
      return one.flush_grade && one.cleaned_at.utc_ms >= use->done_at.utc_ms && one.cleaned_at.utc_ms < until;
    });
  }

  Result<void> behind_on_machines(SampleId sample) {
    PRILLBOOK_ASSIGN(const auto steps, milling::steps_of(connection_, sample));
    for (const milling::Step& step : steps) {
      if (!step.machine) continue;
      PRILLBOOK_ASSIGN(MachineBooks::Book* const book, books_.of(step.machine));
      const auto use = std::find_if(book->uses.begin(), book->uses.end(), [&](const auto& one) { return one.id == step.id; });
      if (use == book->uses.end()) continue;
      if (teaches(*book, use)) {
        book->flushes.reset();
        PRILLBOOK_TRY(add(sql::samples_on_machine, step.machine.value));
        continue;
      }
      const auto last = use + std::min(uses_behind + 1, book->uses.end() - use);
      std::for_each(use, last, [&](const milling::Step& one) { reach_.samples.insert(one.sample); });
    }
    return {};
  }

  store::Connection& connection_;
  MachineBooks& books_;
  Reach reach_;
};

}  // namespace

Result<Reach> reach_of(store::Connection& connection, MachineBooks& books, std::span<const history::Change> changes) {
  Walk walk(connection, books);
  for (const history::Change& change : changes) PRILLBOOK_TRY(walk.follow(change));
  return walk.beside();
}

}  // namespace prillbook::findings
