// SPDX-License-Identifier: GPL-3.0-or-later
// The entries of the history as a person reads them: of one record, or of the whole notebook page by page.
#pragma once

#include <cstdint>
#include <optional>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "core/base/id.h"
#include "core/base/result.h"
#include "core/history/catalogue.h"
#include "core/history/chain.h"
#include "core/store/connection.h"
#include "core/versions/names.h"

namespace prillbook::versions {

// How an entry stands today.
enum class Standing {
  usual,
  undoes,  // it takes back an earlier gesture
  redoes,  // it puts back what was taken back
};

struct Version {
  history::HistoryRow row;
  Standing standing = Standing::usual;
  bool undone = false;  // taken back since, and not put back

  bool made() const { return row.field == 0; }
};

// "taken back", "takes back", "puts back"; empty where there is nothing to say.
std::string standing_name(const Version& version);

using RecordKey = std::pair<history::Entity, RecordId>;

// Everything that happened to these records, oldest first.
Result<std::vector<Version>> versions_of(store::Connection& connection, const std::vector<RecordKey>& records);

// The sample, and all that belongs to it: portions, tests, beads, weighings, photographs and the rest. The records are
// found by the references of the catalogue, struck out or not; of the lab's own (clients, people, balances) none.
Result<std::vector<RecordKey>> records_of_sample(store::Connection& connection, RecordId sample);

// An entry in words.
struct Words {
  std::string kind;    // "pan test"
  std::string record;  // "26-0001/2"; may be empty
  std::string field;   // "mass received"; empty where the record was made
  std::string old_text, new_text;
};
// Of a record that was made, `new_text` lists its fields: "mark Larch adit N; kind chip".
Words words_of(store::Connection& connection, const history::HistoryRow& row);
Words words_of(Names& names, const history::HistoryRow& row);

struct JournalFilter {
  std::string who;                       // initials; empty: everybody
  std::optional<history::Entity> kind;   // of record
  std::optional<std::int64_t> from_ms;   // UTC, from then on
  std::optional<std::int64_t> until_ms;  // before
  std::string words;                     // in the gesture, the reason, the old or the new value; ASCII letters of either case

  friend bool operator==(const JournalFilter&, const JournalFilter&) = default;
};

// The whole journal, newest first, in pages. A page looks at so many entries at most, so that a window stays alive
// however rarely the filter fits.
class JournalReader {
 public:
  // `connection` outlives the reader. Entries written after the reader was made are left out.
  JournalReader(store::Connection& connection, JournalFilter filter);

  struct Page {
    std::vector<Version> versions;
    bool end = false;            // nothing is left
    std::int64_t looked_at = 0;  // entries
  };
  Result<Page> next(std::size_t most, std::int64_t most_looked_at = 20'000);

 private:
  Result<void> read(std::int64_t from, std::size_t most, Page& page);

  store::Connection& connection_;
  JournalFilter filter_;
  std::string pattern_;
  std::optional<std::int64_t> before_;  // id of the entry after the next
  std::set<std::int64_t> undone_;       // change sets
};

Result<std::int64_t> entries(store::Connection& connection);
// Initials of the people of the lab, in order.
Result<std::vector<std::string>> authors(store::Connection& connection);

}  // namespace prillbook::versions
