// SPDX-License-Identifier: GPL-3.0-or-later
// coverage_bench [ORES]: ores whose grade, fineness, size of gold and recovery are known go through a pan test and a fire
// assay; how often does the stated 95 % interval hold the truth? Grains fall into a portion as Poisson's law has it, balances
// round and scatter, a fineness is read with the error of its method.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <cstring>
#include <functional>
#include <map>
#include <random>

#include "core/assay/compare.h"
#include "core/assay/grain_sampling.h"

namespace prillbook {
namespace {

enum class Method { parted, touchstone, stated };

struct Ore {
  double g_t, fineness, grain_um, free_share, step_mg, fire_g, pan_g;
  Method method;
  double fire_grains = 0;  // expected in the fire portion
};

class Bench {
 public:
  explicit Bench(std::uint64_t seed) : dice_(seed) {}

  Ore ore() {
    constexpr std::array sizes{20.0, 40.0, 80.0, 150.0, 300.0};
    constexpr std::array steps{0.001, 0.01, 0.1};
    constexpr std::array portions{30.0, 50.0, 100.0};
    Ore one{std::exp(even(std::log(2.0), std::log(80.0))),
            even(450, 950),
            pick(sizes),
            even(0, 1),
            pick(steps),
            pick(portions),
            even(500, 2000),
            Method(int(even(0, 3)))};
    one.fire_grains = one.fire_g * one.g_t / 1000 / grain_mg(one);
    return one;
  }
  // Gold in a portion, mg: whole grains.
  double caught(const Ore& ore, double grams, double share) {
    const double mean = grams * ore.g_t / 1000 / grain_mg(ore) * share;
    return mean > 0 ? double(std::poisson_distribution<long>(mean)(dice_)) * grain_mg(ore) : 0;
  }
  Result<GradeResult> assay(const Ore& ore, double grams, double gold_mg) {
    const double bead_mg = 1000 * gold_mg / ore.fineness;
    GradeInput input;
    input.portion = Mass(grams, unit::gram);
    input.portion_step = Mass(0.01, unit::gram);
    input.balance_step = Mass(ore.step_mg, unit::milligram);
    input.repeat_sd = *input.balance_step;
    for (int i = 0; i < 2; ++i) input.bead.push_back(read(bead_mg, ore.step_mg));
    if (input.bead[0] == Mass() && input.bead[1] == Mass()) return bead_to_grade(input);
    switch (ore.method) {
      case Method::parted: input.gold = std::min(read(gold_mg, ore.step_mg), input.bead[0]); break;
      case Method::touchstone: input.fineness = reading(ore.fineness + even(-30, 30), FinenessMethod::touchstone); break;
      case Method::stated:
        input.fineness = reading(ore.fineness + 10 * normal(), FinenessMethod::stated);
        input.fineness->u = Fineness(10, unit::permil);
        break;
    }
    return bead_to_grade(input);
  }

 private:
  static double grain_mg(const Ore& ore) { return M_PI / 6 * std::pow(ore.grain_um * 1e-4, 3) * 19.3e3; }
  double even(double low, double high) { return std::uniform_real_distribution<double>(low, high)(dice_); }
  double normal() { return std::normal_distribution<double>()(dice_); }
  template <class List>
  double pick(const List& list) {
    return list[std::uniform_int_distribution<std::size_t>(0, list.size() - 1)(dice_)];
  }
  Mass read(double mg, double step) {
    return Mass(std::max(0.0, std::round((mg + step * normal()) / step) * step), unit::milligram);
  }
  static FinenessReading reading(double permil, FinenessMethod method) {
    return {Fineness(std::clamp(permil, 0.0, 1000.0), unit::permil), method, {}, {}, {}};
  }

  std::mt19937_64 dice_;
};

struct Count {
  long held = 0, all = 0;
  void add(bool inside) { held += inside, ++all; }
  std::string words() const { return all < 50 ? "–" : fmt::format("{:.1f} %", 100.0 * double(held) / double(all)); }
};

struct Row {
  Count grade, recovery, grade_by_weighing;
  long nothing = 0;
};

using Table = std::map<std::string, Row>;

std::string grains_words(double grains) {
  return grains < 3     ? "1. fewer than 3 grains in the charge"
         : grains < 10  ? "2. 3 to 10 grains"
         : grains < 30  ? "3. 10 to 30 grains"
         : grains < 100 ? "4. 30 to 100 grains"
                        : "5. 100 grains and more";
}

std::string method_words(Method method) {
  return method == Method::parted ? "parted" : method == Method::touchstone ? "touchstone" : "stated, u 10 ‰";
}

bool holds(const MeasuredGrade& grade, double g_t) {
  return grade.lo && grade.lo->in(unit::gram_per_tonne) <= g_t && g_t <= grade.hi->in(unit::gram_per_tonne);
}

void count(const Ore& ore, const Comparison& comparison, const MeasuredGrade& fire, Row& row) {
  const GoldSides& sides = comparison.gold_sides;
  row.grade.add(holds(measured(Grade(sides.fire, unit::gram_per_tonne), sides.fire_parts), ore.g_t));
  row.grade_by_weighing.add(holds(fire, ore.g_t));
  const auto& interval = comparison.gold.recovery_interval;
  if (interval) row.recovery.add(interval->lo <= ore.free_share && (!interval->hi || ore.free_share <= *interval->hi));
}

void print(const char* title, const Table& table) {
  fmt::print("\n| {} | ores | grade | recovery | grade, weighing alone |\n|---|---|---|---|---|\n", title);
  for (const auto& [name, row] : table)
    fmt::print("| {} | {} | {} | {} | {} |\n", name, row.grade.all + row.nothing, row.grade.words(), row.recovery.words(),
               row.grade_by_weighing.words());
}

int run(long ores) {
  Bench bench(20260504);
  Table by_grains, by_step, by_method, by_free, whole;
  long nothing = 0, refused = 0;
  for (long i = 0; i < ores; ++i) {
    const Ore ore = bench.ore();
    const auto pan = bench.assay(ore, ore.pan_g, bench.caught(ore, ore.pan_g, ore.free_share));
    const auto fire = bench.assay(ore, ore.fire_g, bench.caught(ore, ore.fire_g, 1));
    std::array<Row*, 5> rows{
        &by_grains[grains_words(ore.fire_grains)], &by_step[fmt::format("step {} mg", ore.step_mg)],
        &by_method[method_words(ore.method)],
        &by_free[fmt::format("{} to {} % free", int(ore.free_share * 4) * 25, int(ore.free_share * 4) * 25 + 25)],
        &whole[ore.fire_grains < 10 ? "fewer than 10 grains in the charge" : "10 grains and more"]};
    if (!pan.ok() || !fire.ok() || !fire->gold || !pan->gold || fire->none_seen) {
      ++(pan.ok() && fire.ok() ? nothing : refused);
      for (Row* row : rows) ++row->nothing;
      continue;
    }
    CompareInput input{*compare_side(*pan), *compare_side(*fire), {}, {}};
    input.pan.grain = input.fire.grain = Opening(ore.grain_um, unit::micrometre);
    const auto comparison = compare_pan_with_fire(input);
    if (!comparison.ok()) {
      ++refused;
      continue;
    }
    for (Row* row : rows) count(ore, *comparison, *fire->gold, *row);
  }
  fmt::print("{} ores; no bead in the charge {}, refused {}\n", ores, nothing, refused);
  print("grains", whole), print("expected grains", by_grains), print("bead balance", by_step), print("fineness", by_method);
  print("free gold", by_free);
  return 0;
}

}  // namespace
}  // namespace prillbook

int main(int argc, char** argv) {
  long ores = 20'000;
  if (argc > 1) std::from_chars(argv[1], argv[1] + std::strlen(argv[1]), ores);
  return prillbook::run(ores);
}
