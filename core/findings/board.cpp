// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/findings/board.h"

#include <algorithm>
#include <iterator>
#include <tuple>

#include "core/base/text.h"
#include "core/findings/scope.h"
#include "core/findings/statements.h"

namespace prillbook::findings {
namespace {

constexpr std::size_t page = 128;  // samples read together: what they hold stays in the cache of a core

// The name as rule_names() holds it, which lives as long as the program; none for a rule of a later program.
std::optional<std::string_view> kept_name(std::string_view rule) {
  const auto names = rule_names();
  const auto found = std::find(names.begin(), names.end(), rule);
  return found == names.end() ? std::nullopt : std::optional(*found);
}

}  // namespace

Board::Board(store::Connection& connection) : connection_(connection), books_(connection, record_.settings) {}

Result<void> Board::begin(const Instant& now) {
  now_ = now;
  lab_read_ = false;
  owed_.clear(), fresh_.clear(), unread_.clear(), noticed_.clear();
  PRILLBOOK_TRY(connection_.rows(sql::sample_ids, {}, [&](const store::Row& row) {
    owed_.insert(owed_.end(), SampleId{row.integer(0)});
    return true;
  }));
  samples_ = owed_.size();
  return {};
}

Result<void> Board::changed(std::span<const history::Change> changes) {
  PRILLBOOK_ASSIGN(const Reach reach, reach_of(connection_, books_, changes));
  fresh_.insert(reach.samples.begin(), reach.samples.end());
  for (const SampleId sample : reach.samples) books_.forget_grade(sample);
  if (!reach.all) return {};
  lab_read_ = false;
  books_.forget_all();
  PRILLBOOK_TRY(connection_.rows(sql::sample_ids, {}, [&](const store::Row& row) {
    owed_.insert(owed_.end(), SampleId{row.integer(0)});
    return true;
  }));
  return {};
}

Result<std::size_t> Board::look_at(std::size_t most) {
  std::size_t looked = 0;
  const Result<void> done = connection_.snapshot([&]() -> Result<void> {
    if (!lab_read_) PRILLBOOK_TRY(results::load_lab(connection_, record_));
    lab_read_ = true;
    while (looked < most && owed() > 0) {
      const std::vector<SampleId> samples = take_owed(std::min(most - looked, page));
      PRILLBOOK_TRY(look_at_page(samples));
      looked += samples.size();
    }
    return {};
  });
  if (!done) return done.error();
  return looked;
}

std::vector<SampleId> Board::take_owed(std::size_t most) {
  std::set<SampleId>& from = fresh_.empty() ? owed_ : fresh_;
  const auto end = std::next(from.begin(), std::ptrdiff_t(std::min(most, from.size())));
  std::vector<SampleId> taken(from.begin(), end);
  from.erase(from.begin(), end);
  for (const SampleId sample : taken) owed_.erase(sample), unread_.erase(sample);
  return taken;
}

Result<void> Board::look_at_page(std::span<const SampleId> samples) {
  PageLook look(books_, record_);
  PRILLBOOK_TRY(look.begin(samples));
  for (const SampleId sample : samples) {
    const Result<void> one = look_at_one(look, sample);
    if (one) continue;
    // One sample that can't be read hides no other.
    if (one.error().code != ErrorCode::damaged && one.error().code != ErrorCode::not_found) return one;
    noticed_.erase(sample);
    unread_.insert(sample);
  }
  return {};
}

Result<void> Board::look_at_one(PageLook& look, SampleId sample) {
  if (!look.stands(sample)) {
    noticed_.erase(sample);
    return {};
  }
  PRILLBOOK_ASSIGN(const PageLook::Seen seen, look.at(sample, now_));
  std::vector<Noticed> list;
  for (const OpenOrAnswered& one : seen.findings)
    if (const auto rule = kept_name(one.finding.rule))
      list.push_back({sample, *rule, one.finding.severity, one.answer ? Standing::explained : Standing::open});
  for (const PastAnswer& one : seen.past)
    if (const auto rule = kept_name(one.rule)) list.push_back({sample, *rule, Severity::note, Standing::gone});
  if (list.empty())
    noticed_.erase(sample);
  else
    noticed_.insert_or_assign(sample, std::move(list));
  return {};
}

std::size_t Board::count(Standing standing) const {
  std::size_t number = 0;
  for (const auto& [sample, list] : noticed_)
    number += std::size_t(std::count_if(list.begin(), list.end(), [&](const Noticed& one) { return one.standing == standing; }));
  return number;
}

std::size_t Board::count(Severity severity) const {
  std::size_t number = 0;
  for (const auto& [sample, list] : noticed_)
    number += std::size_t(std::count_if(list.begin(), list.end(), [&](const Noticed& one) {
      return one.standing == Standing::open && one.severity == severity;
    }));
  return number;
}

std::vector<Noticed> listed(const Board& board, const BoardWish& wish) {
  const std::string part = lower_ascii(trimmed(wish.rule));
  std::vector<Noticed> list;
  for (const auto& [sample, noticed] : board.noticed())
    for (const Noticed& one : noticed) {
      if (one.standing != wish.standing || (wish.severity && one.severity != *wish.severity)) continue;
      if (wish.sample && wish.sample != sample) continue;
      if (!part.empty() && rule_in_words(one.rule).find(part) == std::string::npos) continue;
      list.push_back(one);
    }
  const auto severity = [](const Noticed& one) { return -int(one.severity); };
  const auto newest = [](const Noticed& one) { return -one.sample.value; };
  std::stable_sort(list.begin(), list.end(), [&](const Noticed& a, const Noticed& b) {
    switch (wish.order) {
      case BoardOrder::severity: break;
      case BoardOrder::sample: return std::tuple(newest(a), severity(a), a.rule) < std::tuple(newest(b), severity(b), b.rule);
      case BoardOrder::rule: return std::tuple(a.rule, severity(a), newest(a)) < std::tuple(b.rule, severity(b), newest(b));
    }
    return std::tuple(severity(a), newest(a), a.rule) < std::tuple(severity(b), newest(b), b.rule);
  });
  return list;
}

std::string rule_in_words(std::string_view rule) {
  std::string words(rule);
  std::replace(words.begin(), words.end(), '_', ' ');
  return words;
}

}  // namespace prillbook::findings
