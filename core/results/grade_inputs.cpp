// SPDX-License-Identifier: GPL-3.0-or-later
// From the records of a test to the input of bead_to_grade().
#include <algorithm>

#include "core/results/balance_scatter.h"
#include "core/results/sample_result.h"

namespace prillbook::results {
namespace {

using readings::Figure;
using weighing::Weighing;

std::optional<Mass> mass_of(const Figure& figure) {
  if (!figure) return std::nullopt;
  return figure->mass();
}

std::optional<Share> share_of(const Figure& figure) {
  if (!figure) return std::nullopt;
  return figure->share();
}

std::optional<Mass> step_of(const readings::Reading& reading) {
  if (!reading.step_g || *reading.step_g <= 0) return std::nullopt;
  return Mass(*reading.step_g, unit::gram);
}

// The finest step of the lab stands in where nothing was there to put on a balance.
std::optional<Mass> finest_step(const SampleRecord& record) {
  std::optional<Mass> finest;
  for (const lab::Balance& balance : record.balances) {
    const auto step = mass_of(balance.step);
    if (step && *step > Mass() && (!finest || *step < *finest)) finest = step;
  }
  return finest;
}

// Bead masses, the coarsest step among them, and the balance's own repeatability where all stood on one balance.
void take_weighings(const SampleRecord& record, const std::vector<const Weighing*>& weighings, GradeInput& input) {
  const BalanceId balance = weighings.front()->balance;
  bool one_balance = bool(balance);
  for (const Weighing* weighing : weighings) {
    const bool below = weighing->mass.state == readings::State::below_detection;
    input.bead.push_back(below ? Mass() : weighing->mass.mass());
    // "<0.01 mg" is a bead of nothing with 0.01 mg as the end of half a step.
    const auto step = below ? std::optional(weighing->mass.mass() * 2) : step_of(weighing->mass);
    if (step && (!input.balance_step || *step > *input.balance_step)) input.balance_step = step;
    one_balance = one_balance && weighing->balance == balance;
    input.tared = input.tared || weighing->is_difference();
  }
  if (one_balance) input.repeat_sd = repeat_sd(record, balance);
  input.bead_doubt_unknown = !input.balance_step && !input.repeat_sd && input.bead.size() < 2;
}

void take_fineness(const weighing::Bead& bead, GradeInput& input) {
  if (!bead.method) return;
  const auto method = find_fineness_method(*bead.method);
  if (method == FinenessMethod::parted) {
    if (!bead.melt)
      input.gold = bead.mean(weighing::of_gold);
    else if (const auto parted = bead.parted())
      input.fineness = FinenessReading{Fineness(1000 * (parted->gold / parted->bead), unit::permil), method, {}, {}, {}};
    return;
  }
  if (!bead.fineness) return;
  input.fineness = FinenessReading{bead.fineness->fineness(), method, {}, {}, {}};
  if (bead.fineness_u) input.fineness->u = bead.fineness_u->fineness();
}

std::optional<GradeInput> common_input(const SampleRecord& record, PortionId portion_id, const weighing::Bead& bead) {
  const portions::Portion* portion = record.portion(portion_id);
  if (!portion || !portion->mass) return std::nullopt;
  GradeInput input;
  input.portion = portion->mass->mass();
  input.portion_step = step_of(*portion->mass);
  if (!record.cut_dry(*portion)) input.moisture = share_of(record.sample.moisture);
  if (bead.none_seen) {
    input.bead = {Mass()};
    input.balance_step = finest_step(record);
    input.bead_doubt_unknown = !input.balance_step;
    return input;
  }
  const auto weighings = bead.valid(weighing::of_bead);
  if (weighings.empty()) return std::nullopt;
  take_weighings(record, weighings, input);
  take_fineness(bead, input);
  return input;
}

}  // namespace

std::optional<GradeInput> pan_input(const SampleRecord& record, const PanEntry& entry) {
  return common_input(record, entry.test.portion, entry.bead);
}

std::optional<GradeInput> fire_input(const SampleRecord& record, const FireEntry& entry) {
  auto input = common_input(record, entry.charge.portion, entry.bead);
  if (!input) return std::nullopt;
  input->collector = mass_of(entry.charge.collector);
  input->blank = record.blank_of(entry.charge);
  input->slag = mass_of(entry.charge.slag_metal);
  input->cupel = mass_of(entry.charge.cupel_metal);
  input->slag_gold = mass_of(entry.charge.slag_gold);
  input->cupel_gold = mass_of(entry.charge.cupel_gold);
  input->gold_loss = share_of(entry.charge.gold_loss);
  input->silver_loss = share_of(entry.charge.silver_loss);
  return input;
}

Result<std::optional<GradeResult>> grade_of_bead(const SampleRecord& record, BeadId bead) {
  std::optional<GradeInput> input;
  bool found = false;
  for (const PanEntry& entry : record.pan_tests)
    if (entry.bead.id == bead) found = true, input = pan_input(record, entry);
  for (const FireEntry& entry : record.charges)
    if (entry.bead.id == bead) found = true, input = fire_input(record, entry);
  if (!found) return Error{ErrorCode::not_found, "bead", "the sample has no such bead", {}};
  if (!input) return std::optional<GradeResult>();
  PRILLBOOK_ASSIGN(GradeResult grade, bead_to_grade(*input));
  return std::optional(std::move(grade));
}

Result<std::optional<GradeResult>> grade_if(SampleRecord record, BeadId bead, std::string_view what,
                                            const readings::Reading& mass) {
  const auto put = [&](weighing::Bead& weighed) {
    if (weighed.id != bead) return;
    std::erase_if(weighed.weighings, [&](const Weighing& weighing) { return weighing.what == what; });
    Weighing one;
    one.what = what;
    one.number = 1;
    one.mass = mass;
    if (mass.balance) one.balance = *mass.balance;
    weighed.weighings.push_back(std::move(one));
    weighed.none_seen = false;
    if (what == weighing::of_gold && !weighed.method) weighed.method = "parted";
  };
  for (PanEntry& entry : record.pan_tests) put(entry.bead);
  for (FireEntry& entry : record.charges) put(entry.bead);
  return grade_of_bead(record, bead);
}

}  // namespace prillbook::results
