// SPDX-License-Identifier: GPL-3.0-or-later
// The lab's own sieves and the stacks they are used in.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/id.h"
#include "core/history/journal.h"
#include "core/readings/entry.h"
#include "core/sieving/sieve_name.h"

namespace prillbook::sieves {

struct Sieve {
  SieveId id;
  std::string name;  // "200", "75 µm"
  std::optional<SieveSeries> series;
  Opening opening;
  readings::Figure diameter;
  std::optional<Instant> inspect_by;
  std::optional<std::string> remarks;

  std::string in_words(DecimalMark mark = DecimalMark::point) const { return sieve_in_words(name, series, opening, mark); }
};

struct Stack {
  SieveStackId id;
  std::string name;
  std::optional<std::string> remarks;
  std::vector<Sieve> sieves;  // coarse to fine

  // "850 µm, 250 µm, 150 µm": what sieves_from_words reads.
  std::string openings_in_words(DecimalMark mark = DecimalMark::point) const;
};

// `words` as core/sieving/sieve_name.h reads them. Errors: as there.
Result<SieveId> add_sieve(history::Journal& journal, std::string_view words);
Result<SieveId> add_sieve(history::ChangeSet& set, const NamedSieve& named);
// Name, series and opening go together: a number takes its opening from the series. Analyses made before keep theirs.
Result<void> rename_sieve(history::Journal& journal, SieveId id, std::string_view words,
                          const std::optional<std::string>& why = std::nullopt);
Result<void> set_series(history::Journal& journal, SieveId id, std::optional<SieveSeries> series);

// Sieves of the lab by these words, those it has not got yet made. Errors: as read_sieve_names.
Result<std::vector<SieveId>> sieves_from_words(history::ChangeSet& set, std::string_view words);

// Errors: missing_key (no name), already_exists (the name), too_small (no sieve), conflict (one opening twice).
Result<SieveStackId> add_stack(history::ChangeSet& set, const std::string& name, const std::vector<SieveId>& sieves);
// A stack typed as its openings, named by them where `name` is empty.
Result<SieveStackId> add_stack(history::Journal& journal, const std::string& name, std::string_view words);
Result<void> set_stack(history::Journal& journal, SieveStackId id, std::string_view words);

Result<std::vector<Sieve>> sieves(store::Connection& connection);  // coarse to fine
Result<std::vector<Stack>> stacks(store::Connection& connection);
Result<Stack> stack(store::Connection& connection, SieveStackId id);
Result<Stack> stack_by_name(store::Connection& connection, std::string_view name);  // errors: not_found

}  // namespace prillbook::sieves
