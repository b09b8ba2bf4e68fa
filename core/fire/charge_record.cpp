// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/fire/charge_record.h"

#include "core/history/fields.h"
#include "core/history/record.h"

namespace prillbook::fire {
namespace {

namespace charge_fields = history::fields::charge;
using history::Entity;
using history::Record;
using readings::cell_of;
using readings::figure_of;

Result<Charge> charge_of(const Record& record) {
  Charge charge;
  charge.id = ChargeId{record.id()};
  charge.portion = record.reference<PortionId>(charge_fields::portion);
  charge.fired_by = record.reference<PersonId>(charge_fields::fired_by);
  charge.repeat_of = record.reference<ChargeId>(charge_fields::repeat_of);
  charge.slag_look = record.optional_text(charge_fields::slag_look);
  charge.remarks = record.optional_text(charge_fields::remarks);
  charge.spoiled = record.optional_text(charge_fields::spoiled);
  charge.excluded = record.optional_text(charge_fields::excluded);
  if (const auto at = record.optional_text(charge_fields::fired_at)) {
    PRILLBOOK_ASSIGN(charge.fired_at, parse_iso(*at));
  }
  PRILLBOOK_ASSIGN(charge.collector, figure_of(record, charge_fields::collector));
  PRILLBOOK_ASSIGN(charge.blank, figure_of(record, charge_fields::blank));
  PRILLBOOK_ASSIGN(charge.button, figure_of(record, charge_fields::button));
  PRILLBOOK_ASSIGN(charge.slag_metal, figure_of(record, charge_fields::slag_metal));
  PRILLBOOK_ASSIGN(charge.cupel_metal, figure_of(record, charge_fields::cupel_metal));
  PRILLBOOK_ASSIGN(charge.gold_loss, figure_of(record, charge_fields::gold_loss));
  PRILLBOOK_ASSIGN(charge.silver_loss, figure_of(record, charge_fields::silver_loss));
  return charge;
}

Result<void> check_repeat(store::Connection& connection, ChargeId repeated) {
  if (!repeated) return {};
  PRILLBOOK_ASSIGN(const Charge earlier, charge(connection, repeated));
  if (!earlier.spoiled) return Error{ErrorCode::inconsistent, "charge.repeat_of_id", "only a spoiled charge is repeated", {}};
  return {};
}

}  // namespace

Result<StartedCharge> start_charge(history::ChangeSet& set, const NewCharge& charge) {
  PRILLBOOK_ASSIGN(const auto earlier, charges_of(set.connection(), charge.portion));
  if (!earlier.empty())
    return Error{ErrorCode::already_exists, "charge.portion_id", "this portion is in a crucible already; cut another", {}};
  PRILLBOOK_TRY(check_repeat(set.connection(), charge.repeat_of));
  PRILLBOOK_ASSIGN(const RecordId made,
                   set.make(Entity::charge, {{charge_fields::portion, cell_of(charge.portion)},
                                             {charge_fields::fired_at, to_iso(charge.fired_at.value_or(set.when()))},
                                             {charge_fields::fired_by, cell_of(charge.fired_by)},
                                             {charge_fields::repeat_of, cell_of(charge.repeat_of)},
                                             {charge_fields::collector, cell_of(charge.collector)},
                                             {charge_fields::blank, cell_of(charge.blank)}}));
  PRILLBOOK_ASSIGN(const RecordId bead, set.make(Entity::bead, {{history::fields::bead::charge, made}}));
  return StartedCharge{ChargeId{made}, BeadId{bead}};
}

Result<StartedCharge> start_charge(history::Journal& journal, const NewCharge& charge) {
  return journal.record_for<StartedCharge>("start charge", [&](history::ChangeSet& set) { return start_charge(set, charge); });
}

Result<void> set_spoiled(history::Journal& journal, ChargeId id, const std::string& reason) {
  return readings::enter(journal, charge_fields::spoiled, id.value, cell_of(std::optional(reason)));
}

Result<Charge> charge(store::Connection& connection, ChargeId id) {
  PRILLBOOK_ASSIGN(const Record record, history::load_record(connection, Entity::charge, id.value));
  return charge_of(record);
}

Result<std::vector<Charge>> charges_of(store::Connection& connection, PortionId portion) {
  PRILLBOOK_ASSIGN(const auto records, history::load_referring(connection, charge_fields::portion, portion.value));
  std::vector<Charge> charges;
  for (const Record& record : records) {
    PRILLBOOK_ASSIGN(Charge charge, charge_of(record));
    charges.push_back(std::move(charge));
  }
  return charges;
}

}  // namespace prillbook::fire
