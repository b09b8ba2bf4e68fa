// SPDX-License-Identifier: GPL-3.0-or-later
// Beads and their weighings. A bead belongs to a pan test or to a charge and keeps that name for ever.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/base/id.h"
#include "core/history/journal.h"
#include "core/history/record.h"
#include "core/readings/entry.h"
#include "core/units/quantity.h"

namespace prillbook::weighing {

inline constexpr std::string_view of_bead = "bead";  // what a weighing weighs
inline constexpr std::string_view of_gold = "gold";  // the gold left after parting

struct Weighing {
  WeighingId id;
  std::string what;
  std::int64_t number = 0;
  readings::Reading mass;
  BalanceId balance;
  std::optional<Instant> weighed_at;
  PersonId weighed_by;
  std::optional<std::string> excluded;
  std::optional<std::string> raw;  // the line that the balance sent
  readings::Figure gross, tare;    // where it was weighed in a cup: what was read off, of which `mass` is the difference
  TrayId tray;                     // that it was taken from, where one was walked
  std::int64_t position = 0;       // on it, from 1

  // Whether the mass is the difference of two readings; one that was corrected since is not.
  bool is_difference() const;
};

// Beads of one sample that were melted together: the gold of the joint one speaks for each by its mass.
struct Melt {
  BeadId joint;
  std::vector<BeadId> melted_away;
  Mass together;             // of all of them, each as it was weighed before
  std::optional<Mass> gold;  // left of the joint bead; absent: not weighed
};

// What a bead weighed before parting and after.
struct Parted {
  Mass bead, gold;
};

struct Bead {
  BeadId id;
  PanTestId pan_test;  // one of the two
  ChargeId charge;
  bool none_seen = false;
  std::optional<std::string> method;  // with the two figures that of the joint bead, where it was melted into one
  readings::Figure fineness, fineness_u;
  readings::Figure in_air, in_water;  // where the fineness is from its density: what it was worked out from
  std::optional<std::string> look, remarks;
  readings::Figure inquart, residual_silver;  // added before parting; thought to be left in the parted gold
  std::optional<std::string> parting_look;
  BeadId melted_into;  // none: it was not
  std::optional<Melt> melt;
  std::vector<Weighing> weighings;

  // Weighings of one thing that count, in order.
  std::vector<const Weighing*> valid(std::string_view what) const;
  // The mean of them; nullopt where there is none.
  std::optional<Mass> mean(std::string_view what) const;
  // Of a parted bead whose gold was weighed, or of all that were melted together with it.
  std::optional<Parted> parted() const;
};

struct NewWeighing {
  BeadId bead;
  std::string what = std::string(of_bead);
  readings::Reading mass;
  BalanceId balance;
  std::optional<Instant> weighed_at;  // absent: now
  PersonId weighed_by;
  std::optional<std::string> raw = std::nullopt;  // the line that the balance sent, as balance_line::readable gives it
  readings::Figure gross = std::nullopt, tare = std::nullopt;  // both: their difference takes the place of `mass`
  TrayId tray = {};
  std::int64_t position = 0;
};

// Takes the next weighing. The balance and its step are kept with the reading. A first weighing takes back an earlier
// "none seen". Errors: inconsistent (heavier than the portion it came from; gold heavier than its bead; tare not below gross);
// missing_key (one of gross and tare without the other); not_found.
Result<WeighingId> weigh(history::Journal& journal, const NewWeighing& weighing);
Result<WeighingId> weigh(history::ChangeSet& set, const NewWeighing& weighing);
// Weighs the gold left after parting; a bead without a fineness is parted from then on. Errors as weigh; conflict where the
// fineness of the bead was got another way.
Result<WeighingId> weigh_parted(history::Journal& journal, const NewWeighing& weighing);
// Writes another figure for a weighing; the old one stays readable in the history. Errors as weigh.
Result<void> correct(history::Journal& journal, WeighingId id, const readings::Reading& mass, const std::string& why);
// Leaves a weighing out of the mean, or takes it in again where `reason` is empty.
Result<void> exclude(history::Journal& journal, WeighingId id, const std::string& reason);
// No bead was seen after a search: a result with an upper limit, not an absence. Errors: conflict where it was weighed.
Result<void> set_none_seen(history::Journal& journal, BeadId id, bool none_seen);

// How the fineness was got and what it is, as one entry. Errors: missing_key where the method needs a figure or its
// uncertainty (density, stated); conflict for a fineness beside "parted", which comes from its weighings, and for a bead that was
// melted into another. Weights in water that stood behind an earlier fineness are taken back.
Result<void> set_fineness(history::Journal& journal, BeadId id, const std::optional<std::string>& method,
                          const readings::Figure& fineness, const readings::Figure& uncertainty,
                          const std::optional<std::string>& why = std::nullopt);
Result<void> set_fineness(history::ChangeSet& set, BeadId id, const std::optional<std::string>& method,
                          const readings::Figure& fineness, const readings::Figure& uncertainty);

// Beads of several fractions melted together, to be parted as one: the bead is melted into another, whose gold then speaks for
// both by their masses; no bead: it was not after all. Errors: missing_key (one of them was not weighed before); conflict (into
// itself, into one that was melted away, or a bead that others were melted into; a fineness of its own stands); inconsistent (of
// another sample); not_found.
Result<void> melt_into(history::ChangeSet& set, BeadId id, BeadId other);
Result<void> melt_into(history::Journal& journal, BeadId id, BeadId other);

Result<Bead> bead(store::Connection& connection, BeadId id);
Result<Bead> bead_of(history::Source source, PanTestId id);
Result<Bead> bead_of(history::Source source, ChargeId id);

// What a bead came from, for lists and checks.
struct Origin {
  BeadId bead;
  SampleId sample;
  PortionId portion;
  std::string sample_number, mark;
  bool from_pan = false;
  std::int64_t portion_number = 0;
  std::optional<std::string> expected;
  readings::Figure portion_mass;
};
Result<Origin> origin(store::Connection& connection, BeadId id);
// Beads that wait for the balance: nothing weighed, not none seen, test not spoiled; oldest first.
Result<std::vector<Origin>> waiting_beads(store::Connection& connection, std::int64_t limit);
Result<std::int64_t> count_waiting_beads(store::Connection& connection);
// Beads that were weighed and whose gold is not known yet: no fineness, or to be parted and not weighed after it; oldest
// first.
Result<std::vector<Origin>> beads_without_gold(store::Connection& connection, std::int64_t limit);

// The newest weighings of the notebook, newest first.
struct RecentWeighing {
  WeighingId id;
  BeadId bead;
  std::string sample_number, what;
  bool from_pan = false;
  std::string cell;  // the reading
  std::int64_t portion_number = 0;
  std::optional<Instant> weighed_at;
  std::string who;  // initials
  bool excluded = false;
  PanTestId pan_test;  // one of the two
  ChargeId charge;
};
Result<std::vector<RecentWeighing>> recent_weighings(store::Connection& connection, std::int64_t limit);

}  // namespace prillbook::weighing
