// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/results/pan_account.h"

#include <algorithm>

#include "core/assay/grain_sampling.h"
#include "core/assay/mean_of_charges.h"
#include "core/results/dry_share.h"
#include "core/units/units.h"

namespace prillbook::results {
namespace {

using readings::Figure;

constexpr double mg_per_g_t_and_g = 1e-3;  // 1 g/t of 1 g is 1 µg

std::optional<Mass> weighed_mass(const Figure& figure) {
  if (!figure) return std::nullopt;
  return figure->state == readings::State::measured ? figure->mass() : Mass();
}

GoldMass gold_mass(double milligrams, std::vector<Contribution> parts, bool signed_value = false) {
  GoldMass gold{Mass(milligrams, unit::milligram), std::move(parts), {}, {}};
  if (gold.parts.empty()) return gold;
  const Spread around = spread(milligrams, gold.parts);
  gold.lo = Mass(signed_value ? around.lo : std::max(0.0, around.lo), unit::milligram);
  gold.hi = Mass(around.hi, unit::milligram);
  return gold;
}

GoldMass gold_in(const MeasuredGrade& grade, Mass dry) {
  const double factor = dry.in(unit::gram)*mg_per_g_t_and_g;
  std::vector<Contribution> parts;
  for (const Contribution& part : grade.parts) parts.push_back(scaled(part, factor));
  return gold_mass(grade.g_t() * factor, std::move(parts));
}

const portions::Portion* product_of(const SampleRecord& record, PortionId panned, const char* purpose) {
  const auto found = std::find_if(record.portions.begin(), record.portions.end(),
                                  [&](const portions::Portion& p) { return p.parent == panned && p.purpose == purpose; });
  return found == record.portions.end() ? nullptr : &*found;
}

std::optional<MeasuredGrade> grade_of_product(const SampleRecord& record, PortionId product,
                                              const std::function<TestResult(const FireEntry&)>& charge) {
  std::vector<ChargeGrade> charges;
  for (const FireEntry& entry : record.charges) {
    const portions::Portion* of = record.pan_product_of(entry.charge.portion);
    if (!of || of->id != product) continue;
    const TestResult test = charge(entry);
    if (test.state == TestState::done && test.grade->gold)
      charges.push_back({test.label, ChargeState::valid, {}, test.grade->gold});
  }
  const auto mean = mean_of_charges(charges);
  return mean ? mean->mean : std::nullopt;
}

void take_product(const SampleRecord& record, const std::function<TestResult(const FireEntry&)>& charge, const char* purpose,
                  const char* name, PanAccount& account, std::optional<Mass>& mass, std::optional<GoldMass>& gold) {
  const portions::Portion* product = product_of(record, account.portion, purpose);
  if (product) mass = weighed_mass(product->mass);
  const auto grade = product ? grade_of_product(record, product->id, charge) : std::nullopt;
  if (grade && mass) gold = gold_in(*grade, *mass * dry_share(record, *product));
  if (!gold) account.missing.push_back(name);
}

void add_up(PanAccount& account) {
  double sum = 0;
  std::vector<Contribution> parts;
  bool any = false, all_known = true;
  for (const auto* gold : {&account.in_bead, &account.in_remainder, &account.in_tail}) {
    if (!*gold) continue;
    any = true;
    all_known = all_known && !(*gold)->parts.empty();
    sum += (*gold)->value.in(unit::milligram);
    parts.insert(parts.end(), (*gold)->parts.begin(), (*gold)->parts.end());
  }
  if (any) account.found = gold_mass(sum, all_known ? std::move(parts) : std::vector<Contribution>{});
}

void add_sampling(std::vector<Contribution>& parts, const Grade& head, Mass portion, Mass of, Opening grain) {
  if (const auto sd = grain_sampling_sd(head, of, grain))
    parts.push_back(
        normal_part(UncertaintySource::sampling, sd->in(unit::gram_per_tonne)*portion.in(unit::gram)*mg_per_g_t_and_g));
}

void set_against_head(const SampleRecord& record, const HeadByFire& fire, Mass dry, PanTestId id, PanAccount& account) {
  account.head = gold_in(*fire.grade, dry);
  if (!account.found) return;
  const double gap = (account.head->value - account.found->value).in(unit::milligram);
  std::vector<Contribution> parts;
  if (!account.head->parts.empty() && !account.found->parts.empty()) {
    parts = account.head->parts;
    for (const Contribution& part : account.found->parts) parts.push_back(scaled(part, -1));
    const auto entry =
        std::find_if(record.pan_tests.begin(), record.pan_tests.end(), [&](const PanEntry& e) { return e.test.id == id; });
    const Figure grain = entry == record.pan_tests.end() ? Figure() : entry->test.largest_colour;
    if (grain && grain->value > 0) {
      const bool scatter = std::any_of(fire.grade->parts.begin(), fire.grade->parts.end(), [](const Contribution& part) {
        return part.source == UncertaintySource::between_charges;
      });
      add_sampling(parts, fire.grade->value, dry, dry, grain->opening());
      if (!scatter) add_sampling(parts, fire.grade->value, dry, fire.dry_portions, grain->opening());
      account.sampling_judged = true;
    }
  }
  account.gold_gap = gold_mass(gap, std::move(parts), true);
}

GoldBalance verdict_of(const PanAccount& account) {
  if (!account.missing.empty() || !account.gold_gap) return GoldBalance::incomplete;
  if (!account.gold_gap->lo || !account.gold_gap->hi) return GoldBalance::not_determined;
  if (*account.gold_gap->lo > Mass()) return GoldBalance::short_of_head;
  return *account.gold_gap->hi < Mass() ? GoldBalance::over_head : GoldBalance::closes;
}

}  // namespace

PanAccount pan_account(const SampleRecord& record, const TestResult& pan, const HeadByFire& fire,
                       const std::function<TestResult(const FireEntry&)>& charge) {
  PanAccount account;
  account.test = pan.pan_test;
  account.portion = pan.portion;
  account.label = pan.label;
  const portions::Portion* portion = record.portion(pan.portion);
  if (portion) account.mass = weighed_mass(portion->mass);
  const auto entry = std::find_if(record.pan_tests.begin(), record.pan_tests.end(),
                                  [&](const PanEntry& e) { return e.test.id == pan.pan_test; });
  if (entry != record.pan_tests.end()) {
    account.free_gold = weighed_mass(entry->test.free_gold);
    account.magnetite = weighed_mass(entry->test.magnetite);
  }
  if (pan.grade && pan.grade->gold)
    account.in_bead = gold_in(*pan.grade->gold, pan.grade->dry_portion);
  else
    account.missing.push_back("the bead");
  take_product(record, charge, "remainder", "the remainder", account, account.remainder, account.in_remainder);
  take_product(record, charge, "tail", "the tail", account, account.tail, account.in_tail);
  if (account.mass && account.remainder && account.tail)
    account.not_accounted = *account.mass - *account.remainder - *account.tail - account.free_gold.value_or(Mass()) -
                            account.magnetite.value_or(Mass());
  add_up(account);
  if (fire.grade && account.mass)
    set_against_head(record, fire, *account.mass * dry_share(record, *portion), pan.pan_test, account);
  else
    account.missing.push_back("fire");
  account.verdict = verdict_of(account);
  return account;
}

const sieves::Analysis* sieved_beside(const SampleRecord& record, PortionId panned) {
  const portions::Portion* of = record.portion(panned);
  const sieves::Analysis* newest = nullptr;
  for (const sieves::Analysis& analysis : record.sieve_analyses) {
    const portions::Portion* sieved = record.portion(analysis.portion);
    if (of && sieved && !analysis.spoiled && sieved->parent == of->parent && sieved->step == of->step) newest = &analysis;
  }
  return newest;
}

}  // namespace prillbook::results
