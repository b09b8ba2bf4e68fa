// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/sieving/fits.h"

#include <algorithm>
#include <cmath>

namespace prillbook {
namespace {

struct Point {
  double x, y;
};

// The law y = slope (ln x - ln size).
std::optional<SizeLaw> fit(const std::vector<Point>& points) {
  if (points.size() < 2) return std::nullopt;
  const double n = static_cast<double>(points.size());
  double mean_x = 0, mean_y = 0;
  for (const Point& p : points) mean_x += p.x / n, mean_y += p.y / n;
  double xx = 0, xy = 0, yy = 0;
  for (const Point& p : points) {
    xx += (p.x - mean_x) * (p.x - mean_x);
    xy += (p.x - mean_x) * (p.y - mean_y);
    yy += (p.y - mean_y) * (p.y - mean_y);
  }
  const double slope = xy / xx, size = std::exp(mean_x - mean_y / slope);
  if (!(slope > 0) || !std::isfinite(size) || !(size > 0)) return std::nullopt;
  return SizeLaw{slope, Opening(size, unit::micrometre), xy * xy / (xx * yy), int(points.size())};
}

template <class Transform>
std::vector<Point> inner_points(const std::vector<SieveRow>& rows, Transform y_of) {
  std::vector<Point> points;
  for (const SieveRow& row : rows)
    if (row.passing_pct > 0 && row.passing_pct < 100) points.push_back({std::log(row.opening.in(unit::micrometre)), y_of(row)});
  return points;
}

}  // namespace

std::optional<SizeLaw> gaudin_schuhmann(const std::vector<SieveRow>& rows) {
  return fit(inner_points(rows, [](const SieveRow& row) { return std::log(row.passing_pct / 100); }));
}

std::optional<SizeLaw> rosin_rammler(const std::vector<SieveRow>& rows) {
  return fit(inner_points(rows, [](const SieveRow& row) {
    const double log_retained =
        row.passing_pct < 50 ? std::log1p(-row.passing_pct / 100) : std::log(row.cumulative_retained_pct / 100);
    return std::log(-log_retained);
  }));
}

double gaudin_schuhmann_passing(const SizeLaw& law, Opening size) { return std::min(1.0, std::pow(size / law.size, law.slope)); }

double rosin_rammler_passing(const SizeLaw& law, Opening size) { return -std::expm1(-std::pow(size / law.size, law.slope)); }

FitJudgement judge(const SizeLaw& law, double (*passing)(const SizeLaw&, Opening), const std::vector<SieveRow>& rows) {
  FitJudgement judgement;
  for (const SieveRow& row : rows)
    judgement.worst_pct = std::max(judgement.worst_pct, std::abs(100 * passing(law, row.opening) - row.passing_pct));
  if (law.points <= 3)
    judgement.trust = FitTrust::too_few;
  else
    judgement.trust = judgement.worst_pct <= 2 ? FitTrust::good : judgement.worst_pct <= 5 ? FitTrust::fair : FitTrust::poor;
  return judgement;
}

}  // namespace prillbook
