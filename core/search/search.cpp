// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/search/search.h"

#include <algorithm>

#include "core/base/number.h"
#include "core/base/text.h"
#include "core/history/search_index.h"
#include "core/search/expression.h"
#include "core/search/statements.h"

namespace prillbook::search {
namespace {

using history::Entity;

// Trimmed, without zero bytes, cut between letters; empty where it is no text.
std::string plain(std::string_view text) {
  std::string words(text.substr(0, longest_text));
  std::replace(words.begin(), words.end(), '\0', ' ');
  // A letter that the cut went through.
  for (int i = 0; i < 3 && !words.empty() && !is_utf8(words) && text.size() > longest_text; ++i) words.pop_back();
  return is_utf8(words) ? std::string(trimmed(words)) : std::string();
}

class Hits {
 public:
  Hits(store::Connection& connection, std::size_t limit) : connection_(connection), limit_(limit) {}

  Result<void> by_number(const std::string& text) {
    // Every number that begins with the text lies between it and the text with the last letter there is.
    const std::string end = text + "\xF4\x8F\xBF\xBF";
    for (const store::Sql* statement : {&sql::samples_by_number, &sql::consignments_by_number}) {
      if (full()) return {};
      PRILLBOOK_TRY(take(*statement, {std::string_view(text), std::string_view(end), room()}));
    }
    return {};
  }

  Result<void> by_words(const std::string& expression) {
    if (expression.empty() || full()) return {};
    PRILLBOOK_ASSIGN(std::vector<Hit> samples, rows_of(sql::samples_by_words, expression));
    PRILLBOOK_ASSIGN(std::vector<Hit> consignments, rows_of(sql::consignments_by_words, expression));
    const auto left = static_cast<std::size_t>(room());
    const std::size_t share = std::max(left / 4, left - std::min(left, samples.size()));
    std::size_t taken = 0;
    for (Hit& hit : consignments)
      if (taken < share && !holds(hit) && !full()) add(std::move(hit)), ++taken;
    for (Hit& hit : samples)
      if (!holds(hit) && !full()) add(std::move(hit));
    return {};
  }

  std::vector<Hit> take_all() { return std::move(found_); }

 private:
  Result<std::vector<Hit>> rows_of(const store::Sql& statement, const std::string& expression) {
    std::vector<RecordId> rows;
    PRILLBOOK_TRY(connection_.rows(statement, {std::string_view(expression), static_cast<std::int64_t>(limit_)},
                                   [&](const store::Row& row) {
                                     rows.push_back(row.integer(0));
                                     return true;
                                   }));
    Hits hits(connection_, limit_);
    for (const RecordId id : rows) PRILLBOOK_TRY(hits.take(sql::row, {id}));
    return hits.take_all();
  }
  bool full() const { return found_.size() >= limit_; }
  std::int64_t room() const { return static_cast<std::int64_t>(limit_ - found_.size()); }
  bool holds(const Hit& hit) const {
    return std::any_of(found_.begin(), found_.end(),
                       [&](const Hit& other) { return other.entity == hit.entity && other.record == hit.record; });
  }
  void add(Hit hit) { found_.push_back(std::move(hit)); }

  // Rows of search: rowid, number, client, mark, place.
  Result<void> take(const store::Sql& statement, const store::Arguments& arguments) {
    return connection_.rows(statement, arguments, [&](const store::Row& row) {
      const RecordId id = row.integer(0);
      const bool consignment = id >= history::first_consignment_row;
      found_.push_back({consignment ? Entity::consignment : Entity::sample,
                        consignment ? id - history::first_consignment_row : id, row.text(1), row.text(2), row.optional_text(3),
                        row.optional_text(4)});
      return true;
    });
  }

  store::Connection& connection_;
  std::size_t limit_;
  std::vector<Hit> found_;
};

}  // namespace

Result<std::vector<Hit>> find(store::Connection& connection, std::string_view text, std::size_t limit) {
  const std::string words = plain(text);
  PRILLBOOK_ASSIGN(const bool there, history::has_search_index(connection));
  if (words.empty() || limit == 0 || !there) return std::vector<Hit>{};
  Hits hits(connection, limit);
  PRILLBOOK_TRY(hits.by_number(words));
  PRILLBOOK_ASSIGN(const std::string expression, expression_of(connection, words));
  PRILLBOOK_TRY(hits.by_words(expression));
  return hits.take_all();
}

}  // namespace prillbook::search
