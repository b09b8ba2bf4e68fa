// SPDX-License-Identifier: GPL-3.0-or-later
// Two straight-line laws through a sieve curve, by least squares in their own axes. Points at 0 and 100 % passing are
// left out, since the axes do not show them.
#pragma once

#include <optional>
#include <vector>

#include "core/sieving/analysis.h"

namespace prillbook {

struct SizeLaw {
  double slope = 0;  // m or n, > 0
  Opening size;      // k (all passes) or x' (36.79 % retained)
  double r2 = 0;     // in the axes of the law; 1 says nothing where only two points are left
  int points = 0;    // that it was drawn through
};

// Passing = (x/k)^m: ln passing on ln x (Gates-Gaudin-Schuhmann).
// nullopt where fewer than two points lie between 0 and 100 %, or they do not rise.
std::optional<SizeLaw> gaudin_schuhmann(const std::vector<SieveRow>& rows);
// Retained = exp(-(x/x')^n): ln(-ln retained) on ln x (Rosin and Rammler 1933). nullopt as above.
std::optional<SizeLaw> rosin_rammler(const std::vector<SieveRow>& rows);

// Fraction passing by each law, 0 to 1. Domain: size > 0.
double gaudin_schuhmann_passing(const SizeLaw& law, Opening size);
double rosin_rammler_passing(const SizeLaw& law, Opening size);

// How far a law may be trusted to stand for the curve. Limits: common practice, no source.
enum class FitTrust {
  too_few,  // three points or fewer: almost any line goes through them
  good,     // within 2 percentage points of every sieve
  fair,     // within 5
  poor,
};
struct FitJudgement {
  double worst_pct = 0;  // greatest distance in percentage points passing, over all sieves
  FitTrust trust = FitTrust::poor;
};
FitJudgement judge(const SizeLaw& law, double (*passing)(const SizeLaw&, Opening), const std::vector<SieveRow>& rows);

}  // namespace prillbook
