// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/custody/wanted.h"

#include <fmt/format.h>

#include <algorithm>

#include "core/base/text.h"
#include "core/custody/statements.h"
#include "core/history/fields.h"

namespace prillbook::custody {
namespace {

std::optional<Instant> readable_instant(const std::optional<std::string>& cell) {
  if (!cell) return std::nullopt;
  const auto instant = parse_iso(*cell);
  return instant ? std::optional(*instant) : std::nullopt;
}

WaitingSample waiting_of(const store::Row& row) {
  return {SampleId{row.integer(0)},
          row.text(1),
          row.text(2),
          row.text(3),
          row.optional_text(4),
          row.optional_text(5),
          readable_instant(row.optional_text(6))};
}

}  // namespace

Result<std::vector<std::string>> wanted_tests(std::string_view text) {
  std::vector<std::string> asked;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find_first_of(",; \t"), text.size());
    if (const std::string word = lower_ascii(text.substr(0, end)); !word.empty()) asked.push_back(word);
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  const std::string known = fmt::format("{}", fmt::join(test_words, ", "));
  for (const std::string& word : asked)
    if (std::find(std::begin(test_words), std::end(test_words), word) == std::end(test_words))
      return Error{ErrorCode::out_of_range, "sample.tests_wanted", fmt::format("'{}' is none of {}", word, known), {word, known}};
  std::vector<std::string> ordered;
  for (const std::string_view word : test_words)
    if (std::find(asked.begin(), asked.end(), word) != asked.end()) ordered.emplace_back(word);
  return ordered;
}

Result<void> set_tests_wanted(history::ChangeSet& set, SampleId id, std::string_view text) {
  PRILLBOOK_ASSIGN(const auto tests, wanted_tests(text));
  const auto list = std::optional(fmt::format("{}", fmt::join(tests, ", ")));
  return set.set(history::fields::sample::tests_wanted, id.value, readings::cell_of(list));
}

Result<void> set_tests_wanted(history::Journal& journal, SampleId id, std::string_view text) {
  return journal.record("enter sample.tests_wanted", [&](history::ChangeSet& set) { return set_tests_wanted(set, id, text); });
}

Result<std::vector<WaitingSample>> waiting_samples(store::Connection& connection, std::int64_t limit) {
  std::vector<WaitingSample> lines;
  PRILLBOOK_TRY(connection.rows(sql::waiting_samples, {limit}, [&](const store::Row& row) {
    lines.push_back(waiting_of(row));
    return true;
  }));
  return lines;
}

// Local times of different offsets do not sort as text: each is read.
Result<std::vector<WaitingSample>> retention_over(store::Connection& connection, const Instant& now, std::int64_t limit) {
  std::vector<WaitingSample> lines;
  PRILLBOOK_TRY(connection.rows(sql::samples_retained, {}, [&](const store::Row& row) {
    WaitingSample line = waiting_of(row);
    if (line.due && line.due->utc_ms < now.utc_ms) lines.push_back(std::move(line));
    return true;
  }));
  std::sort(lines.begin(), lines.end(), [](const auto& a, const auto& b) { return a.due->utc_ms < b.due->utc_ms; });
  if (std::int64_t(lines.size()) > limit) lines.resize(static_cast<std::size_t>(limit));
  return lines;
}

}  // namespace prillbook::custody
