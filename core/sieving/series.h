// SPDX-License-Identifier: GPL-3.0-or-later
// Openings of the sieve series and the mesh numbers that name them. A mesh number alone is ambiguous: 10, 12, 14, 16
// and 35 mean different openings in the two mesh series.
// Sources: numbers 3.5 to 400 with their former openings and the Tyler mesh: Kuo and Acharya, Applications of Turbulent
// and Multiphase Combustion, Wiley 2012, table D.1 p. 542; today's nominal openings and sizes outside that table:
// ASTM E11 and ISO 3310-1, from memory.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "core/units/quantity.h"

namespace prillbook {

enum class SieveSeries { astm_e11, iso_3310_1, tyler };

// Names of the batch contract: astm_e11, iso_3310_1, tyler.
std::optional<SieveSeries> find_sieve_series(std::string_view contract_name);

// One line of the mesh table: sieves of about the same cloth in the two mesh series.
struct Mesh {
  std::string_view astm_number;  // empty: no such number
  std::string_view tyler_mesh;   // empty: no such mesh
  double opening_um;             // nominal today
  double former_um;              // nominal before the metric revision; 0: there was none
};
const std::vector<Mesh>& mesh_table();

// Opening behind a mesh number ("200", "3.5") as sold today; `former` gives the opening before the metric revision.
// nullopt where the series has no such number; ISO 3310-1 has none at all.
std::optional<Opening> mesh_opening(SieveSeries series, std::string_view number, bool former = false);

// Whether the series holds a sieve of this opening; today's and former openings both count, to 0.01 %.
bool in_series(SieveSeries series, Opening opening);

// Openings of the series as sold today, any order.
std::vector<Opening> nominal_openings(SieveSeries series);

}  // namespace prillbook
