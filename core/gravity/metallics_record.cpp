// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/gravity/metallics_record.h"

#include <fmt/format.h>

#include "core/history/fields.h"
#include "core/history/record.h"
#include "core/portions/portions.h"

namespace prillbook::gravity {
namespace {

namespace metallics_fields = history::fields::metallics;
using history::Entity;
using readings::cell_of;

Result<Metallics> metallics_from(const history::Record& record) {
  Metallics made;
  made.id = MetallicsId{record.id()};
  made.portion = record.reference<PortionId>(metallics_fields::portion);
  made.coarse = record.reference<PortionId>(metallics_fields::coarse);
  made.fine = record.reference<PortionId>(metallics_fields::fine);
  made.screened_by = record.reference<PersonId>(metallics_fields::screened_by);
  made.remarks = record.optional_text(metallics_fields::remarks);
  if (const auto at = record.optional_text(metallics_fields::screened_at)) {
    PRILLBOOK_ASSIGN(made.screened_at, parse_iso(*at));
  }
  PRILLBOOK_ASSIGN(made.screen, readings::figure_of(record, metallics_fields::screen));
  return made;
}

// "+106 µm", "−106 µm".
std::string size_words(const readings::Figure& screen, const char* sign, const char* without) {
  if (!screen) return without;
  const std::string number = screen->typed.substr(0, screen->typed.find_first_not_of("0123456789.,"));
  return fmt::format("{}{} {}", sign, number, screen->unit);
}

Result<void> check_masses(const NewMetallics& fresh) {
  if (!fresh.coarse) return Error{ErrorCode::missing_key, "metallics.coarse", "the coarse part is weighed first", {}};
  if (!fresh.fine) return Error{ErrorCode::missing_key, "metallics.fine", "the fine part is weighed first", {}};
  return {};
}

}  // namespace

Result<Metallics> start_metallics(history::ChangeSet& set, const NewMetallics& fresh) {
  store::Connection& connection = set.connection();
  PRILLBOOK_TRY(check_masses(fresh));
  PRILLBOOK_ASSIGN(const auto earlier, metallics_of(connection, fresh.portion));
  if (!earlier.empty())
    return Error{ErrorCode::already_exists, "metallics.portion_id", "this portion is screened already; cut another", {}};
  PRILLBOOK_ASSIGN(const portions::Portion screened, portions::portion(connection, fresh.portion));
  PRILLBOOK_ASSIGN(const PortionId coarse,
                   portions::cut(set, {screened.sample, fresh.portion, "fraction", fresh.coarse, fresh.screened_at,
                                       fresh.screened_by, size_words(fresh.screen, "+", "coarse part")}));
  PRILLBOOK_ASSIGN(const PortionId fine,
                   portions::cut(set, {screened.sample, fresh.portion, "fraction", fresh.fine, fresh.screened_at,
                                       fresh.screened_by, size_words(fresh.screen, "−", "fine part")}));
  PRILLBOOK_ASSIGN(const RecordId made,
                   set.make(Entity::metallics, {{metallics_fields::portion, cell_of(fresh.portion)},
                                                {metallics_fields::coarse, cell_of(coarse)},
                                                {metallics_fields::fine, cell_of(fine)},
                                                {metallics_fields::screen, cell_of(fresh.screen)},
                                                {metallics_fields::screened_at, to_iso(fresh.screened_at.value_or(set.when()))},
                                                {metallics_fields::screened_by, cell_of(fresh.screened_by)}}));
  return metallics(connection, MetallicsId{made});
}

Result<Metallics> start_metallics(history::Journal& journal, const NewMetallics& fresh) {
  return journal.record_for<Metallics>("screen for metallics",
                                       [&](history::ChangeSet& set) { return start_metallics(set, fresh); });
}

Result<Metallics> metallics(store::Connection& connection, MetallicsId id) {
  PRILLBOOK_ASSIGN(const auto record, history::load_record(connection, Entity::metallics, id.value));
  return metallics_from(record);
}

Result<std::vector<Metallics>> metallics_of(history::Source source, PortionId portion) {
  PRILLBOOK_ASSIGN(const auto records, history::load_referring(source, metallics_fields::portion, portion.value));
  std::vector<Metallics> list;
  for (const history::Record& record : records) {
    PRILLBOOK_ASSIGN(Metallics one, metallics_from(record));
    list.push_back(std::move(one));
  }
  return list;
}

}  // namespace prillbook::gravity
