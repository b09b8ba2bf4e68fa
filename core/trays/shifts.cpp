// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/trays/shifts.h"

#include <algorithm>
#include <map>
#include <numeric>

#include "core/base/number.h"
#include "core/history/fields.h"
#include "core/trays/statements.h"

namespace prillbook::trays {
namespace {

// Of one record in one gesture.
struct Moved {
  std::int64_t from = 0, to = 0;  // the position
  std::int64_t struck = -1;       // what it became; -1: untouched
};

struct GestureOnTray {
  std::int64_t change_set = 0;
  Instant when;
  std::string who;
  std::optional<std::string> why;
  std::map<std::int64_t, Moved> records;
};

std::int64_t whole_of(const store::Value& value) {
  const auto* number = std::get_if<std::int64_t>(&value);
  return number ? *number : 0;
}

void take_row(const store::Row& row, std::vector<GestureOnTray>& gestures) {
  if (gestures.empty() || gestures.back().change_set != row.integer(0))
    gestures.push_back(
        {row.integer(0), {row.integer(6), std::int32_t(row.integer(7))}, row.text(5), row.optional_text(8), {}});
  const auto [found, fresh] = gestures.back().records.try_emplace(row.integer(1), Moved{row.integer(9), row.integer(9), -1});
  Moved& moved = found->second;
  if (row.integer(2) == history::fields::tray_place::struck.code) {
    moved.struck = whole_of(row.value(4));
    return;
  }
  moved.from = whole_of(row.value(3));
  moved.to = whole_of(row.value(4));
}

void tell_gesture(const GestureOnTray& done, std::vector<Shift>& list) {
  const Shift common{ShiftKind::moved, 0, 0, done.when, done.who, done.why};
  std::vector<Shift> moves;
  for (const auto& [record, moved] : done.records) {
    Shift one = common;
    one.from = moved.from;
    one.to = moved.to;
    if (moved.from == moved.to) one.kind = moved.struck == 1 ? ShiftKind::cleared : ShiftKind::put_back;
    moves.push_back(one);
  }
  const bool swapped = moves.size() == 2 && moves[0].from == moves[1].to && moves[0].to == moves[1].from;
  if (swapped) {
    moves[0].kind = ShiftKind::swapped;
    moves.pop_back();
  }
  std::move(moves.begin(), moves.end(), std::back_inserter(list));
}

// Length of the longest rising run that ends at each place.
std::vector<std::size_t> rising_runs(const std::vector<std::int64_t>& values) {
  std::vector<std::int64_t> ends;  // the smallest end of a run of each length
  std::vector<std::size_t> lengths;
  for (const std::int64_t value : values) {
    const auto at = std::lower_bound(ends.begin(), ends.end(), value);
    lengths.push_back(std::size_t(at - ends.begin()) + 1);
    if (at == ends.end())
      ends.push_back(value);
    else
      *at = value;
  }
  return lengths;
}

}  // namespace

Result<std::vector<Shift>> shifts_of(store::Connection& connection, TrayId id) {
  std::vector<GestureOnTray> gestures;
  PRILLBOOK_TRY(connection.rows(sql::shifts, {id.value}, [&](const store::Row& row) {
    take_row(row, gestures);
    return true;
  }));
  std::vector<Shift> list;
  for (const GestureOnTray& one : gestures) tell_gesture(one, list);
  return list;
}

Result<void> take_back(history::ChangeSet& set, TrayId id, const Shift& shift, const std::string& why) {
  if (trimmed(why).empty()) return refusal(ErrorCode::missing_key, "why", "say why it is taken back");
  switch (shift.kind) {
    case ShiftKind::moved: return move(set, id, shift.to, shift.from, why);
    case ShiftKind::swapped: return swap(set, id, shift.from, shift.to, why);
    case ShiftKind::cleared:
    case ShiftKind::put_back: break;
  }
  return refusal(ErrorCode::out_of_range, "tray_place.position", "only a move or a swap is taken back");
}

Result<void> take_back(history::Journal& journal, TrayId id, const Shift& shift, const std::string& why) {
  return journal.record("take back on tray", [&](history::ChangeSet& set) { return take_back(set, id, shift, why); });
}

std::vector<std::size_t> out_of_order(std::span<const Carried> carried) {
  std::vector<std::size_t> order(carried.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return carried[a].from < carried[b].from; });
  std::vector<std::int64_t> there, back;
  for (const std::size_t i : order) there.push_back(carried[i].to);
  for (auto it = there.rbegin(); it != there.rend(); ++it) back.push_back(-*it);
  const std::vector<std::size_t> before = rising_runs(there);
  std::vector<std::size_t> after = rising_runs(back);
  std::reverse(after.begin(), after.end());
  const std::size_t longest = before.empty() ? 0 : *std::max_element(before.begin(), before.end());
  std::map<std::size_t, int> at_rank;  // how many of a longest run compete for each of its places
  for (std::size_t i = 0; i < order.size(); ++i)
    if (before[i] + after[i] - 1 == longest) ++at_rank[before[i]];
  std::vector<std::size_t> odd;
  for (std::size_t i = 0; i < order.size(); ++i)
    if (before[i] + after[i] - 1 != longest || at_rank[before[i]] > 1) odd.push_back(order[i]);
  std::sort(odd.begin(), odd.end());
  return odd;
}

}  // namespace prillbook::trays
