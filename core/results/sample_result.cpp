// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/results/sample_result.h"

#include <algorithm>

#include "core/results/dry_share.h"

namespace prillbook::results {
namespace {

TestResult test_of(const SampleRecord& record, PortionId portion, const weighing::Bead& bead,
                   const std::optional<std::string>& spoiled, const std::optional<std::string>& excluded,
                   const std::optional<GradeInput>& input) {
  TestResult test;
  test.label = record.portion_label(portion);
  test.portion = portion;
  test.bead = bead.id;
  if (spoiled) {
    test.state = TestState::spoiled;
    test.reason = *spoiled;
    return test;
  }
  if (!input) return test;
  auto grade = bead_to_grade(*input);
  if (!grade) {
    test.state = TestState::refused;
    test.error = grade.error();
    return test;
  }
  test.grade = *std::move(grade);
  test.state = excluded ? TestState::excluded : TestState::done;
  test.reason = excluded.value_or("");
  return test;
}

TestResult pan_test_of(const SampleRecord& record, const PanEntry& entry) {
  TestResult test =
      test_of(record, entry.test.portion, entry.bead, entry.test.spoiled, entry.test.excluded, pan_input(record, entry));
  test.pan_test = entry.test.id;
  if (entry.test.grind) test.grind = entry.test.grind->opening();
  return test;
}

std::string run_and_reason(const RunNote& run) { return run.name + ": " + run.decision->reason.value_or(""); }

// A charge of a repeated load is left out: what takes its place is a charge of its own.
std::optional<std::string> left_out_of(const SampleRecord& record, const fire::Charge& charge) {
  if (charge.excluded) return charge.excluded;
  for (const FurnaceRunId id : {charge.fusion_run, charge.cupellation_run})
    if (const RunNote* run = record.run(id); run && run->decision && run->decision->decision == "repeated")
      return "the load is repeated, " + run_and_reason(*run);
  return std::nullopt;
}

TestResult charge_of(const SampleRecord& record, const FireEntry& entry) {
  TestResult test = test_of(record, entry.charge.portion, entry.bead, entry.charge.spoiled, left_out_of(record, entry.charge),
                            fire_input(record, entry));
  for (const RunNote& run : record.runs)
    if ((run.run == entry.charge.fusion_run || run.run == entry.charge.cupellation_run) && run.decision &&
        run.decision->decision == "held")
      test.held.push_back(run_and_reason(run));
  test.charge = entry.charge.id;
  return test;
}

ChargeState charge_state(const TestResult& test) {
  switch (test.state) {
    case TestState::done: return ChargeState::valid;
    case TestState::spoiled: return ChargeState::spoiled;
    default: return ChargeState::excluded;
  }
}

// The mean of one metal over the tests that have it.
MeanOfCharges mean_of(const std::vector<TestResult>& tests, std::optional<MeasuredGrade> GradeResult::*metal) {
  std::vector<ChargeGrade> charges;
  for (const TestResult& test : tests) {
    const bool has_metal = test.grade && (*test.grade).*metal;
    if (test.state == TestState::done && !has_metal) continue;
    ChargeGrade charge{test.label, charge_state(test), test.reason.empty() ? "no grade" : test.reason, {}};
    if (has_metal) charge.grade = (*test.grade).*metal;
    charges.push_back(std::move(charge));
  }
  auto mean = mean_of_charges(charges);
  return mean ? *std::move(mean) : MeanOfCharges{};
}

void close(Group& group) {
  group.gold = mean_of(group.tests, &GradeResult::gold);
  group.silver = mean_of(group.tests, &GradeResult::silver);
  group.fineness_known = group.gold.valid > 0;
  for (const TestResult& test : group.tests) {
    if (test.state != TestState::done || !test.grade->gold) continue;
    group.dry_portions += test.grade->dry_portion;
    group.fineness_known = group.fineness_known && test.grade->fineness_known;
  }
}

std::optional<std::size_t> newest_with_gold(const std::vector<TestResult>& pan) {
  for (std::size_t i = pan.size(); i-- > 0;)
    if (pan[i].state == TestState::done && pan[i].grade->gold) return i;
  return std::nullopt;
}

// Silver of a group stands only where every charge that counts has it; a mean over some of them would be another mean.
std::optional<MeasuredGrade> common_silver(const Group& group) {
  return group.silver.valid == group.gold.valid ? group.silver.mean : std::nullopt;
}

// The scatter of several charges holds their sampling error already; a single charge takes it from the grain size.
CompareSide side_of(const Group& group, const std::optional<Opening>& grain) {
  CompareSide side{*group.gold.mean, common_silver(group), group.fineness_known, group.dry_portions, {}, {}};
  const auto& parts = side.gold.parts;
  const bool scatter = std::any_of(parts.begin(), parts.end(),
                                   [](const Contribution& part) { return part.source == UncertaintySource::between_charges; });
  if (grain && scatter)
    side.u_sampling = Share();
  else
    side.grain = grain;
  return side;
}

std::optional<Residue> residue_of(const SampleRecord& record, const Group& group, PortionId panned, const char* purpose) {
  if (!group.gold.mean) return std::nullopt;
  for (const portions::Portion& portion : record.portions)
    if (portion.parent == panned && portion.purpose == purpose && portion.mass)
      return Residue{*group.gold.mean, portion.mass->mass() * dry_share(record, portion)};
  return std::nullopt;
}

const PanEntry* entry_of(const SampleRecord& record, PanTestId id) {
  const auto found =
      std::find_if(record.pan_tests.begin(), record.pan_tests.end(), [&](const PanEntry& e) { return e.test.id == id; });
  return found == record.pan_tests.end() ? nullptr : &*found;
}

void compare(const SampleRecord& record, SampleResult& result) {
  const TestResult& pan = result.pan[*result.leading_pan];
  const PanEntry* entry = entry_of(record, pan.pan_test);
  if (entry && entry->test.largest_colour && entry->test.largest_colour->value > 0)
    result.grain = entry->test.largest_colour->opening();
  auto pan_side = compare_side(*pan.grade);
  if (!pan_side) return;
  pan_side->grain = result.grain;
  CompareInput input{*pan_side, side_of(result.fire, result.grain), {}, {}};
  input.tail = residue_of(record, result.tail, pan.portion, "tail");
  if (input.tail) input.remainder = residue_of(record, result.remainder, pan.portion, "remainder");
  auto comparison = compare_pan_with_fire(input);
  if (comparison)
    result.comparison = *std::move(comparison);
  else
    result.comparison_error = comparison.error();
}

}  // namespace

SampleResult compute(const SampleRecord& record) {
  SampleResult result;
  for (const PanEntry& entry : record.pan_tests)
    (record.fraction_of(entry.test.portion) ? result.of_fractions : result.pan).push_back(pan_test_of(record, entry));
  result.leading_pan = newest_with_gold(result.pan);
  const PortionId panned = result.leading_pan ? result.pan[*result.leading_pan].portion : PortionId{};
  for (const FireEntry& entry : record.charges) {
    if (record.fraction_of(entry.charge.portion)) {
      result.of_fractions.push_back(charge_of(record, entry));
      continue;
    }
    const portions::Portion* product = record.pan_product_of(entry.charge.portion);
    if (product && product->parent != panned) continue;  // of an older pan test
    Group& group = !product ? result.fire : product->purpose == "tail" ? result.tail : result.remainder;
    group.tests.push_back(charge_of(record, entry));
  }
  close(result.fire);
  close(result.remainder);
  close(result.tail);
  if (result.leading_pan && result.fire.gold.mean) compare(record, result);
  for (const sieves::Analysis& analysis : record.sieve_analyses)
    result.sizes.push_back(size_result(record, analysis, result.of_fractions));
  const auto& fire = result.fire.gold.mean;
  result.grinds = study_grinds(record, result.pan, fire ? &*fire : nullptr);
  const HeadByFire head = fire ? HeadByFire{&*fire, result.fire.dry_portions} : HeadByFire{};
  const auto charge_result = [&](const FireEntry& entry) { return charge_of(record, entry); };
  for (const TestResult& test : result.pan) result.pan_accounts.push_back(pan_account(record, test, head, charge_result));
  for (const gravity::Metallics& one : record.metallics)
    result.metallics.push_back(metallics_result(record, one, result.of_fractions));
  return result;
}

}  // namespace prillbook::results
