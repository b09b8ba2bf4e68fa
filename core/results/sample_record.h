// SPDX-License-Identifier: GPL-3.0-or-later
// Everything the notebook holds about one sample, in one value.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "core/controls/decisions.h"
#include "core/custody/custody_record.h"
#include "core/fire/charge_record.h"
#include "core/fire/lots.h"
#include "core/gravity/metallics_record.h"
#include "core/gravity/pan_test.h"
#include "core/gravity/panning.h"
#include "core/lab/lab.h"
#include "core/lab/settings.h"
#include "core/milling/steps.h"
#include "core/portions/portions.h"
#include "core/sieve_records/analyses.h"
#include "core/trays/trays.h"
#include "core/weighing/bead.h"
#include "core/weighing/check_weights.h"

namespace prillbook::results {

struct PanEntry {
  gravity::PanTest test;
  weighing::Bead bead;
  std::vector<gravity::Panning> pannings;  // in order
};

struct FireEntry {
  fire::Charge charge;
  weighing::Bead bead;
};

// A crucible that a charge of the sample shares with an earlier one.
struct PotUse {
  ChargeId charge, before;
  std::string pot;                    // its name
  std::string before_label;           // "26-0003/2"
  std::optional<Grade> before_metal;  // of the bead that came before, all metal; absent where it was not weighed
};

// A furnace load that charges of the sample went through, with what was decided of it.
struct RunNote {
  FurnaceRunId run;
  std::string name;
  std::optional<controls::RunDecision> decision;
};

// Where a bead of the sample stands or stood.
struct BeadPlace {
  BeadId bead;
  TrayId tray;
  std::string tray_name;
  trays::Kind kind = trays::Kind::bead;
  trays::Place place;
};

// Everything that came off one tray onto the next, beads of other samples as well.
struct TrayWalk {
  TrayId from, to;
  std::string from_name, to_name;
  struct Step {
    BeadId bead;
    std::string label;              // "26-0003/2"
    TrayPlaceId place;              // on the second tray
    std::int64_t from = 0, to = 0;  // where it stood last on the one, where it was put on the other
  };
  std::vector<Step> steps;
};

struct SampleRecord {
  custody::Sample sample;
  custody::Consignment consignment;
  lab::Client client;
  std::vector<portions::Portion> portions;
  std::vector<portions::Loss> losses;  // of its steps
  std::vector<milling::Step> steps;    // in the order in which they were done
  std::vector<PanEntry> pan_tests;     // in the order they were started
  std::vector<FireEntry> charges;
  std::vector<sieves::Analysis> sieve_analyses;
  std::vector<gravity::Metallics> metallics;
  std::vector<sieves::Sieve> sieves;  // of the lab
  std::vector<lab::Person> people;
  std::vector<lab::Balance> balances;
  std::vector<weighing::CheckWeighing> checks;  // of each balance, the newest few hundred
  lab::Settings settings;
  custody::CustodyRecord custody;
  std::vector<fire::Lot> lots;         // of the lab
  std::vector<BeadPlace> bead_places;  // of each bead in the order crucible, mould, cupel, bead
  std::vector<TrayWalk> tray_walks;    // from tray to tray, as far as beads of the sample went them
  std::vector<PotUse> pot_uses;        // one for each charge whose crucible was used before
  std::vector<RunNote> runs;           // those that its charges name

  const portions::Portion* portion(PortionId id) const;
  std::string initials(PersonId id) const;        // empty where nobody is named
  std::string portion_label(PortionId id) const;  // "26-0003/2"
  // The remainder or tail that a portion is, or was cut from; nullptr where it is rock as received.
  const portions::Portion* pan_product_of(PortionId id) const;
  // The last step by `at` that worked on the portion, or on what it was cut from before it was cut, and that `wanted` takes.
  const milling::Step* last_step_before(PortionId id, const Instant& at,
                                        const std::function<bool(const milling::Step&)>& wanted) const;
  // The top size of the portion when it was cut; nullopt where no step says.
  std::optional<Opening> top_size_of(const portions::Portion& portion) const;
  // Whether it was dried before it was cut.
  bool cut_dry(const portions::Portion& portion) const;
  const fire::Lot* lot(LotId id) const;  // nullptr where there is none
  const RunNote* run(FurnaceRunId id) const;
  // The silver that litharge and lead brought to a charge: as entered, else by what their lots hold; nullopt where neither is
  // known.
  std::optional<Mass> blank_of(const fire::Charge& charge) const;
  // The sieve fraction that a portion is, or was cut from; nullptr where it is none.
  const portions::Portion* fraction_of(PortionId id) const;
};

// Errors: not_found; damaged where a cell of the sample can't be read.
Result<SampleRecord> load_sample_record(store::Connection& connection, SampleId id);

// Its two halves, for reading many samples into one record: what all samples share, and what is the sample's own.
Result<void> load_lab(store::Connection& connection, SampleRecord& record);
Result<void> load_own(store::Connection& connection, SampleId id, SampleRecord& record);

}  // namespace prillbook::results
