// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/trays/filling.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>

#include "core/base/number.h"
#include "core/trays/statements.h"

namespace prillbook::trays {
namespace {

// "26-0003/2" in its two parts; no portion: 0.
struct Label {
  std::string_view number;
  std::int64_t portion = 0;
};

Label split_label(std::string_view typed) {
  const std::size_t slash = typed.rfind('/');
  if (slash == std::string_view::npos) return {typed, 0};
  const std::string_view tail = typed.substr(slash + 1);
  std::int64_t portion = 0;
  const auto [end, fault] = std::from_chars(tail.data(), tail.data() + tail.size(), portion);
  if (fault != std::errc() || end != tail.data() + tail.size() || portion < 1) return {typed, 0};
  return {typed.substr(0, slash), portion};
}

bool begins_with_digit(std::string_view text) { return !text.empty() && text.front() >= '0' && text.front() <= '9'; }

Error about_thing(ErrorCode code, std::string_view typed, const char* detail) {
  return Error{code, "tray_place.thing", fmt::format("{}: {}", typed, detail), {std::string(typed)}};
}

}  // namespace

Result<Thing> thing_called(store::Connection& connection, std::string_view typed) {
  const std::string_view words = trimmed(typed);
  if (words.empty()) return refusal(ErrorCode::missing_key, "tray_place", "nothing is named");
  const Label label = split_label(words);
  std::vector<Thing> found;
  bool portion_there = false;
  PRILLBOOK_TRY(connection.rows(sql::called, {label.number, label.portion}, [&](const store::Row& row) {
    portion_there = true;
    if (row.integer(0))
      found.push_back({ChargeId{row.integer(0)}, {}, {}});
    else if (row.integer(1))
      found.push_back({{}, BeadId{row.integer(1)}, {}});
    return true;
  }));
  if (found.size() == 1) return found.front();
  if (found.size() > 1) return about_thing(ErrorCode::ambiguous, words, "the sample has several charges");
  if (portion_there) return about_thing(ErrorCode::missing_key, words, "is in no crucible and in no pan");
  if (label.portion || begins_with_digit(words)) return about_thing(ErrorCode::not_found, words, "there is no such portion");
  return Thing{{}, {}, std::string(words)};
}

Result<Called> called(store::Connection& connection, const Thing& thing) {
  if (!thing.control.empty()) return Called{thing.control, {}, {}};
  Called name;
  Result<void> outcome;
  PRILLBOOK_TRY(connection.rows(sql::name_of_thing, {thing.charge.value, thing.bead.value}, [&](const store::Row& row) {
    name.label = row.text(0);
    name.mark = row.text(1);
    const auto cell = row.optional_text(2);
    if (!cell) return false;
    auto mass = readings::decode(*cell, Measure::mass);
    if (mass)
      name.portion_mass = *std::move(mass);
    else
      outcome = mass.error();
    return false;
  }));
  PRILLBOOK_TRY(outcome);
  return name;
}

Result<std::vector<Thing>> without_place(store::Connection& connection, Kind kind, std::int64_t limit) {
  std::vector<Thing> list;
  PRILLBOOK_TRY(connection.rows(sql::without_place, {name_of(kind), limit}, [&](const store::Row& row) {
    list.push_back({ChargeId{row.integer(0)}, {}, {}});
    return true;
  }));
  return list;
}

Result<void> place_all(history::ChangeSet& set, TrayId id, std::span<const Thing> things) {
  PRILLBOOK_ASSIGN(const Tray held, tray(set.connection(), id));
  std::int64_t from = 1;
  for (const Thing& one : things) {
    const auto position = held.first_free(from);
    if (!position)
      return Error{ErrorCode::conflict,
                   "tray.room",
                   fmt::format("{} has no room for {} more", held.name, things.size()),
                   {std::to_string(things.size())}};
    if (auto placed = place(set, id, *position, one); !placed) return placed.error();
    from = *position + 1;
  }
  return {};
}

Result<void> place_all(history::Journal& journal, TrayId id, std::span<const Thing> things) {
  return journal.record("fill tray", [&](history::ChangeSet& set) { return place_all(set, id, things); });
}

std::string usual_name(Kind kind, const Instant& when) {
  std::string day = to_iso(when).substr(0, 16);
  std::replace(day.begin(), day.end(), 'T', ' ');
  return fmt::format("{}s {}", name_of(kind), day);
}

Result<TrayId> carry_on_to_new(history::ChangeSet& set, TrayId from, Kind kind, const std::string& name) {
  PRILLBOOK_ASSIGN(const Tray held, tray(set.connection(), from));
  if (kind <= held.kind)
    return refusal(ErrorCode::conflict, "tray.kind",
                   fmt::format("nothing goes from {}s to {}s", name_of(held.kind), name_of(kind)));
  PRILLBOOK_ASSIGN(const TrayId fresh, lay_out(set, {name.empty() ? usual_name(kind, set.when()) : name, kind, held.grid}));
  PRILLBOOK_TRY(carry_on(set, from, fresh));
  return fresh;
}

Result<TrayId> carry_on_to_new(history::Journal& journal, TrayId from, Kind kind, const std::string& name) {
  return journal.record_for<TrayId>("carry on to a new tray",
                                    [&](history::ChangeSet& set) { return carry_on_to_new(set, from, kind, name); });
}

}  // namespace prillbook::trays
