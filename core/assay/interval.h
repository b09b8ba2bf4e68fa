// SPDX-License-Identifier: GPL-3.0-or-later
// Standard uncertainties and 95 % intervals of one quantity. Numbers here carry the unit of that quantity.
// Source: JCGM 100 (GUM) 5.1, 4.3.7, G.4; the convolution of a rectangle with a normal or t curve is exact.
#pragma once

#include <limits>
#include <span>
#include <string_view>
#include <vector>

namespace prillbook {

enum class UncertaintySource {
  bead_step,
  bead_repeats,
  portion_step,
  fineness,
  parted_gold,
  slag,
  cupel,
  collector,
  collector_loss,
  sampling,
  between_charges,
};
std::string_view source_name(UncertaintySource source);  // "bead_step": the word of the batch verbs

inline constexpr double infinite_dof = std::numeric_limits<double>::infinity();

// One independent part of an uncertainty. The true value lies at value + offset.
struct Contribution {
  UncertaintySource source;
  double u = 0;               // standard uncertainty, >= 0
  double dof = infinite_dof;  // degrees of freedom behind u, >= 1
  bool rectangle = false;     // offset spread evenly over [low, high]; otherwise normal, or t where dof is finite
  double low = 0, high = 0;
};

Contribution normal_part(UncertaintySource source, double u, double dof = infinite_dof);
Contribution rectangle_part(UncertaintySource source, double low, double high);  // u = (high - low)/sqrt(12)
// The same part seen through a sensitivity coefficient.
Contribution scaled(const Contribution& part, double factor);

enum class IntervalMethod { student, convolution };  // student: value +- k u, k 1.96 at many degrees of freedom

struct Spread {
  double u = 0;               // root sum of squares
  double dof = infinite_dof;  // effective, Welch-Satterthwaite, truncated to a whole number
  double k = 0;               // coverage factor of `student`; half width over u for `convolution`
  double lo = 0, hi = 0;      // 95 %, not clipped
  IntervalMethod method = IntervalMethod::student;
};

// A rectangle that holds more than half of the variance is convolved with the rest; otherwise k comes from t.
Spread spread(double value, std::span<const Contribution> parts);

// Root sum of squares; safe against overflow of the squares.
double combined_u(std::span<const Contribution> parts);
// Two-sided 95 % quantile of Student's t; 1.95996 for infinite dof. Domain: dof >= 1.
double coverage_factor(double dof);
// Welch-Satterthwaite, truncated; infinite where no part has finite degrees of freedom.
double effective_dof(std::span<const Contribution> parts);
// Quantile of a sum of a rectangle [low, high] and a normal or t part of standard uncertainty u. 0 < p < 1, u >= 0.
double convolved_quantile(double p, double low, double high, double u, double dof);

}  // namespace prillbook
