// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/results/sample_record.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>

#include "core/results/page_reader.h"
#include "core/units/units.h"

namespace prillbook::results {
namespace {

constexpr std::int64_t checks_read = 300;  // of one balance: a year of working days

// The nearest portion of one of these purposes on the way up. A parent is always older than its portion; the count bounds a
// damaged tree that bites its tail.
const portions::Portion* upwards(const SampleRecord& record, PortionId id, std::initializer_list<std::string_view> purposes) {
  const portions::Portion* at = record.portion(id);
  for (std::size_t step = 0; at && step <= record.portions.size(); ++step) {
    if (std::find(purposes.begin(), purposes.end(), at->purpose) != purposes.end()) return at;
    at = at->parent ? record.portion(at->parent) : nullptr;
  }
  return nullptr;
}

}  // namespace

const portions::Portion* SampleRecord::portion(PortionId id) const {
  const auto found = std::find_if(portions.begin(), portions.end(), [&](const portions::Portion& p) { return p.id == id; });
  return found == portions.end() ? nullptr : &*found;
}

std::string SampleRecord::initials(PersonId id) const {
  const auto found = std::find_if(people.begin(), people.end(), [&](const lab::Person& person) { return person.id == id; });
  return found == people.end() ? std::string() : found->initials;
}

std::string SampleRecord::portion_label(PortionId id) const {
  const portions::Portion* found = portion(id);
  return found ? fmt::format("{}/{}", sample.number, found->number) : sample.number;
}

const portions::Portion* SampleRecord::pan_product_of(PortionId id) const { return upwards(*this, id, {"remainder", "tail"}); }

const portions::Portion* SampleRecord::fraction_of(PortionId id) const { return upwards(*this, id, {"fraction"}); }

const fire::Lot* SampleRecord::lot(LotId id) const {
  const auto found = std::find_if(lots.begin(), lots.end(), [&](const fire::Lot& one) { return one.id == id; });
  return found == lots.end() ? nullptr : &*found;
}

const RunNote* SampleRecord::run(FurnaceRunId id) const {
  const auto found = std::find_if(runs.begin(), runs.end(), [&](const RunNote& one) { return one.run == id; });
  return found == runs.end() ? nullptr : &*found;
}

std::optional<Mass> SampleRecord::blank_of(const fire::Charge& charge) const {
  if (charge.blank) return charge.blank->mass();
  std::optional<Mass> sum;
  for (const auto& [id, mass] :
       {std::pair(charge.litharge_lot, &charge.litharge), std::pair(charge.lead_lot, &charge.lead_added)}) {
    const fire::Lot* held = lot(id);
    if (!held || !held->silver || !*mass) continue;
    sum = sum.value_or(Mass()) + silver_brought(held->silver->grade(), (*mass)->mass());
  }
  return sum;
}

const milling::Step* SampleRecord::last_step_before(PortionId id, const Instant& at,
                                                    const std::function<bool(const milling::Step&)>& wanted) const {
  Instant until = at;
  for (std::size_t depth = 0; depth <= portions.size(); ++depth) {
    const milling::Step* last = nullptr;
    for (const milling::Step& step : steps)
      if (step.portion == id && step.done_at.utc_ms <= until.utc_ms && wanted(step)) last = &step;
    if (last || !id) return last;
    const portions::Portion* held = portion(id);
    if (!held) return nullptr;
    if (held->cut_at && held->cut_at->utc_ms < until.utc_ms) until = *held->cut_at;
    id = held->parent;
  }
  return nullptr;
}

std::optional<Opening> SampleRecord::top_size_of(const portions::Portion& portion) const {
  const milling::Step* step = last_step_before(portion.parent, portion.cut_at.value_or(Instant{INT64_MAX, 0}),
                                               [](const milling::Step& one) { return one.top_size.has_value(); });
  if (!step) return std::nullopt;
  return step->top_size->opening();
}

bool SampleRecord::cut_dry(const portions::Portion& portion) const {
  return last_step_before(portion.parent, portion.cut_at.value_or(Instant{INT64_MAX, 0}),
                          [](const milling::Step& one) { return one.kind == "dry"; }) != nullptr;
}

// What all samples of a lab share.
Result<void> load_lab(store::Connection& connection, SampleRecord& record) {
  record.checks.clear();
  PRILLBOOK_ASSIGN(record.people, lab::people(connection));
  PRILLBOOK_ASSIGN(record.balances, lab::balances(connection));
  for (const lab::Balance& balance : record.balances) {
    PRILLBOOK_ASSIGN(auto checks, weighing::check_weighings(connection, balance.id, checks_read));
    std::move(checks.begin(), checks.end(), std::back_inserter(record.checks));
  }
  PRILLBOOK_ASSIGN(record.settings, lab::settings(connection));
  PRILLBOOK_ASSIGN(record.sieves, sieves::sieves(connection));
  PRILLBOOK_ASSIGN(record.lots, fire::lots(connection));
  return {};
}

Result<void> load_own(store::Connection& connection, SampleId id, SampleRecord& record) {
  PageReader reader(connection);
  PRILLBOOK_TRY(reader.begin({&id, 1}));
  return reader.read(id, record);
}

Result<SampleRecord> load_sample_record(store::Connection& connection, SampleId id) {
  SampleRecord record;
  PRILLBOOK_TRY(load_lab(connection, record));
  PRILLBOOK_TRY(load_own(connection, id, record));
  return record;
}

}  // namespace prillbook::results
