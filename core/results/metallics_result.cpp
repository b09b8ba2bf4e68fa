// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/results/metallics_result.h"

#include <algorithm>

#include "core/assay/mean_of_charges.h"
#include "core/results/dry_share.h"
#include "core/units/units.h"

namespace prillbook::results {
namespace {

// The coarse part counts as assayed whole from this share of it on: a trace stays on the paper.
constexpr double whole_enough = 0.99;

std::vector<const TestResult*> fire_tests_of(const SampleRecord& record, PortionId fraction,
                                             const std::vector<TestResult>& tests) {
  std::vector<const TestResult*> found;
  for (const TestResult& test : tests) {
    const portions::Portion* of = record.fraction_of(test.portion);
    if (of && of->id == fraction && test.charge && test.state == TestState::done && test.grade->gold) found.push_back(&test);
  }
  return found;
}

std::optional<Mass> dry_mass(const SampleRecord& record, PortionId id) {
  const portions::Portion* portion = record.portion(id);
  if (!portion || !portion->mass) return std::nullopt;
  return portion->mass->mass() * dry_share(record, *portion);
}

// The scatter of the fine charges, or what they bring themselves, and what the weighings of the coarse bead bring.
std::vector<Contribution> parts_of(const std::vector<const TestResult*>& coarse, const std::vector<const TestResult*>& fine,
                                   Mass fine_mass, Mass total) {
  std::vector<ChargeGrade> charges;
  for (const TestResult* test : fine) charges.push_back({test->label, ChargeState::valid, {}, test->grade->gold});
  const auto mean = mean_of_charges(charges);
  std::vector<Contribution> parts;
  if (!mean || !mean->mean || mean->mean->parts.empty()) return {};
  for (const Contribution& part : mean->mean->parts) parts.push_back(scaled(part, fine_mass / total));
  for (const TestResult* test : coarse) {
    if (test->grade->gold->parts.empty()) return {};
    for (const Contribution& part : test->grade->gold->parts) parts.push_back(scaled(part, test->grade->dry_portion / total));
  }
  return parts;
}

}  // namespace

MetallicsOf metallics_result(const SampleRecord& record, const gravity::Metallics& metallics,
                             const std::vector<TestResult>& of_fractions) {
  MetallicsOf of{metallics.id,
                 metallics.portion,
                 metallics.coarse,
                 metallics.fine,
                 record.portion_label(metallics.portion),
                 {},
                 {},
                 {},
                 0,
                 0,
                 {},
                 {}};
  const auto coarse = fire_tests_of(record, metallics.coarse, of_fractions);
  const auto fine = fire_tests_of(record, metallics.fine, of_fractions);
  of.coarse_charges = int(coarse.size());
  of.fine_charges = int(fine.size());
  const auto coarse_mass = dry_mass(record, metallics.coarse), fine_mass = dry_mass(record, metallics.fine);
  Mass assayed;
  MetallicsInput input;
  for (const TestResult* test : coarse) {
    assayed += test->grade->dry_portion;
    input.coarse_metal += test->grade->dry_portion * (test->grade->gold->g_t() * 1e-6);
  }
  if (!coarse_mass || assayed < *coarse_mass * whole_enough) of.waits_for.push_back("an assay of the whole coarse part");
  for (const TestResult* test : fine)
    input.fine.push_back({test->grade->dry_portion, test->grade->dry_portion * (test->grade->gold->g_t() * 1e-6)});
  if (!fine_mass || fine.empty()) of.waits_for.push_back("an assay of the fine part");
  if (!of.waits_for.empty()) return of;
  input.coarse_mass = *coarse_mass;
  input.fine_mass = *fine_mass;
  auto result = prillbook::metallics(input);
  if (!result) {
    of.state = MetallicsState::refused;
    of.error = result.error();
    return of;
  }
  of.state = MetallicsState::done;
  of.result = *std::move(result);
  of.gold = measured(of.result->grade, parts_of(coarse, fine, *fine_mass, *coarse_mass + *fine_mass));
  return of;
}

}  // namespace prillbook::results
