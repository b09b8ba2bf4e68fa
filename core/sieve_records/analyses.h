// SPDX-License-Identifier: GPL-3.0-or-later
// The record of a sieve analysis: a portion, the sieves it went through, and what lay on each and in the pan.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/portions/portions.h"
#include "core/sieve_records/sieves.h"

namespace prillbook::sieves {

struct Cut {
  SieveCutId id;
  SieveId sieve;  // none: the pan
  std::string name;
  std::optional<SieveSeries> series;
  std::optional<Opening> opening;  // absent: the pan
  readings::Figure diameter, retained;
  PortionId fraction;  // made of what lay on it, to be assayed

  bool is_pan() const { return !opening; }
};

struct Analysis {
  SieveAnalysisId id;
  PortionId portion;
  SieveStackId stack;
  std::optional<Instant> sieved_at;
  PersonId sieved_by;
  std::optional<std::string> method, spoiled, remarks;
  std::optional<std::int64_t> minutes;
  BalanceId balance;
  std::vector<Cut> cuts;  // coarse to fine, the pan last
};

struct NewAnalysis {
  PortionId portion;
  SieveStackId stack;                // its sieves are taken
  std::optional<Instant> sieved_at;  // absent: now
  PersonId sieved_by;
  std::optional<std::string> method;
  std::optional<std::int64_t> minutes;
  BalanceId balance;  // none: the one that weighed the portion
};

// Makes a line for every sieve and for the pan, to be weighed. Errors: already_exists where the portion has an analysis that is
// not spoiled; too_small (a stack without sieves); not_found.
Result<SieveAnalysisId> start_analysis(history::Journal& journal, const NewAnalysis& analysis);
Result<SieveAnalysisId> start_analysis(history::ChangeSet& set, const NewAnalysis& analysis);

// What lay on a sieve or in the pan; with it the mass of the fraction made of it. Errors: overdrawn where it weighs more than
// the portion by more than 2 %, or fractions more than the lab's limit; out_of_range above the balance's capacity or, for a
// fraction, at zero.
Result<void> set_retained(history::Journal& journal, SieveCutId id, const readings::Figure& mass,
                          const std::optional<std::string>& why = std::nullopt);
Result<void> set_retained(history::ChangeSet& set, SieveCutId id, const readings::Figure& mass);

// A portion of purpose "fraction" under the portion sieved. Errors: missing_key (not weighed), out_of_range (nothing on it),
// already_exists.
Result<PortionId> make_fraction(history::ChangeSet& set, SieveCutId id, PersonId by);
// One for every sieve and pan that holds anything and has none yet.
Result<std::vector<PortionId>> make_fractions(history::Journal& journal, SieveAnalysisId id, PersonId by);

Result<Analysis> analysis(store::Connection& connection, SieveAnalysisId id);
Result<std::vector<Analysis>> analyses_of(history::Source source, PortionId portion);

// "+850 µm", "−850 µm +250 µm", "−150 µm". `place` counts in analysis.cuts.
std::string fraction_in_words(const Analysis& analysis, std::size_t place, DecimalMark mark = DecimalMark::point);

// A line of a list: a portion to be sieved, or an analysis.
struct SieveLine {
  PortionId portion;
  SieveAnalysisId analysis;  // none: it waits
  std::string number, mark;  // "26-0003/2", the client's mark
  std::string when;          // ISO, of the cut or the sieving
  bool complete = false;     // every line is weighed
};

// Portions cut for sieving without an analysis, then analyses with a line not weighed, oldest first.
Result<std::vector<SieveLine>> waiting_to_sieve(store::Connection& connection, std::int64_t limit, std::int64_t offset = 0);
Result<std::int64_t> count_waiting_to_sieve(store::Connection& connection);
// Complete or spoiled, newest first.
Result<std::vector<SieveLine>> analyses_made(store::Connection& connection, std::int64_t limit, std::int64_t offset = 0);

}  // namespace prillbook::sieves
