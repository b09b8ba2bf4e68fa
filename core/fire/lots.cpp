// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/fire/lots.h"

#include <fmt/format.h>

#include "core/history/fields.h"
#include "core/history/record.h"

namespace prillbook::fire {
namespace {

namespace lot_fields = history::fields::lot;
namespace pot_fields = history::fields::pot;
namespace recipe_fields = history::fields::recipe;
namespace test_fields = history::fields::reducing_test;
using history::Entity;
using history::Record;
using readings::cell_of;
using readings::figure_of;

Result<std::optional<Instant>> moment(const Record& record, const history::Field& field) {
  const auto text = record.optional_text(field);
  if (!text) return std::optional<Instant>();
  PRILLBOOK_ASSIGN(const Instant at, parse_iso(*text));
  return std::optional(at);
}

Result<Lot> lot_of(const Record& record) {
  Lot made;
  made.id = LotId{record.id()};
  made.name = record.text(lot_fields::name);
  made.kind = record.text(lot_fields::kind);
  made.mixture = record.optional_text(lot_fields::mixture);
  made.remarks = record.optional_text(lot_fields::remarks);
  PRILLBOOK_ASSIGN(made.made_at, moment(record, lot_fields::made_at));
  PRILLBOOK_ASSIGN(made.used_up_at, moment(record, lot_fields::used_up_at));
  PRILLBOOK_ASSIGN(made.silver, figure_of(record, lot_fields::silver));
  return made;
}

Result<Pot> pot_of(const Record& record) {
  Pot made;
  made.id = PotId{record.id()};
  made.name = record.text(pot_fields::name);
  made.millilitres = record.optional_whole(pot_fields::millilitres);
  made.remarks = record.optional_text(pot_fields::remarks);
  PRILLBOOK_ASSIGN(made.broken_at, moment(record, pot_fields::broken_at));
  return made;
}

Result<Recipe> recipe_of(const Record& record) {
  Recipe made;
  made.id = RecipeId{record.id()};
  made.name = record.text(recipe_fields::name);
  made.flux_lot = record.reference<LotId>(recipe_fields::flux_lot);
  made.remarks = record.optional_text(recipe_fields::remarks);
  PRILLBOOK_ASSIGN(made.ore, figure_of(record, recipe_fields::ore));
  PRILLBOOK_ASSIGN(made.litharge, figure_of(record, recipe_fields::litharge));
  PRILLBOOK_ASSIGN(made.soda_ash, figure_of(record, recipe_fields::soda_ash));
  PRILLBOOK_ASSIGN(made.borax, figure_of(record, recipe_fields::borax));
  PRILLBOOK_ASSIGN(made.silica, figure_of(record, recipe_fields::silica));
  PRILLBOOK_ASSIGN(made.flour, figure_of(record, recipe_fields::flour));
  PRILLBOOK_ASSIGN(made.nitre, figure_of(record, recipe_fields::nitre));
  PRILLBOOK_ASSIGN(made.flux, figure_of(record, recipe_fields::flux));
  return made;
}

Result<ReducingTest> test_of(const Record& record) {
  ReducingTest made;
  made.id = ReducingTestId{record.id()};
  made.sample = record.reference<SampleId>(test_fields::sample);
  made.done_by = record.reference<PersonId>(test_fields::done_by);
  made.remarks = record.optional_text(test_fields::remarks);
  PRILLBOOK_ASSIGN(made.done_at, moment(record, test_fields::done_at));
  PRILLBOOK_ASSIGN(made.ore, figure_of(record, test_fields::ore));
  PRILLBOOK_ASSIGN(made.litharge, figure_of(record, test_fields::litharge));
  PRILLBOOK_ASSIGN(made.soda_ash, figure_of(record, test_fields::soda_ash));
  PRILLBOOK_ASSIGN(made.button, figure_of(record, test_fields::button));
  return made;
}

template <class T, class Read>
Result<std::vector<T>> listed(Result<std::vector<Record>> records, Read&& read_one) {
  if (!records) return records.error();
  std::vector<T> list;
  for (const Record& record : *records) {
    PRILLBOOK_ASSIGN(T one, read_one(record));
    list.push_back(std::move(one));
  }
  return list;
}

template <class T>
Result<T> named(Result<std::vector<T>> all, std::string_view name, const char* what) {
  if (!all) return all.error();
  for (const T& one : *all)
    if (one.name == trimmed(name)) return one;
  return Error{ErrorCode::not_found, what, fmt::format("there is no {} {}", what, name), {std::string(name)}};
}

template <class T>
Result<void> name_is_free(Result<std::vector<T>> all, const std::string& name, const char* field) {
  const auto taken = named(std::move(all), name, field);
  if (taken) return Error{ErrorCode::already_exists, field, "the name is taken", {std::string(trimmed(name))}};
  return taken.error().code == ErrorCode::not_found ? Result<void>() : taken.error();
}

std::optional<Mass> mass_in(const readings::Figure& figure) { return figure ? std::optional(figure->mass()) : std::nullopt; }

}  // namespace

Mixture Recipe::mixture() const {
  return {mass_in(litharge), mass_in(soda_ash), mass_in(borax), mass_in(silica), mass_in(flour), mass_in(nitre), mass_in(flux)};
}

Result<LotId> add_lot(history::ChangeSet& set, const std::string& name, const std::string& kind) {
  PRILLBOOK_TRY(name_is_free(lots(set.connection()), name, "lot.name"));
  PRILLBOOK_ASSIGN(const RecordId id, set.make(Entity::lot, {{lot_fields::name, cell_of(std::optional(name))},
                                                             {lot_fields::kind, cell_of(std::optional(kind))},
                                                             {lot_fields::made_at, to_iso(set.when())}}));
  return LotId{id};
}

Result<LotId> add_lot(history::Journal& journal, const std::string& name, const std::string& kind) {
  return journal.record_for<LotId>("add lot", [&](history::ChangeSet& set) { return add_lot(set, name, kind); });
}

Result<PotId> add_pot(history::ChangeSet& set, const std::string& name) {
  PRILLBOOK_TRY(name_is_free(pots(set.connection()), name, "pot.name"));
  PRILLBOOK_ASSIGN(const RecordId id, set.make(Entity::pot, {{pot_fields::name, cell_of(std::optional(name))}}));
  return PotId{id};
}

Result<PotId> add_pot(history::Journal& journal, const std::string& name) {
  return journal.record_for<PotId>("add pot", [&](history::ChangeSet& set) { return add_pot(set, name); });
}

Result<RecipeId> add_recipe(history::ChangeSet& set, const std::string& name) {
  PRILLBOOK_TRY(name_is_free(recipes(set.connection()), name, "recipe.name"));
  PRILLBOOK_ASSIGN(const RecordId id, set.make(Entity::recipe, {{recipe_fields::name, cell_of(std::optional(name))}}));
  return RecipeId{id};
}

Result<RecipeId> add_recipe(history::Journal& journal, const std::string& name) {
  return journal.record_for<RecipeId>("add recipe", [&](history::ChangeSet& set) { return add_recipe(set, name); });
}

Result<ReducingTestId> start_reducing_test(history::ChangeSet& set, SampleId sample, PersonId by) {
  PRILLBOOK_ASSIGN(const RecordId id, set.make(Entity::reducing_test, {{test_fields::sample, cell_of(sample)},
                                                                       {test_fields::done_at, to_iso(set.when())},
                                                                       {test_fields::done_by, cell_of(by)}}));
  return ReducingTestId{id};
}

Result<ReducingTestId> start_reducing_test(history::Journal& journal, SampleId sample, PersonId by) {
  return journal.record_for<ReducingTestId>("start reducing test",
                                            [&](history::ChangeSet& set) { return start_reducing_test(set, sample, by); });
}

Result<std::optional<ReducingTestResult>> power_of(const ReducingTest& test) {
  if (!test.ore || !test.button) return std::optional<ReducingTestResult>();
  PRILLBOOK_ASSIGN(const ReducingTestResult power,
                   reducing_power_of(test.ore->mass(), test.button->mass(), mass_in(test.litharge)));
  return std::optional(power);
}

Result<std::vector<Lot>> lots(store::Connection& connection) {
  return listed<Lot>(history::load_all(connection, Entity::lot), lot_of);
}

Result<std::vector<Pot>> pots(store::Connection& connection) {
  return listed<Pot>(history::load_all(connection, Entity::pot), pot_of);
}

Result<std::vector<Recipe>> recipes(store::Connection& connection) {
  return listed<Recipe>(history::load_all(connection, Entity::recipe), recipe_of);
}

Result<std::vector<ReducingTest>> reducing_tests_of(store::Connection& connection, SampleId sample) {
  return listed<ReducingTest>(history::load_referring(connection, test_fields::sample, sample.value), test_of);
}

Result<ReducingTest> reducing_test(store::Connection& connection, ReducingTestId id) {
  PRILLBOOK_ASSIGN(const Record record, history::load_record(connection, Entity::reducing_test, id.value));
  return test_of(record);
}

Result<Lot> lot(store::Connection& connection, LotId id) {
  PRILLBOOK_ASSIGN(const Record record, history::load_record(connection, Entity::lot, id.value));
  return lot_of(record);
}

Result<Lot> lot_by_name(store::Connection& connection, std::string_view name) { return named(lots(connection), name, "lot"); }
Result<Pot> pot_by_name(store::Connection& connection, std::string_view name) { return named(pots(connection), name, "pot"); }
Result<Recipe> recipe_by_name(store::Connection& connection, std::string_view name) {
  return named(recipes(connection), name, "recipe");
}

}  // namespace prillbook::fire
