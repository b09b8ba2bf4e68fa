// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/portions/portions.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/history/fields.h"
#include "core/history/record.h"
#include "core/lab/settings.h"
#include "core/portions/statements.h"
#include "core/units/units.h"

namespace prillbook::portions {
namespace {

namespace portion_fields = history::fields::portion;
namespace step_fields = history::fields::step;
using history::Entity;
using history::Record;
using readings::cell_of;
using readings::Figure;
using readings::figure_of;

// Masses are sums of decimal figures held in binary: a billionth is no overdraft.
constexpr double rounding_allowance = 1e-9;

Result<Portion> portion_of(const Record& record) {
  Portion portion{PortionId{record.id()},
                  record.reference<SampleId>(portion_fields::sample),
                  record.reference<PortionId>(portion_fields::parent),
                  record.whole(portion_fields::number),
                  record.text(portion_fields::purpose),
                  {},
                  {},
                  record.reference<PersonId>(portion_fields::cut_by),
                  record.optional_text(portion_fields::remarks),
                  record.reference<StepId>(portion_fields::step)};
  PRILLBOOK_ASSIGN(portion.mass, figure_of(record, portion_fields::mass));
  if (const auto cut_at = record.optional_text(portion_fields::cut_at)) {
    PRILLBOOK_ASSIGN(portion.cut_at, parse_iso(*cut_at));
  }
  return portion;
}

// What a test left of its portion: it may have gained by the lab's limit.
bool is_product(const Portion& portion) {
  return portion.purpose == "remainder" || portion.purpose == "tail" || portion.purpose == "fraction";
}

Figure mass_of(const std::vector<Portion>& portions, const Figure& sample_mass, PortionId id) {
  if (!id) return sample_mass;
  const auto found = std::find_if(portions.begin(), portions.end(), [&](const Portion& p) { return p.id == id; });
  return found == portions.end() ? Figure{} : found->mass;
}

Mass cut_from(const std::vector<Portion>& portions, PortionId parent) {
  Mass sum;
  for (const Portion& portion : portions)
    if (portion.parent == parent && portion.mass) sum += portion.mass->mass();
  return sum;
}

Mass lost_from(const std::vector<Loss>& losses, PortionId parent) {
  Mass sum;
  for (const Loss& loss : losses)
    if (loss.parent == parent) sum += loss.mass;
  return sum;
}

// The mass in less the mass out; of a split, less its parts. Absent while a mass is missing.
Result<std::optional<Loss>> loss_of(const Record& step, const std::vector<Portion>& portions) {
  PRILLBOOK_ASSIGN(const Figure in, figure_of(step, step_fields::mass_in));
  PRILLBOOK_ASSIGN(const Figure out, figure_of(step, step_fields::mass_out));
  Loss loss{step.reference<PortionId>(step_fields::portion), {}};
  if (!in) return std::optional<Loss>{};
  loss.mass = in->mass();
  if (out) {
    loss.mass -= out->mass();
    return std::optional(loss);
  }
  if (step.whole(step_fields::closed) == 0) return std::optional<Loss>{};
  for (const Portion& part : portions) {
    if (part.step.value != step.id()) continue;
    if (!part.mass) return std::optional<Loss>{};
    loss.mass -= part.mass->mass();
  }
  return std::optional(loss);
}

Result<void> check_parent(const std::vector<Portion>& portions, const Figure& sample_mass, PortionId parent,
                          const Allowance& allowed, const std::vector<Loss>& losses) {
  const Figure had = mass_of(portions, sample_mass, parent);
  if (!had) return {};
  bool products_only = true, stepped = false;
  for (const Portion& portion : portions)
    if (portion.parent == parent && portion.mass) products_only = products_only && is_product(portion);
  for (const Loss& loss : losses) stepped = stepped || loss.parent == parent;
  double allowance = products_only ? allowed.pan_product_pct / 100 : rounding_allowance;
  if (stepped) allowance = std::max(allowance, allowed.step_pct / 100);
  const Mass cut = cut_from(portions, parent), lost = lost_from(losses, parent);
  if (cut + lost <= had->mass() * (1 + allowance)) return {};
  const MassInWords asked = in_words(cut), there = in_words(had->mass() - lost);
  return Error{ErrorCode::overdrawn,
               "portion.mass",
               fmt::format("{} {} were cut from {} {}{}", asked.number, asked.unit, there.number, there.unit,
                           lost == Mass{} ? "" : " that the steps left"),
               {fmt::format("{} {}", asked.number, asked.unit), fmt::format("{} {}", there.number, there.unit)}};
}

Result<void> check_positive(const Figure& mass) {
  if (mass && mass->value <= 0)
    return Error{ErrorCode::out_of_range, "portion.mass", "a portion has a mass above zero", {mass->typed}};
  return {};
}

}  // namespace

std::optional<Mass> left_of(const std::vector<Portion>& portions, const Figure& sample_mass, PortionId parent,
                            const std::vector<Loss>& losses) {
  const Figure had = mass_of(portions, sample_mass, parent);
  if (!had) return std::nullopt;
  return std::max(had->mass() - cut_from(portions, parent) - lost_from(losses, parent), Mass());
}

MassInWords in_words(Mass mass) {
  const bool heavy = std::abs(mass.in(unit::gram)) >= 1000;
  const double value = heavy ? mass.in(unit::kilogram) : mass.in(unit::gram);
  const double kept = std::round(value * 1e6) / 1e6;
  return {shortest(kept == 0 ? 0 : kept), heavy ? unit::kilogram.symbol : unit::gram.symbol};
}

Result<std::vector<Loss>> losses_of(history::Source source, SampleId sample) {
  PRILLBOOK_ASSIGN(const auto steps, history::load_referring(source, step_fields::sample, sample.value));
  std::vector<Loss> losses;
  if (steps.empty()) return losses;
  PRILLBOOK_ASSIGN(const std::vector<Portion> portions, portions_of(source, sample));
  for (const Record& step : steps) {
    PRILLBOOK_ASSIGN(const auto loss, loss_of(step, portions));
    if (loss) losses.push_back(*loss);
  }
  return losses;
}

Result<void> check_tree(const std::vector<Portion>& portions, const Figure& sample_mass, const Allowance& allowance,
                        const std::vector<Loss>& losses) {
  PRILLBOOK_TRY(check_parent(portions, sample_mass, PortionId{}, allowance, losses));
  for (const Portion& portion : portions) PRILLBOOK_TRY(check_parent(portions, sample_mass, portion.id, allowance, losses));
  return {};
}

Result<void> check_tree(store::Connection& connection, SampleId sample) {
  PRILLBOOK_ASSIGN(const std::vector<Portion> portions, portions_of(connection, sample));
  PRILLBOOK_ASSIGN(const Record record, history::load_record(connection, Entity::sample, sample.value));
  PRILLBOOK_ASSIGN(const Figure mass, figure_of(record, history::fields::sample::mass_received));
  PRILLBOOK_ASSIGN(const lab::Settings settings, lab::settings(connection));
  PRILLBOOK_ASSIGN(const std::vector<Loss> losses, losses_of(connection, sample));
  return check_tree(portions, mass, {settings.pan_product_gain_limit_pct, settings.crushing_loss_limit_pct}, losses);
}

Result<PortionId> cut(history::ChangeSet& set, const NewPortion& portion) {
  store::Connection& connection = set.connection();
  PRILLBOOK_TRY(check_positive(portion.mass));
  if (portion.parent) {
    PRILLBOOK_ASSIGN(const Record parent, history::load_record(connection, Entity::portion, portion.parent.value));
    if (parent.reference<SampleId>(portion_fields::sample) != portion.sample)
      return Error{ErrorCode::inconsistent, "portion.parent_id", "the parent is a part of another sample", {}};
  }
  PRILLBOOK_ASSIGN(const std::int64_t number, connection.integer(sql::next_number, {portion.sample.value}));
  PRILLBOOK_ASSIGN(const RecordId id,
                   set.make(Entity::portion, {{portion_fields::sample, cell_of(portion.sample)},
                                              {portion_fields::parent, cell_of(portion.parent)},
                                              {portion_fields::number, number},
                                              {portion_fields::purpose, portion.purpose},
                                              {portion_fields::mass, cell_of(portion.mass)},
                                              {portion_fields::cut_at, to_iso(portion.cut_at.value_or(set.when()))},
                                              {portion_fields::cut_by, cell_of(portion.cut_by)},
                                              {portion_fields::remarks, cell_of(portion.remarks)},
                                              {portion_fields::step, cell_of(portion.step)}}));
  PRILLBOOK_TRY(check_tree(connection, portion.sample));
  return PortionId{id};
}

Result<PortionId> cut(history::Journal& journal, const NewPortion& portion) {
  return journal.record_for<PortionId>("cut portion", [&](history::ChangeSet& set) { return cut(set, portion); });
}

Result<void> set_mass(history::Journal& journal, PortionId id, const Figure& mass, const std::optional<std::string>& why) {
  PRILLBOOK_TRY(check_positive(mass));
  PRILLBOOK_ASSIGN(const Record record, history::load_record(journal.connection(), Entity::portion, id.value));
  return journal.record("enter portion.mass", [&](history::ChangeSet& set) -> Result<void> {
    if (why) set.because(*why);
    PRILLBOOK_TRY(set.set(portion_fields::mass, id.value, cell_of(mass)));
    return check_tree(journal.connection(), record.reference<SampleId>(portion_fields::sample));
  });
}

Result<void> set_received_mass(history::Journal& journal, SampleId id, const Figure& mass,
                               const std::optional<std::string>& why) {
  PRILLBOOK_TRY(check_positive(mass));
  return journal.record("enter sample.mass_received", [&](history::ChangeSet& set) -> Result<void> {
    if (why) set.because(*why);
    PRILLBOOK_TRY(set.set(history::fields::sample::mass_received, id.value, cell_of(mass)));
    return check_tree(journal.connection(), id);
  });
}

Result<Portion> portion(store::Connection& connection, PortionId id) {
  PRILLBOOK_ASSIGN(const Record record, history::load_record(connection, Entity::portion, id.value));
  return portion_of(record);
}

Result<std::vector<Portion>> portions_of(history::Source source, SampleId sample) {
  PRILLBOOK_ASSIGN(const auto records, history::load_referring(source, portion_fields::sample, sample.value));
  std::vector<Portion> portions;
  for (const Record& record : records) {
    PRILLBOOK_ASSIGN(Portion portion, portion_of(record));
    portions.push_back(std::move(portion));
  }
  return portions;
}

}  // namespace prillbook::portions
