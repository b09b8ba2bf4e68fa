// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/history/search_index.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <limits>

#include "core/history/fields.h"
#include "core/history/statements.h"

namespace prillbook::history {
namespace {

using Ids = std::vector<RecordId>;

struct Words {
  const Field* field;
  bool also_of_samples = false;  // the words stand in the rows of what came with it
};

constexpr std::array words_of_sample{Words{&fields::sample::struck},      Words{&fields::sample::number},
                                     Words{&fields::sample::consignment}, Words{&fields::sample::mark},
                                     Words{&fields::sample::place},       Words{&fields::sample::remarks}};
constexpr std::array words_of_consignment{Words{&fields::consignment::struck}, Words{&fields::consignment::number, true},
                                          Words{&fields::consignment::client, true}, Words{&fields::consignment::carrier},
                                          Words{&fields::consignment::remarks}};
constexpr std::array words_of_client{Words{&fields::client::name, true}};

const Words* words_at(std::span<const Words> all, std::int64_t code) {
  const auto found = std::find_if(all.begin(), all.end(), [&](const Words& words) { return words.field->code == code; });
  return found == all.end() ? nullptr : &*found;
}

// What a gesture touched, and of that what is new and so has no row yet.
struct Touched {
  Ids samples, new_samples, consignments, new_consignments;
};

void sort_out(Ids& ids) {
  std::sort(ids.begin(), ids.end());
  ids.erase(std::unique(ids.begin(), ids.end()), ids.end());
}

Result<void> add_ids(store::Connection& connection, const store::Sql& statement, RecordId of, Ids& ids) {
  return connection.rows(statement, {of}, [&](const store::Row& row) {
    ids.push_back(row.integer(0));
    return true;
  });
}

Result<void> touch(store::Connection& connection, const Change& change, Touched& touched) {
  const bool made = change.field == 0;
  if (change.entity == Entity::sample) {
    if (made) touched.new_samples.push_back(change.record);
    if (words_at(words_of_sample, change.field)) touched.samples.push_back(change.record);
    return {};
  }
  if (change.entity == Entity::consignment) {
    if (made) touched.new_consignments.push_back(change.record);
    const Words* words = words_at(words_of_consignment, change.field);
    if (!words) return {};
    touched.consignments.push_back(change.record);
    if (!words->also_of_samples) return {};
    return add_ids(connection, sql::samples_of_consignment, change.record, touched.samples);
  }
  if (change.entity != Entity::client || !words_at(words_of_client, change.field)) return {};
  PRILLBOOK_TRY(add_ids(connection, sql::consignments_of_client, change.record, touched.consignments));
  return add_ids(connection, sql::samples_of_client, change.record, touched.samples);
}

// Ids that follow each other go together: a list of ten thousand samples is one statement.
Result<void> for_each_range(const Ids& ids, const std::function<Result<void>(RecordId, RecordId)>& act) {
  for (std::size_t i = 0; i < ids.size();) {
    std::size_t last = i;
    while (last + 1 < ids.size() && ids[last + 1] == ids[last] + 1) ++last;
    PRILLBOOK_TRY(act(ids[i], ids[last]));
    i = last + 1;
  }
  return {};
}

Result<void> write_rows(store::Connection& connection, Ids& changed, Ids& fresh, RecordId base, const store::Sql& insert) {
  sort_out(changed);
  PRILLBOOK_TRY(for_each_range(changed, [&](RecordId from, RecordId to) {
    return connection.run(sql::drop_words, {base + from, base + to});
  }));
  changed.insert(changed.end(), fresh.begin(), fresh.end());
  sort_out(changed);
  return for_each_range(changed, [&](RecordId from, RecordId to) { return connection.run(insert, {from, to}); });
}

}  // namespace

Result<bool> has_search_index(store::Connection& connection) {
  PRILLBOOK_ASSIGN(const std::int64_t tables, connection.integer(sql::count_of_search));
  return tables > 0;
}

Result<void> update_search_index(store::Connection& connection, const std::vector<Change>& changes) {
  Touched touched;
  for (const Change& change : changes) PRILLBOOK_TRY(touch(connection, change, touched));
  PRILLBOOK_TRY(write_rows(connection, touched.samples, touched.new_samples, 0, sql::add_sample_words));
  return write_rows(connection, touched.consignments, touched.new_consignments, first_consignment_row,
                    sql::add_consignment_words);
}

Result<void> rebuild_search_index(store::Connection& connection) {
  PRILLBOOK_ASSIGN(const bool there, has_search_index(connection));
  if (!there) return {};
  constexpr RecordId last = std::numeric_limits<RecordId>::max();
  PRILLBOOK_TRY(connection.run(sql::drop_all_words));
  PRILLBOOK_TRY(connection.run(sql::add_sample_words, {RecordId{0}, last}));
  return connection.run(sql::add_consignment_words, {RecordId{0}, last});
}

Result<void> verify_search_index(store::Connection& connection, store::FaultList& faults) {
  PRILLBOOK_ASSIGN(const bool there, has_search_index(connection));
  if (!there) return {};
  const auto tell = [&](const store::Sql& statement, const char* what) {
    return connection.rows(statement, {}, [&](const store::Row& row) {
      faults.add(fmt::format("search {}", row.integer(0)), what);
      return !faults.is_full();
    });
  };
  PRILLBOOK_TRY(tell(sql::samples_not_found, "does not hold the words of its sample"));
  PRILLBOOK_TRY(tell(sql::consignments_not_found, "does not hold the words of its consignment"));
  return tell(sql::words_of_nothing, "holds words of a record that is not there");
}

}  // namespace prillbook::history
