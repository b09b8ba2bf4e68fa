// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/fire/charge_record.h"

#include <algorithm>

#include "core/base/number.h"
#include "core/base/text.h"
#include "core/history/fields.h"
#include "core/history/record.h"

namespace prillbook::fire {
namespace {

namespace charge_fields = history::fields::charge;
using history::Entity;
using history::Record;
using readings::cell_of;
using readings::figure_of;

constexpr std::string_view signs_of_fusion[] = {"matte", "speiss", "prills", "streaks", "pasty", "hard button"};
constexpr std::string_view signs_of_cupellation[] = {"feathers", "froze", "sprouted", "spat", "cracked"};

Result<void> read_furnace(const Record& record, Charge& charge) {
  charge.recipe = record.reference<RecipeId>(charge_fields::recipe);
  charge.litharge_lot = record.reference<LotId>(charge_fields::litharge_lot);
  charge.flux_lot = record.reference<LotId>(charge_fields::flux_lot);
  charge.lead_lot = record.reference<LotId>(charge_fields::lead_lot);
  charge.pot = record.reference<PotId>(charge_fields::pot);
  charge.fusion_run = record.reference<FurnaceRunId>(charge_fields::fusion_run);
  charge.cupellation_run = record.reference<FurnaceRunId>(charge_fields::cupellation_run);
  charge.flour_and_nitre = record.optional_text(charge_fields::flour_and_nitre);
  charge.fusion_signs = record.optional_text(charge_fields::fusion_signs);
  charge.cupellation_signs = record.optional_text(charge_fields::cupellation_signs);
  charge.cupel_kind = record.optional_text(charge_fields::cupel_kind);
  charge.role = controls::role_named(record.text(charge_fields::role));
  charge.duplicate_of = record.reference<ChargeId>(charge_fields::duplicate_of);
  charge.cleaning = record.reference<CleaningId>(charge_fields::cleaning);
  PRILLBOOK_ASSIGN(charge.litharge, figure_of(record, charge_fields::litharge));
  PRILLBOOK_ASSIGN(charge.soda_ash, figure_of(record, charge_fields::soda_ash));
  PRILLBOOK_ASSIGN(charge.borax, figure_of(record, charge_fields::borax));
  PRILLBOOK_ASSIGN(charge.silica, figure_of(record, charge_fields::silica));
  PRILLBOOK_ASSIGN(charge.flour, figure_of(record, charge_fields::flour));
  PRILLBOOK_ASSIGN(charge.nitre, figure_of(record, charge_fields::nitre));
  PRILLBOOK_ASSIGN(charge.flux, figure_of(record, charge_fields::flux));
  PRILLBOOK_ASSIGN(charge.lead_added, figure_of(record, charge_fields::lead_added));
  PRILLBOOK_ASSIGN(charge.cupel, figure_of(record, charge_fields::cupel));
  return {};
}

bool holds_any(const readings::Figure& mass) { return mass && mass->value > 0; }

// The whole charge after the change, as the change set sees it.
Result<void> check_reducers(history::ChangeSet& set, ChargeId id) {
  PRILLBOOK_ASSIGN(const Charge held, charge(set.connection(), id));
  if (!holds_any(held.flour) || !holds_any(held.nitre) || held.flour_and_nitre) return {};
  return Error{ErrorCode::conflict, "charge.flour_and_nitre", "flour and nitre undo each other: say why both are in", {}};
}

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
  PRILLBOOK_ASSIGN(charge.slag_gold, figure_of(record, charge_fields::slag_gold));
  PRILLBOOK_ASSIGN(charge.cupel_gold, figure_of(record, charge_fields::cupel_gold));
  PRILLBOOK_ASSIGN(charge.slag_metal, figure_of(record, charge_fields::slag_metal));
  PRILLBOOK_ASSIGN(charge.cupel_metal, figure_of(record, charge_fields::cupel_metal));
  PRILLBOOK_ASSIGN(charge.gold_loss, figure_of(record, charge_fields::gold_loss));
  PRILLBOOK_ASSIGN(charge.silver_loss, figure_of(record, charge_fields::silver_loss));
  PRILLBOOK_TRY(read_furnace(record, charge));
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
  PRILLBOOK_ASSIGN(const controls::Role role, controls::role_of_portion(set.connection(), charge.portion));
  PRILLBOOK_ASSIGN(const RecordId made,
                   set.make(Entity::charge, {{charge_fields::portion, cell_of(charge.portion)},
                                             {charge_fields::fired_at, to_iso(charge.fired_at.value_or(set.when()))},
                                             {charge_fields::fired_by, cell_of(charge.fired_by)},
                                             {charge_fields::repeat_of, cell_of(charge.repeat_of)},
                                             {charge_fields::collector, cell_of(charge.collector)},
                                             {charge_fields::blank, cell_of(charge.blank)},
                                             {charge_fields::role, cell_of(std::optional(std::string(role_name(role))))}}));
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

Result<std::vector<Charge>> charges_of(history::Source source, PortionId portion) {
  PRILLBOOK_ASSIGN(const auto records, history::load_referring(source, charge_fields::portion, portion.value));
  std::vector<Charge> charges;
  for (const Record& record : records) {
    PRILLBOOK_ASSIGN(Charge charge, charge_of(record));
    charges.push_back(std::move(charge));
  }
  return charges;
}

Result<void> set_reagent(history::ChangeSet& set, ChargeId id, const history::Field& field, const readings::Figure& mass) {
  PRILLBOOK_TRY(set.set(field, id.value, cell_of(mass)));
  return check_reducers(set, id);
}

Result<void> set_reagent(history::Journal& journal, ChargeId id, const history::Field& field, const readings::Figure& mass,
                         const std::optional<std::string>& why) {
  return journal.record("weigh reagent", [&](history::ChangeSet& set) {
    if (why) set.because(*why);
    return set_reagent(set, id, field, mass);
  });
}

Result<void> set_flour_and_nitre(history::ChangeSet& set, ChargeId id, const std::optional<std::string>& reason) {
  PRILLBOOK_TRY(set.set(charge_fields::flour_and_nitre, id.value, cell_of(reason)));
  return check_reducers(set, id);
}

Result<void> set_flour_and_nitre(history::Journal& journal, ChargeId id, const std::optional<std::string>& reason) {
  return journal.record("enter charge.flour_and_nitre",
                        [&](history::ChangeSet& set) { return set_flour_and_nitre(set, id, reason); });
}

Result<void> set_lot(history::ChangeSet& set, ChargeId id, const history::Field& field, LotId lot) {
  if (lot) {
    namespace lot_fields = history::fields::lot;
    PRILLBOOK_ASSIGN(const Record record, history::load_record(set.connection(), Entity::lot, lot.value));
    const std::string_view kind = field.code == charge_fields::litharge_lot.code ? "litharge"
                                  : field.code == charge_fields::lead_lot.code   ? "lead"
                                                                                 : "flux";
    if (record.text(lot_fields::kind) != kind)
      return Error{ErrorCode::inconsistent,
                   "charge." + std::string(field.column),
                   "the lot is of another kind",
                   {record.text(lot_fields::name), record.text(lot_fields::kind)}};
  }
  return set.set(field, id.value, cell_of(lot));
}

Result<void> set_lot(history::Journal& journal, ChargeId id, const history::Field& field, LotId lot) {
  return journal.record("enter lot", [&](history::ChangeSet& set) { return set_lot(set, id, field, lot); });
}

std::span<const std::string_view> fusion_words() { return signs_of_fusion; }
std::span<const std::string_view> cupellation_words() { return signs_of_cupellation; }

// As written: blanks around it, capitals and underscores make no other word.
static bool same_sign(std::string_view typed, std::string_view word) {
  std::string plain = lower_ascii(trimmed(typed));
  std::replace(plain.begin(), plain.end(), '_', ' ');
  return plain == word;
}

bool has_sign(const std::optional<std::string>& signs, std::string_view word) {
  if (!signs) return false;
  std::string_view left = *signs;
  while (!left.empty()) {
    const std::size_t end = std::min(left.find(','), left.size());
    if (same_sign(left.substr(0, end), word)) return true;
    left.remove_prefix(std::min(end + 1, left.size()));
  }
  return false;
}

Result<void> set_signs(history::ChangeSet& set, ChargeId id, const history::Field& field, std::string_view words) {
  const auto known = field.code == charge_fields::fusion_signs.code ? fusion_words() : cupellation_words();
  std::string rest(words);
  for (std::string_view left = rest; !left.empty();) {
    const std::size_t end = std::min(left.find(','), left.size());
    const std::string_view word = trimmed(left.substr(0, end));
    const auto is_it = [&](std::string_view one) { return same_sign(word, one); };
    if (!word.empty() && std::none_of(known.begin(), known.end(), is_it))
      return Error{
          ErrorCode::out_of_range, "charge." + std::string(field.column), "this is no sign of the list", {std::string(word)}};
    left.remove_prefix(std::min(end + 1, left.size()));
  }
  std::string ordered;
  for (const std::string_view word : known)
    if (has_sign(rest, word)) ordered += (ordered.empty() ? "" : ", ") + std::string(word);
  return set.set(field, id.value, cell_of(std::optional(ordered)));
}

Result<void> set_signs(history::Journal& journal, ChargeId id, const history::Field& field, std::string_view words) {
  return journal.record("note signs", [&](history::ChangeSet& set) { return set_signs(set, id, field, words); });
}

Result<int> repeat_number(store::Connection& connection, ChargeId id) {
  constexpr int most = 1000;  // a damaged file may bite its tail
  int number = 0;
  PRILLBOOK_ASSIGN(Charge held, charge(connection, id));
  for (; held.repeat_of && number < most; ++number) {
    PRILLBOOK_ASSIGN(held, charge(connection, held.repeat_of));
  }
  return number;
}

}  // namespace prillbook::fire
