// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/sieving/series.h"

#include <algorithm>
#include <cmath>
#include <span>

#include "core/units/units.h"

namespace prillbook {
namespace {

// Coarse sizes that carry inch names, ASTM E11, from memory.
constexpr double astm_coarse_um[] = {125000, 106000, 100000, 90000, 75000, 63000, 53000, 50000, 45000, 37500, 31500, 26500,
                                     25000,  22400,  19000,  16000, 13200, 12500, 11200, 9500,  8000,  6700,  6300};
// Tyler openings above 3.5 mesh: 2.5 and 3 mesh of the table, today's and former.
constexpr double tyler_coarse_um[] = {8000, 6700, 6730};
// ISO 3310-1: principal R 20/3 and supplementary R 20 and R 40/3 sizes, from memory. One decade of R 20 from 1 mm up
// to 125 mm is written out, since the rounded sizes are not powers of one ratio.
constexpr double iso_um[] = {
    125000, 112000, 106000, 100000, 90000, 80000, 75000, 71000, 63000, 56000, 53000, 50000, 45000, 40000, 37500, 35500, 31500,
    28000,  26500,  25000,  22400,  20000, 19000, 18000, 16000, 14000, 13200, 12500, 11200, 10000, 9500,  9000,  8000,  7100,
    6700,   6300,   5600,   5000,   4750,  4500,  4000,  3550,  3350,  3150,  2800,  2500,  2360,  2240,  2000,  1800,  1700,
    1600,   1400,   1250,   1180,   1120,  1000,  900,   850,   800,   710,   630,   600,   560,   500,   450,   425,   400,
    355,    315,    300,    280,    250,   224,   212,   200,   180,   160,   150,   140,   125,   112,   106,   100,   90,
    80,     75,     71,     63,     56,    53,    50,    45,    40,    38,    36,    32,    25,    20};

bool same(double a, double b) { return std::abs(a - b) <= 1e-4 * b; }

bool holds(std::span<const double> openings, double um) {
  return std::any_of(openings.begin(), openings.end(), [um](double opening) { return same(um, opening); });
}

std::string_view number_in(const Mesh& mesh, SieveSeries series) {
  return series == SieveSeries::astm_e11 ? mesh.astm_number : mesh.tyler_mesh;
}

}  // namespace

std::optional<SieveSeries> find_sieve_series(std::string_view contract_name) {
  if (contract_name == "astm_e11") return SieveSeries::astm_e11;
  if (contract_name == "iso_3310_1") return SieveSeries::iso_3310_1;
  if (contract_name == "tyler") return SieveSeries::tyler;
  return std::nullopt;
}

const std::vector<Mesh>& mesh_table() {
  static const std::vector<Mesh> table{
      {"3.5", "3.5", 5600, 5660}, {"4", "4", 4750, 4760},   {"5", "5", 4000, 4000},   {"6", "6", 3350, 3360},
      {"7", "7", 2800, 2830},     {"8", "8", 2360, 2380},   {"10", "9", 2000, 2000},  {"12", "10", 1700, 1680},
      {"14", "12", 1400, 1410},   {"16", "14", 1180, 1190}, {"18", "16", 1000, 1000}, {"20", "20", 850, 841},
      {"25", "24", 710, 707},     {"30", "28", 600, 595},   {"35", "32", 500, 500},   {"40", "35", 425, 420},
      {"45", "42", 355, 354},     {"50", "48", 300, 297},   {"60", "60", 250, 250},   {"70", "65", 212, 210},
      {"80", "80", 180, 177},     {"100", "100", 150, 149}, {"120", "115", 125, 125}, {"140", "150", 106, 105},
      {"170", "170", 90, 88},     {"200", "200", 75, 74},   {"230", "250", 63, 63},   {"270", "270", 53, 53},
      {"325", "325", 45, 44},     {"400", "400", 38, 37},   {"450", "450", 32, 0},    {"500", "500", 25, 0},
      {"635", "635", 20, 0},
  };
  return table;
}

std::optional<Opening> mesh_opening(SieveSeries series, std::string_view number, bool former) {
  if (series == SieveSeries::iso_3310_1 || number.empty()) return std::nullopt;
  for (const Mesh& mesh : mesh_table()) {
    if (number_in(mesh, series) != number) continue;
    const double um = former ? mesh.former_um : mesh.opening_um;
    return um > 0 ? std::optional(Opening(um, unit::micrometre)) : std::nullopt;
  }
  return std::nullopt;
}

bool in_series(SieveSeries series, Opening opening) {
  const double um = opening.in(unit::micrometre);
  if (series == SieveSeries::iso_3310_1) return holds(iso_um, um);
  if (series == SieveSeries::astm_e11 ? holds(astm_coarse_um, um) : holds(tyler_coarse_um, um)) return true;
  return std::any_of(mesh_table().begin(), mesh_table().end(), [&](const Mesh& mesh) {
    return !number_in(mesh, series).empty() && (same(um, mesh.opening_um) || same(um, mesh.former_um));
  });
}

std::vector<Opening> nominal_openings(SieveSeries series) {
  std::vector<Opening> openings;
  const auto add = [&](double um) { openings.emplace_back(um, unit::micrometre); };
  if (series == SieveSeries::iso_3310_1) {
    for (const double um : iso_um) add(um);
    return openings;
  }
  if (series == SieveSeries::astm_e11)
    for (const double um : astm_coarse_um) add(um);
  else
    for (const double um : {8000.0, 6700.0}) add(um);
  for (const Mesh& mesh : mesh_table())
    if (!number_in(mesh, series).empty()) add(mesh.opening_um);
  return openings;
}

}  // namespace prillbook
