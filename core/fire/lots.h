// SPDX-License-Identifier: GPL-3.0-or-later
// What the furnace keeps ready: lots of flux, litharge and lead, pots, recipes; and what is known of an ore before its charge.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/base/id.h"
#include "core/fire/practice.h"
#include "core/history/journal.h"
#include "core/readings/entry.h"

namespace prillbook::fire {

struct Lot {
  LotId id;
  std::string name, kind;  // flux, litharge, lead
  std::optional<Instant> made_at, used_up_at;
  std::optional<std::string> mixture, remarks;
  readings::Figure silver;  // found by a blank fusion
};

struct Pot {
  PotId id;
  std::string name;
  std::optional<std::int64_t> millilitres;
  std::optional<Instant> broken_at;
  std::optional<std::string> remarks;
};

struct Recipe {
  RecipeId id;
  std::string name;
  readings::Figure ore, litharge, soda_ash, borax, silica, flour, nitre, flux;
  LotId flux_lot;
  std::optional<std::string> remarks;

  Mixture mixture() const;
};

struct ReducingTest {
  ReducingTestId id;
  SampleId sample;
  readings::Figure ore, litharge, soda_ash, button;
  std::optional<Instant> done_at;
  PersonId done_by;
  std::optional<std::string> remarks;
};

// Errors: missing_key without a name; out_of_range (kind); already_exists where a lot of the kind, a pot or a recipe that is
// still in use has this name.
Result<LotId> add_lot(history::Journal& journal, const std::string& name, const std::string& kind);
Result<LotId> add_lot(history::ChangeSet& set, const std::string& name, const std::string& kind);
Result<PotId> add_pot(history::Journal& journal, const std::string& name);
Result<PotId> add_pot(history::ChangeSet& set, const std::string& name);
Result<RecipeId> add_recipe(history::Journal& journal, const std::string& name);
Result<RecipeId> add_recipe(history::ChangeSet& set, const std::string& name);

Result<ReducingTestId> start_reducing_test(history::Journal& journal, SampleId sample, PersonId by);
Result<ReducingTestId> start_reducing_test(history::ChangeSet& set, SampleId sample, PersonId by);
// nullopt while ore or button is not weighed. Errors: as reducing_power_of.
Result<std::optional<ReducingTestResult>> power_of(const ReducingTest& test);

Result<std::vector<Lot>> lots(store::Connection& connection);
Result<std::vector<Pot>> pots(store::Connection& connection);
Result<std::vector<Recipe>> recipes(store::Connection& connection);
Result<std::vector<ReducingTest>> reducing_tests_of(store::Connection& connection, SampleId sample);
Result<ReducingTest> reducing_test(store::Connection& connection, ReducingTestId id);
Result<Lot> lot(store::Connection& connection, LotId id);
Result<Lot> lot_by_name(store::Connection& connection, std::string_view name);  // errors: not_found
Result<Pot> pot_by_name(store::Connection& connection, std::string_view name);
Result<Recipe> recipe_by_name(store::Connection& connection, std::string_view name);

}  // namespace prillbook::fire
