// SPDX-License-Identifier: GPL-3.0-or-later
// The record of a crucible assay: a portion in one crucible, to its bead.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/id.h"
#include "core/controls/roles.h"
#include "core/history/journal.h"
#include "core/history/record.h"
#include "core/readings/entry.h"

namespace prillbook::fire {

struct Charge {
  ChargeId id;
  PortionId portion;
  std::optional<Instant> fired_at;
  PersonId fired_by;
  ChargeId repeat_of;
  readings::Figure collector, blank, button, slag_metal, cupel_metal, gold_loss, silver_loss;
  readings::Figure slag_gold, cupel_gold;  // of the metal recovered from them; absent: it counts as silver
  std::optional<std::string> slag_look, remarks;
  std::optional<std::string> spoiled, excluded;  // the reason, where it is

  // What was weighed in, and where it went.
  RecipeId recipe;
  readings::Figure litharge, soda_ash, borax, silica, flour, nitre, flux;
  LotId litharge_lot, flux_lot, lead_lot;
  std::optional<std::string> flour_and_nitre;  // why it holds both
  PotId pot;
  FurnaceRunId fusion_run, cupellation_run;
  std::optional<std::string> fusion_signs, cupellation_signs;  // words with commas between
  readings::Figure lead_added, cupel;
  std::optional<std::string> cupel_kind;

  controls::Role role = controls::Role::ordinary;
  ChargeId duplicate_of;
  CleaningId cleaning;  // the flush that it is the assay of
};

struct NewCharge {
  PortionId portion;
  std::optional<Instant> fired_at;  // absent: now
  PersonId fired_by;
  ChargeId repeat_of;
  readings::Figure collector, blank;
};

struct StartedCharge {
  ChargeId charge;
  BeadId bead;  // waits for the balance
};

// Puts a portion in a crucible, with the bead it will give; cut from the stock of a control material it has its role. Errors:
// already_exists where the portion is used up by an earlier charge; inconsistent where `repeat_of` is not spoiled.
Result<StartedCharge> start_charge(history::Journal& journal, const NewCharge& charge);
Result<StartedCharge> start_charge(history::ChangeSet& set, const NewCharge& charge);

// A spoiled charge is neither zero nor absent: it keeps its reason. Empty text: it is not spoiled after all.
Result<void> set_spoiled(history::Journal& journal, ChargeId id, const std::string& reason);

// Writes the mass of a reagent. Errors: conflict where flour and nitre would stand together without their reason (field
// charge.flour_and_nitre).
Result<void> set_reagent(history::Journal& journal, ChargeId id, const history::Field& field, const readings::Figure& mass,
                         const std::optional<std::string>& why = std::nullopt);
Result<void> set_reagent(history::ChangeSet& set, ChargeId id, const history::Field& field, const readings::Figure& mass);
// The reason for flour and nitre together. Errors: conflict where both stand and no reason is left.
Result<void> set_flour_and_nitre(history::Journal& journal, ChargeId id, const std::optional<std::string>& reason);
Result<void> set_flour_and_nitre(history::ChangeSet& set, ChargeId id, const std::optional<std::string>& reason);
// The lot of litharge, flux or lead. Errors: inconsistent where it is of another kind; not_found.
Result<void> set_lot(history::Journal& journal, ChargeId id, const history::Field& field, LotId lot);
Result<void> set_lot(history::ChangeSet& set, ChargeId id, const history::Field& field, LotId lot);

// Words of what was seen at the fusion or the cupellation; each once, in this order. Errors: out_of_range for another word.
std::span<const std::string_view> fusion_words();
std::span<const std::string_view> cupellation_words();
Result<void> set_signs(history::Journal& journal, ChargeId id, const history::Field& field, std::string_view words);
Result<void> set_signs(history::ChangeSet& set, ChargeId id, const history::Field& field, std::string_view words);
bool has_sign(const std::optional<std::string>& signs, std::string_view word);

// 0 for a first charge, 1 for its repeat, 2 for the repeat of that one.
Result<int> repeat_number(store::Connection& connection, ChargeId id);

Result<Charge> charge(store::Connection& connection, ChargeId id);
Result<std::vector<Charge>> charges_of(history::Source source, PortionId portion);

}  // namespace prillbook::fire
