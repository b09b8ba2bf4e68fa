// SPDX-License-Identifier: GPL-3.0-or-later
// Propagation by draws, for what the first order can not tell: a wide rectangle, a ratio near zero, few degrees of freedom.
// Source: JCGM 101:2008, clauses 7 and 8 (from memory). The same seed gives the same figures on every machine.
#pragma once

#include <array>
#include <boost/random/mersenne_twister.hpp>
#include <boost/random/normal_distribution.hpp>
#include <boost/random/student_t_distribution.hpp>
#include <boost/random/uniform_real_distribution.hpp>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "core/assay/interval.h"
#include "core/base/progress.h"
#include "core/base/result.h"

namespace prillbook {

struct DrawOptions {
  std::int64_t draws = 200'000;  // at least 1000
  std::uint64_t seed = 1;
  const Cancellation* stop = nullptr;
  Progress progress = {};
};

// One quantity after all draws. An end that lies in draws without a value (a ratio over nothing) is absent.
struct Drawn {
  double mean = 0, sd = 0;               // of the draws that have a value
  std::optional<double> median, lo, hi;  // 95 %, as much below as above
};

// Draws of one part around 0, in the unit of the part.
class PartSampler {
 public:
  explicit PartSampler(const Contribution& part);
  template <class Engine>
  double operator()(Engine& engine) {
    switch (shape_) {
      case Shape::normal: return u_ * normal_(engine);
      case Shape::student: return u_ * student_(engine);
      case Shape::rectangle: break;
    }
    return even_(engine);
  }

 private:
  enum class Shape { normal, student, rectangle };
  Shape shape_;
  double u_;
  boost::random::normal_distribution<double> normal_;
  boost::random::student_t_distribution<double> student_;
  boost::random::uniform_real_distribution<double> even_;
};

Result<void> check_draws(const DrawOptions& options);  // out_of_range below 1000 or above 100 000 000 draws
Drawn drawn_of(std::vector<double>& values);           // puts the values in another order

// `model` takes the offsets of all inputs, in their order, and gives `outputs` values for one draw; a value that is not
// finite is none. Errors: out_of_range (draws), cancelled.
template <std::size_t outputs, class Model>
Result<std::array<Drawn, outputs>> draw(std::span<const Contribution> inputs, Model&& model, const DrawOptions& options) {
  PRILLBOOK_TRY(check_draws(options));
  constexpr std::int64_t between_looks = 1 << 14;
  boost::random::mt19937_64 engine(options.seed);
  std::vector<PartSampler> samplers(inputs.begin(), inputs.end());
  std::vector<double> offsets(samplers.size());
  std::array<std::vector<double>, outputs> values;
  for (auto& column : values) column.resize(std::size_t(options.draws));
  for (std::int64_t at = 0; at < options.draws; ++at) {
    if (at % between_looks == 0) {
      if (options.stop && options.stop->requested()) return refusal(ErrorCode::cancelled, "draws", "stopped");
      if (options.progress) options.progress(long(at), long(options.draws));
    }
    for (std::size_t i = 0; i < samplers.size(); ++i) offsets[i] = samplers[i](engine);
    const std::array<double, outputs> one = model(std::span<const double>(offsets));
    for (std::size_t k = 0; k < outputs; ++k) values[k][std::size_t(at)] = one[k];
  }
  std::array<Drawn, outputs> result;
  for (std::size_t k = 0; k < outputs; ++k) result[k] = drawn_of(values[k]);
  return result;
}

// How far an interval of the first order lies from the draws, against half a unit of the second figure of the standard
// uncertainty that counts. Source: JCGM 101:2008, 8.1 with two figures (from memory).
struct Agreement {
  double low_off = 0, high_off = 0;  // of each end, not below 0
  double tolerance = 0;
  bool holds() const { return low_off <= tolerance && high_off <= tolerance; }
};
// nullopt where an end is missing on one side.
std::optional<Agreement> agreement(double u, std::optional<double> lo, std::optional<double> hi, const Drawn& drawn);

}  // namespace prillbook
