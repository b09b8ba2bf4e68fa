// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/search/expression.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <mutex>
#include <optional>

#include "core/base/text.h"
#include "core/search/statements.h"

namespace prillbook::search {
namespace {

constexpr std::size_t most_alternatives = 100;
// Sort before and after all that a word may go on with.
constexpr std::string_view first_sign = "\x01", last_sign = "\xF4\x8F\xBF\xBF";

// In quotes FTS5 knows no operators.
std::string whole_word(std::string_view word) { return fmt::format("\"{}\"", word); }
std::string beginning(std::string_view word) { return whole_word(word) + "*"; }

bool continues_letter(char c) { return (static_cast<unsigned char>(c) & 0xC0) == 0x80; }

std::size_t letters_in(std::string_view text) {
  return std::size_t(std::count_if(text.begin(), text.end(), [](char c) { return !continues_letter(c); }));
}

std::string_view first_two_letters(std::string_view text) {
  std::size_t at = 0;
  for (int letters = 0; at < text.size(); ++at)
    if (!continues_letter(text[at]) && ++letters > 2) break;
  return text.substr(0, at);
}

// As the table has it: small, without diacritics. None where it is several words to the table, or not one.
Result<std::optional<std::string>> folded(std::string_view word) {
  const bool plain = std::all_of(word.begin(), word.end(), [](char c) {
    return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
  });
  if (plain) return std::optional(lower_ascii(word));
  static std::mutex one_at_a_time;
  const std::scoped_lock lock(one_at_a_time);
  static const auto empty = store::Connection::in_memory();
  if (!empty) return empty.error();
  PRILLBOOK_TRY((*empty)->run(sql::take_word, {word}));
  std::vector<std::string> terms;
  PRILLBOOK_TRY((*empty)->rows(sql::words_taken, {}, [&](const store::Row& row) {
    terms.push_back(row.text(0));
    return true;
  }));
  return terms.size() == 1 ? std::optional(terms.front()) : std::nullopt;
}

Result<std::optional<std::string>> next_word(store::Connection& connection, const std::string& from) {
  std::optional<std::string> found;
  PRILLBOOK_TRY(connection.rows(sql::next_word, {std::string_view(from)}, [&](const store::Row& row) {
    found = row.text(0);
    return false;
  }));
  return found;
}

// The words of the notebook that begin so; of a single letter the beginnings of two. None where they are too many.
Result<std::optional<std::vector<std::string>>> alternatives(store::Connection& connection, const std::string& start) {
  const bool single = letters_in(start) == 1;
  std::vector<std::string> list;
  PRILLBOOK_ASSIGN(auto word, next_word(connection, start));
  while (word && word->starts_with(start)) {
    if (list.size() == most_alternatives) return std::optional<std::vector<std::string>>();
    const bool goes_on = single && *word != start;
    const std::string head(goes_on ? first_two_letters(*word) : *word);
    list.push_back(goes_on ? beginning(head) : whole_word(head));
    PRILLBOOK_ASSIGN(word, next_word(connection, head + std::string(goes_on ? last_sign : first_sign)));
  }
  return std::optional(std::move(list));
}

Result<std::string> expression_of_word(store::Connection& connection, const std::string& word) {
  PRILLBOOK_ASSIGN(const auto start, folded(word));
  if (!start || letters_in(*start) == 2) return beginning(word);
  PRILLBOOK_ASSIGN(const auto words, alternatives(connection, *start));
  if (!words || words->empty()) return beginning(word);
  return fmt::format("({})", fmt::join(*words, " OR "));
}

}  // namespace

std::vector<std::string> typed_words(std::string_view text) {
  constexpr std::string_view between = " \t\n\r\"";
  std::vector<std::string> words;
  for (std::size_t at = text.find_first_not_of(between); at != std::string_view::npos;) {
    const std::size_t end = std::min(text.find_first_of(between, at), text.size());
    words.emplace_back(text.substr(at, end - at));
    at = text.find_first_not_of(between, end);
  }
  return words;
}

Result<std::string> expression_of(store::Connection& connection, std::string_view text) {
  std::vector<std::string> parts;
  for (const std::string& word : typed_words(text)) {
    PRILLBOOK_ASSIGN(std::string part, expression_of_word(connection, word));
    parts.push_back(std::move(part));
  }
  return fmt::format("{}", fmt::join(parts, " AND "));
}

}  // namespace prillbook::search
