// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/search/search.h"

#include <algorithm>

#include "core/base/number.h"
#include "core/base/text.h"
#include "core/history/search_index.h"
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
    Hits samples(connection_, limit_), consignments(connection_, limit_);
    std::vector<RecordId> sample_rows, consignment_rows;
    // One question for both: gathering the rows of a word is nearly all of its cost. Consignments come first.
    PRILLBOOK_TRY(connection_.rows(sql::rows_by_words, {std::string_view(expression)}, [&](const store::Row& row) {
      auto& rows = row.integer(0) >= history::first_consignment_row ? consignment_rows : sample_rows;
      if (rows.size() < limit_) rows.push_back(row.integer(0));
      return sample_rows.size() < limit_;
    }));
    for (const RecordId id : sample_rows) PRILLBOOK_TRY(samples.take(sql::row, {id}));
    for (const RecordId id : consignment_rows) PRILLBOOK_TRY(consignments.take(sql::row, {id}));
    const auto left = static_cast<std::size_t>(room());
    const std::size_t share = std::max(left / 4, left - std::min(left, samples.found_.size()));
    std::size_t taken = 0;
    for (Hit& hit : consignments.found_)
      if (taken < share && !holds(hit) && !full()) add(std::move(hit)), ++taken;
    for (Hit& hit : samples.found_)
      if (!holds(hit) && !full()) add(std::move(hit));
    return {};
  }

  std::vector<Hit> take_all() { return std::move(found_); }

 private:
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

// Each word stands in quotes, where FTS5 knows no operators, and may go on. Quotes inside it are separators like any
// other sign.
std::string expression_of(std::string_view text) {
  std::string expression, word;
  const auto close_word = [&] {
    if (!word.empty()) expression += (expression.empty() ? "\"" : " \"") + word + "\"*";
    word.clear();
  };
  for (const char c : plain(text)) {
    if (c == ' ' || c == '\t' || c == '\n' || c == '\r' || c == '"')
      close_word();
    else
      word += c;
  }
  close_word();
  return expression;
}

Result<std::vector<Hit>> find(store::Connection& connection, std::string_view text, std::size_t limit) {
  const std::string words = plain(text);
  PRILLBOOK_ASSIGN(const bool there, history::has_search_index(connection));
  if (words.empty() || limit == 0 || !there) return std::vector<Hit>{};
  Hits hits(connection, limit);
  PRILLBOOK_TRY(hits.by_number(words));
  PRILLBOOK_TRY(hits.by_words(expression_of(words)));
  return hits.take_all();
}

}  // namespace prillbook::search
