// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/weighing/bead.h"

#include <fmt/format.h>

#include <algorithm>

#include "core/history/fields.h"
#include "core/history/record.h"
#include "core/lab/lab.h"
#include "core/units/units.h"
#include "core/weighing/statements.h"
#include "core/weighing/tare.h"

namespace prillbook::weighing {
namespace {

namespace bead_fields = history::fields::bead;
namespace weighing_fields = history::fields::weighing;
using history::Entity;
using history::Record;
using readings::cell_of;
using readings::Figure;
using readings::figure_of;
using readings::Reading;

Result<Weighing> weighing_of(const Record& record) {
  namespace f = weighing_fields;
  PRILLBOOK_ASSIGN(const Figure mass, figure_of(record, f::mass));
  if (!mass) return Error{ErrorCode::damaged, "weighing.mass", fmt::format("weighing {} has no mass", record.id()), {}};
  Weighing weighing{WeighingId{record.id()},
                    record.text(f::what),
                    record.whole(f::number),
                    *mass,
                    record.reference<BalanceId>(f::balance),
                    {},
                    record.reference<PersonId>(f::weighed_by),
                    record.optional_text(f::excluded),
                    record.optional_text(f::raw),
                    {},
                    {},
                    record.reference<TrayId>(f::tray),
                    record.whole(f::position)};
  PRILLBOOK_ASSIGN(weighing.gross, figure_of(record, f::gross));
  PRILLBOOK_ASSIGN(weighing.tare, figure_of(record, f::tare));
  if (const auto at = record.optional_text(f::weighed_at)) {
    PRILLBOOK_ASSIGN(weighing.weighed_at, parse_iso(*at));
  }
  return weighing;
}

Result<Bead> before_melting(history::Source source, const Record& record) {
  namespace f = bead_fields;
  Bead bead;
  bead.id = BeadId{record.id()};
  bead.pan_test = record.reference<PanTestId>(f::pan_test);
  bead.charge = record.reference<ChargeId>(f::charge);
  bead.none_seen = record.whole(f::none_seen) != 0;
  bead.method = record.optional_text(f::method);
  bead.look = record.optional_text(f::look);
  bead.remarks = record.optional_text(f::remarks);
  PRILLBOOK_ASSIGN(bead.fineness, figure_of(record, f::fineness));
  PRILLBOOK_ASSIGN(bead.fineness_u, figure_of(record, f::fineness_u));
  PRILLBOOK_ASSIGN(bead.in_air, figure_of(record, f::in_air));
  PRILLBOOK_ASSIGN(bead.in_water, figure_of(record, f::in_water));
  PRILLBOOK_ASSIGN(bead.inquart, figure_of(record, f::inquart));
  PRILLBOOK_ASSIGN(bead.residual_silver, figure_of(record, f::residual_silver));
  bead.parting_look = record.optional_text(f::parting_look);
  bead.melted_into = record.reference<BeadId>(f::melted_into);
  PRILLBOOK_ASSIGN(const auto rows, history::load_referring(source, weighing_fields::bead, record.id()));
  for (const Record& row : rows) {
    PRILLBOOK_ASSIGN(Weighing weighing, weighing_of(row));
    bead.weighings.push_back(std::move(weighing));
  }
  return bead;
}

// What the joint bead says of the one that was melted into it, and of itself.
Result<void> take_melt(history::Source source, Bead& bead) {
  const BeadId joint = bead.melted_into ? bead.melted_into : bead.id;
  PRILLBOOK_ASSIGN(const auto away, history::load_referring(source, bead_fields::melted_into, joint.value));
  if (away.empty()) return {};
  PRILLBOOK_ASSIGN(const Record record, history::load_record(source, Entity::bead, joint.value));
  PRILLBOOK_ASSIGN(const Bead whole, before_melting(source, record));
  Melt melt{joint, {}, whole.mean(of_bead).value_or(Mass()), whole.mean(of_gold)};
  for (const Record& one : away) {
    PRILLBOOK_ASSIGN(const Bead part, before_melting(source, one));
    melt.melted_away.push_back(part.id);
    melt.together += part.mean(of_bead).value_or(Mass());
  }
  if (bead.melted_into) {
    bead.method = whole.method;
    bead.fineness = whole.fineness;
    bead.fineness_u = whole.fineness_u;
  }
  bead.melt = std::move(melt);
  return {};
}

Result<Bead> with_weighings(history::Source source, const Record& record) {
  PRILLBOOK_ASSIGN(Bead bead, before_melting(source, record));
  PRILLBOOK_TRY(take_melt(source, bead));
  return bead;
}

Result<Bead> bead_referring(history::Source source, const history::Field& reference, RecordId id) {
  PRILLBOOK_ASSIGN(const auto records, history::load_referring(source, reference, id));
  if (records.empty()) return Error{ErrorCode::not_found, "bead", "the test has no bead", {}};
  return with_weighings(source, records.front());
}

Result<Origin> origin_of(const store::Row& row) {
  Origin origin{BeadId{row.integer(0)}, SampleId{row.integer(1)}, PortionId{row.integer(2)}, row.text(3), row.text(4),
                row.integer(5) != 0,    row.integer(6),           row.optional_text(7),      {}};
  if (const auto cell = row.optional_text(8)) {
    PRILLBOOK_ASSIGN(origin.portion_mass, readings::decode(*cell, Measure::mass));
  }
  return origin;
}

Result<std::vector<Origin>> origins(store::Connection& connection, const store::Sql& statement,
                                    const store::Arguments& arguments) {
  std::vector<Origin> list;
  Result<void> outcome;
  PRILLBOOK_TRY(connection.rows(statement, arguments, [&](const store::Row& row) {
    auto one = origin_of(row);
    if (one)
      list.push_back(*std::move(one));
    else
      outcome = one.error();
    return outcome.ok();
  }));
  PRILLBOOK_TRY(outcome);
  return list;
}

// A bead can not weigh more than what it came from, nor its gold more than the bead (by more than two steps).
Result<void> check_against_origin(store::Connection& connection, const Bead& bead, std::string_view what, const Reading& mass) {
  PRILLBOOK_ASSIGN(const Origin from, origin(connection, bead.id));
  if (from.portion_mass && mass.mass() > from.portion_mass->mass())
    return Error{ErrorCode::inconsistent,
                 "weighing.mass",
                 fmt::format("{} is more than the portion of {}", mass.typed, from.portion_mass->typed),
                 {mass.typed, from.portion_mass->typed}};
  const auto beads = bead.valid(of_bead);
  if (what != of_gold || beads.empty()) return {};
  Mass heaviest;
  for (const Weighing* weighing : beads) heaviest = std::max(heaviest, weighing->mass.mass());
  if (bead.melt) heaviest = std::max(heaviest, bead.melt->together);
  const Mass allowance(2 * mass.step_g.value_or(0), unit::gram);
  if (mass.mass() > heaviest + allowance)
    return Error{
        ErrorCode::inconsistent, "weighing.mass", "the gold is heavier than its bead", {mass.typed, beads.front()->mass.typed}};
  return {};
}

// What was read off, and the mass that it gives.
struct ReadOff {
  Reading mass;
  Figure gross, tare;
};

Result<ReadOff> read_off(store::Connection& connection, const NewWeighing& weighing) {
  ReadOff read{weighing.mass, {}, {}};
  if (bool(weighing.gross) != bool(weighing.tare))
    return refusal(ErrorCode::missing_key, weighing.gross ? "weighing.tare" : "weighing.gross",
                   "a cup is weighed empty and with its bead");
  if (weighing.gross) {
    PRILLBOOK_ASSIGN(read.gross, lab::on_balance(connection, *weighing.gross, weighing.balance));
    PRILLBOOK_ASSIGN(read.tare, lab::on_balance(connection, *weighing.tare, weighing.balance));
    PRILLBOOK_ASSIGN(read.mass, net_of(*read.gross, *read.tare));
  }
  PRILLBOOK_ASSIGN(read.mass, lab::on_balance(connection, read.mass, weighing.balance));
  return read;
}

Result<void> check_fineness(const std::optional<std::string>& method, const Figure& fineness, const Figure& uncertainty) {
  if (!method) {
    if (fineness) return Error{ErrorCode::missing_key, "bead.fineness_method", "say how the fineness was got", {}};
    return {};
  }
  if (*method == "parted") {
    if (fineness) return Error{ErrorCode::conflict, "bead.fineness", "a parted bead has its fineness from its weighings", {}};
    return {};
  }
  if (!fineness) return Error{ErrorCode::missing_key, "bead.fineness", "the fineness is missing", {}};
  const bool needs_uncertainty = *method == "density" || *method == "stated";
  if (needs_uncertainty && !uncertainty)
    return Error{ErrorCode::missing_key, "bead.fineness_u", "this method needs its uncertainty beside it", {}};
  return {};
}

}  // namespace

bool Weighing::is_difference() const { return gross && tare && mass.answer == net_is_derived; }

std::vector<const Weighing*> Bead::valid(std::string_view what) const {
  std::vector<const Weighing*> list;
  for (const Weighing& weighing : weighings)
    if (weighing.what == what && !weighing.excluded) list.push_back(&weighing);
  return list;
}

std::optional<Mass> Bead::mean(std::string_view what) const {
  const auto list = valid(what);
  if (list.empty()) return std::nullopt;
  Mass sum;
  for (const Weighing* weighing : list) sum += weighing->mass.mass();
  return sum / double(list.size());
}

std::optional<Parted> Bead::parted() const {
  if (method != "parted") return std::nullopt;
  const std::optional<Mass> whole = melt ? std::optional(melt->together) : mean(of_bead);
  const std::optional<Mass> gold = melt ? melt->gold : mean(of_gold);
  if (!whole || !gold || !(*whole > Mass())) return std::nullopt;
  return Parted{*whole, *gold};
}

Result<WeighingId> weigh(history::ChangeSet& set, const NewWeighing& weighing) {
  namespace f = weighing_fields;
  store::Connection& connection = set.connection();
  PRILLBOOK_ASSIGN(const Bead weighed, bead(connection, weighing.bead));
  PRILLBOOK_ASSIGN(const ReadOff read, read_off(connection, weighing));
  PRILLBOOK_TRY(check_against_origin(connection, weighed, weighing.what, read.mass));
  PRILLBOOK_ASSIGN(const std::int64_t number,
                   connection.integer(sql::next_number, {weighing.bead.value, std::string_view(weighing.what)}));
  if (weighed.none_seen) PRILLBOOK_TRY(set.set(bead_fields::none_seen, weighing.bead.value, std::int64_t{0}));
  PRILLBOOK_ASSIGN(
      const RecordId id,
      set.make(Entity::weighing, {{f::bead, cell_of(weighing.bead)},
                                  {f::what, weighing.what},
                                  {f::number, number},
                                  {f::mass, cell_of(Figure{read.mass})},
                                  {f::balance, cell_of(weighing.balance)},
                                  {f::weighed_at, to_iso(weighing.weighed_at.value_or(set.when()))},
                                  {f::weighed_by, cell_of(weighing.weighed_by)},
                                  {f::raw, cell_of(weighing.raw)},
                                  {f::gross, cell_of(read.gross)},
                                  {f::tare, cell_of(read.tare)},
                                  {f::tray, cell_of(weighing.tray)},
                                  {f::position, weighing.tray ? cell_of(std::optional(weighing.position)) : history::Value{}}}));
  return WeighingId{id};
}

Result<WeighingId> weigh(history::Journal& journal, const NewWeighing& weighing) {
  return journal.record_for<WeighingId>("weigh " + weighing.what, [&](history::ChangeSet& set) { return weigh(set, weighing); });
}

Result<void> correct(history::Journal& journal, WeighingId id, const Reading& typed, const std::string& why) {
  store::Connection& connection = journal.connection();
  PRILLBOOK_ASSIGN(const Record record, history::load_record(connection, Entity::weighing, id.value));
  PRILLBOOK_ASSIGN(const Bead weighed, bead(connection, record.reference<BeadId>(weighing_fields::bead)));
  PRILLBOOK_ASSIGN(const Reading mass, lab::on_balance(connection, typed, record.reference<BalanceId>(weighing_fields::balance)));
  PRILLBOOK_TRY(check_against_origin(connection, weighed, record.text(weighing_fields::what), mass));
  return readings::enter(journal, weighing_fields::mass, id.value, cell_of(Figure{mass}), why);
}

Result<void> exclude(history::Journal& journal, WeighingId id, const std::string& reason) {
  return readings::enter(journal, weighing_fields::excluded, id.value, cell_of(std::optional(reason)));
}

Result<WeighingId> weigh_parted(history::Journal& journal, const NewWeighing& weighing) {
  return journal.record_for<WeighingId>("weigh parted gold", [&](history::ChangeSet& set) -> Result<WeighingId> {
    PRILLBOOK_ASSIGN(const Bead parted, bead(set.connection(), weighing.bead));
    if (parted.method && *parted.method != "parted")
      return Error{
          ErrorCode::conflict, "bead.fineness_method", "the fineness of this bead was got another way", {*parted.method}};
    if (!parted.method) PRILLBOOK_TRY(set_fineness(set, weighing.bead, "parted", {}, {}));
    NewWeighing gold = weighing;
    gold.what = of_gold;
    return weigh(set, gold);
  });
}

Result<void> set_none_seen(history::Journal& journal, BeadId id, bool none_seen) {
  PRILLBOOK_ASSIGN(const Bead searched, bead(journal.connection(), id));
  if (none_seen && !searched.valid(of_bead).empty())
    return Error{ErrorCode::conflict, "bead.none_seen", "the bead has been weighed: leave its weighings out first", {}};
  return readings::enter(journal, bead_fields::none_seen, id.value, std::int64_t{none_seen});
}

Result<void> set_fineness(history::ChangeSet& set, BeadId id, const std::optional<std::string>& method, const Figure& fineness,
                          const Figure& uncertainty) {
  PRILLBOOK_TRY(check_fineness(method, fineness, uncertainty));
  PRILLBOOK_ASSIGN(const Record held, history::load_record(set.connection(), Entity::bead, id.value));
  if (method && held.whole(bead_fields::melted_into))
    return refusal(ErrorCode::conflict, "bead.melted_into_id", "the bead it was melted into has the fineness");
  PRILLBOOK_TRY(set.set(bead_fields::method, id.value, cell_of(method)));
  PRILLBOOK_TRY(set.set(bead_fields::fineness, id.value, cell_of(fineness)));
  for (const history::Field* weight : {&bead_fields::in_air, &bead_fields::in_water})
    PRILLBOOK_TRY(set.set(*weight, id.value, history::Value{}));
  return set.set(bead_fields::fineness_u, id.value, cell_of(uncertainty));
}

Result<void> set_fineness(history::Journal& journal, BeadId id, const std::optional<std::string>& method, const Figure& fineness,
                          const Figure& uncertainty, const std::optional<std::string>& why) {
  return journal.record("enter fineness", [&](history::ChangeSet& set) {
    if (why) set.because(*why);
    return set_fineness(set, id, method, fineness, uncertainty);
  });
}

Result<void> melt_into(history::ChangeSet& set, BeadId id, BeadId other) {
  store::Connection& connection = set.connection();
  PRILLBOOK_ASSIGN(const Bead melted, bead(connection, id));
  if (other) {
    const auto refuse = [](const char* why) { return refusal(ErrorCode::conflict, "bead.melted_into_id", why); };
    PRILLBOOK_ASSIGN(const Bead joint, bead(connection, other));
    PRILLBOOK_ASSIGN(const auto here, history::load_referring(connection, bead_fields::melted_into, id.value));
    for (const Bead* one : {&melted, &joint})
      if (one->valid(of_bead).empty())
        return refusal(ErrorCode::missing_key, "weighing.mass", "each is weighed by itself before they are melted together");
    if (id == other || joint.melted_into) return refuse("is melted into a bead that is no longer there");
    if (!here.empty()) return refuse("others were melted into this bead");
    if (melted.method) return refuse("its fineness stands already");
    PRILLBOOK_ASSIGN(const Origin from, origin(connection, id));
    PRILLBOOK_ASSIGN(const Origin with, origin(connection, other));
    if (from.sample != with.sample)
      return Error{ErrorCode::inconsistent,
                   "bead.melted_into_id",
                   "the two are of different samples",
                   {from.sample_number, with.sample_number}};
  }
  return set.set(bead_fields::melted_into, id.value, cell_of(other));
}

Result<void> melt_into(history::Journal& journal, BeadId id, BeadId other) {
  return journal.record("melt beads together", [&](history::ChangeSet& set) { return melt_into(set, id, other); });
}

Result<Bead> bead(store::Connection& connection, BeadId id) {
  PRILLBOOK_ASSIGN(const Record record, history::load_record(connection, Entity::bead, id.value));
  return with_weighings(connection, record);
}

Result<Bead> bead_of(history::Source source, PanTestId id) {
  return bead_referring(source, bead_fields::pan_test, id.value);
}

Result<Bead> bead_of(history::Source source, ChargeId id) {
  return bead_referring(source, bead_fields::charge, id.value);
}

Result<Origin> origin(store::Connection& connection, BeadId id) {
  PRILLBOOK_ASSIGN(const std::vector<Origin> found, origins(connection, sql::origin, {id.value}));
  if (found.empty()) return Error{ErrorCode::not_found, "bead", fmt::format("there is no bead {}", id.value), {}};
  return found.front();
}

Result<std::vector<Origin>> waiting_beads(store::Connection& connection, std::int64_t limit) {
  return origins(connection, sql::beads_to_weigh, {of_bead, limit});
}

Result<std::vector<Origin>> beads_without_gold(store::Connection& connection, std::int64_t limit) {
  return origins(connection, sql::beads_to_weigh, {of_gold, limit});
}

Result<std::int64_t> count_waiting_beads(store::Connection& connection) {
  return connection.integer(sql::count_beads_to_weigh, {of_bead});
}

Result<std::vector<RecentWeighing>> recent_weighings(store::Connection& connection, std::int64_t limit) {
  std::vector<RecentWeighing> list;
  Result<void> outcome;
  PRILLBOOK_TRY(connection.rows(sql::recent_weighings, {limit}, [&](const store::Row& row) {
    RecentWeighing recent{WeighingId{row.integer(0)},
                          BeadId{row.integer(1)},
                          row.text(2),
                          row.text(3),
                          row.integer(4) != 0,
                          row.text(5),
                          row.integer(6),
                          {},
                          row.text(8),
                          row.integer(9) != 0,
                          PanTestId{row.integer(10)},
                          ChargeId{row.integer(11)}};
    if (const auto at = row.optional_text(7)) {
      const auto when = parse_iso(*at);
      if (!when) {
        outcome = when.error();
        return false;
      }
      recent.weighed_at = *when;
    }
    list.push_back(std::move(recent));
    return true;
  }));
  PRILLBOOK_TRY(outcome);
  return list;
}

}  // namespace prillbook::weighing
