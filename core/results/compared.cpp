// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/results/compared.h"

#include <algorithm>
#include <map>

#include "core/results/page_reader.h"
#include "core/results/statements.h"

namespace prillbook::results {
namespace {

MeasuredGrade with_parts(double g_t, const std::vector<Contribution>& parts) {
  return measured(Grade(g_t, unit::gram_per_tonne), parts);
}

double median(std::vector<double>& sorted) {
  const std::size_t half = sorted.size() / 2;
  return sorted.size() % 2 ? sorted[half] : (sorted[half - 1] + sorted[half]) / 2;
}

}  // namespace

std::optional<ComparedSample> compared_sample(const SampleRecord& record, const SampleResult& result) {
  if (!result.comparison || !result.leading_pan) return std::nullopt;
  const Gap& gold = result.comparison->gold;
  const GoldSides& sides = result.comparison->gold_sides;
  ComparedSample one{record.sample.id,
                     record.sample.number,
                     record.sample.mark,
                     record.client.name,
                     record.sample.place.value_or(""),
                     record.consignment.arrived,
                     Grade(sides.pan, unit::gram_per_tonne),
                     Grade(sides.fire, unit::gram_per_tonne),
                     {},
                     {},
                     {},
                     {},
                     gold.recovery,
                     {},
                     {},
                     gold.verdict,
                     result.pan[*result.leading_pan].grind};
  const MeasuredGrade pan = with_parts(sides.pan, sides.pan_parts), fire = with_parts(sides.fire, sides.fire_parts);
  one.pan_lo = pan.lo, one.pan_hi = pan.hi, one.fire_lo = fire.lo, one.fire_hi = fire.hi;
  if (gold.recovery_interval) one.recovery_lo = gold.recovery_interval->lo, one.recovery_hi = gold.recovery_interval->hi;
  return one;
}

Result<void> ComparedList::begin() {
  ids_.clear(), samples_.clear();
  next_ = 0;
  PRILLBOOK_TRY(connection_.rows(sql::comparable_samples, {}, [&](const store::Row& row) {
    ids_.push_back(SampleId{row.integer(0)});
    return true;
  }));
  return connection_.snapshot([&] { return load_lab(connection_, record_); });
}

Result<void> ComparedList::read(std::size_t most) {
  return connection_.snapshot([&]() -> Result<void> {
    const std::span<const SampleId> page = std::span(ids_).subspan(next_, std::min(most, ids_.size() - next_));
    PageReader reader(connection_);
    PRILLBOOK_TRY(reader.begin(page));
    for (const SampleId id : page) {
      ++next_;
      PRILLBOOK_TRY(reader.read(id, record_));
      if (auto one = compared_sample(record_, compute(record_))) samples_.push_back(*std::move(one));
    }
    return {};
  });
}

std::vector<ComparedSample> chosen(std::span<const ComparedSample> samples, const ComparedWish& wish) {
  std::vector<ComparedSample> list;
  for (const ComparedSample& one : samples) {
    if (!wish.client.empty() && one.client != wish.client) continue;
    if (!wish.place.empty() && one.place != wish.place) continue;
    if (!wish.period.empty() && !local_date(one.arrived).starts_with(wish.period)) continue;
    list.push_back(one);
  }
  return list;
}

std::string group_of(const ComparedSample& sample, GroupBy by) {
  switch (by) {
    case GroupBy::client: return sample.client;
    case GroupBy::place: return sample.place;
    case GroupBy::month: return local_date(sample.arrived).substr(0, 7);
  }
  return {};
}

std::vector<ComparedGroup> grouped(std::span<const ComparedSample> samples, GroupBy by) {
  std::map<std::string, std::vector<const ComparedSample*>> by_name;
  for (const ComparedSample& one : samples) by_name[group_of(one, by)].push_back(&one);
  std::vector<ComparedGroup> groups;
  for (const auto& [name, members] : by_name) {
    ComparedGroup group{name, members.size(), 0, 0, {}, {}, {}};
    std::vector<double> recoveries;
    for (const ComparedSample* one : members) {
      group.left_behind += one->verdict == Verdict::gold_left_behind;
      group.above += one->verdict == Verdict::pan_exceeds_fire;
      if (one->recovery) recoveries.push_back(*one->recovery);
    }
    std::sort(recoveries.begin(), recoveries.end());
    if (!recoveries.empty()) {
      group.median_recovery = median(recoveries);
      group.least = recoveries.front(), group.most = recoveries.back();
    }
    groups.push_back(std::move(group));
  }
  if (by == GroupBy::month) std::reverse(groups.begin(), groups.end());
  return groups;
}

}  // namespace prillbook::results
