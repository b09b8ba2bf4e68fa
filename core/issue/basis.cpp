// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/issue/basis.h"

#include <fmt/format.h>

#include <map>
#include <nlohmann/json.hpp>
#include <set>

#include "core/issue/statements.h"
#include "core/results/reading_lines.h"

namespace prillbook::issue {
namespace {

constexpr const char* not_there = "not there";

std::string spoiled_words(const std::optional<std::string>& spoiled, const std::optional<std::string>& excluded) {
  if (spoiled) return "spoiled: " + *spoiled;
  return excluded ? "left out: " + *excluded : "counts";
}

// What was read, by name. A name that comes twice is told apart by its place.
std::map<std::string, std::string> readings_of(const results::SampleRecord& record) {
  std::map<std::string, std::string> all;
  const auto put = [&](std::string name, std::string value) {
    for (int again = 2; all.contains(name); ++again) name = fmt::format("{} ({})", name.substr(0, name.rfind(" (")), again);
    all.emplace(std::move(name), std::move(value));
  };
  for (const results::ReadingLine& line : results::reading_lines(record))
    put(fmt::format("{}, {}", line.test.empty() ? line.sample : line.test, line.what),
        line.typed + (line.left_out.empty() ? "" : "; left out: " + line.left_out));
  for (const auto& [test, bead, pannings] : record.pan_tests) {
    const std::string label = record.portion_label(test.portion);
    put(label + ", how the fineness was got", bead.method.value_or("not said"));
    put(label + ", pan test", spoiled_words(test.spoiled, test.excluded));
  }
  for (const auto& [charge, bead] : record.charges) {
    const std::string label = record.portion_label(charge.portion);
    put(label + ", how the fineness was got", bead.method.value_or("not said"));
    put(label + ", charge", spoiled_words(charge.spoiled, charge.excluded));
  }
  return all;
}

// "26-0003/2" of "26-0003/2, bead, weighing 1".
std::string test_of(const std::string& name) { return name.substr(0, name.find(", ")); }

}  // namespace

std::string basis_of(const results::SampleRecord& record) {
  return nlohmann::json(readings_of(record)).dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
}

Result<std::vector<ChangedReading>> changed_since_issue(store::Connection& connection, const results::SampleRecord& record) {
  std::vector<ChangedReading> changed;
  Result<void> outcome;
  std::optional<std::map<std::string, std::string>> now;
  PRILLBOOK_TRY(connection.rows(sql::issued_with_sample, {record.sample.id.value}, [&](const store::Row& row) {
    const auto basis = nlohmann::json::parse(row.text(2), nullptr, false);
    if (!basis.is_object()) {
      outcome = refusal(ErrorCode::damaged, "summary", row.text(1) + ": what it rested on can not be read");
      return false;
    }
    if (!now) now = readings_of(record);
    const auto add = [&](const std::string& what, std::string before, std::string after) {
      changed.push_back({SummaryId{row.integer(0)}, row.text(1), what, std::move(before), std::move(after)});
    };
    std::set<std::string> tests;
    for (const auto& [what, cell] : basis.items()) {
      tests.insert(test_of(what));
      const std::string before = cell.is_string() ? cell.get<std::string>() : "";
      const auto found = now->find(what);
      if (found == now->end())
        add(what, before, "");
      else if (found->second != before)
        add(what, before, found->second);
    }
    for (const auto& [what, value] : *now)
      if (!basis.contains(what) && tests.contains(test_of(what))) add(what, not_there, value);
    return true;
  }));
  PRILLBOOK_TRY(outcome);
  return changed;
}

Result<std::set<SampleId>> issued_among(store::Connection& connection, std::span<const SampleId> samples) {
  std::set<SampleId> issued;
  nlohmann::json ids = nlohmann::json::array();
  for (const SampleId sample : samples) ids.push_back(sample.value);
  const std::string list = ids.dump();
  PRILLBOOK_TRY(connection.rows(sql::issued_among, {std::string_view(list)}, [&](const store::Row& row) {
    issued.insert(SampleId{row.integer(0)});
    return true;
  }));
  return issued;
}

}  // namespace prillbook::issue
