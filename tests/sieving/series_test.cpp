// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/sieving/series.h"

#include <gtest/gtest.h>

#include <string>

#include "core/units/units.h"

namespace prillbook {
namespace {

TEST(Series, NamesOfTheContract) {
  EXPECT_EQ(find_sieve_series("astm_e11"), SieveSeries::astm_e11);
  EXPECT_EQ(find_sieve_series("iso_3310_1"), SieveSeries::iso_3310_1);
  EXPECT_EQ(find_sieve_series("tyler"), SieveSeries::tyler);
  EXPECT_FALSE(find_sieve_series("ASTM").has_value());
}

TEST(Series, MeshNumberNeedsItsSeries) {
  EXPECT_FALSE(mesh_opening(SieveSeries::iso_3310_1, "200").has_value()) << "ISO names sieves by opening";
  EXPECT_FALSE(mesh_opening(SieveSeries::astm_e11, "65").has_value());
  EXPECT_FALSE(mesh_opening(SieveSeries::tyler, "").has_value());
  EXPECT_FALSE(mesh_opening(SieveSeries::astm_e11, "635", true).has_value()) << "there was no former opening";
}

TEST(Series, TableFallsWithoutRepeats) {
  double before = 1e9;
  for (const Mesh& mesh : mesh_table()) {
    EXPECT_LT(mesh.opening_um, before) << mesh.astm_number;
    before = mesh.opening_um;
    EXPECT_TRUE(in_series(SieveSeries::astm_e11, Opening(mesh.opening_um, unit::micrometre)));
    EXPECT_TRUE(in_series(SieveSeries::iso_3310_1, Opening(mesh.opening_um, unit::micrometre))) << mesh.opening_um;
    EXPECT_TRUE(in_series(SieveSeries::tyler, Opening(mesh.opening_um, unit::micrometre)));
  }
}

TEST(Series, OpeningsThatAreNoSieve) {
  for (const SieveSeries series : {SieveSeries::astm_e11, SieveSeries::iso_3310_1, SieveSeries::tyler})
    for (const double um : {76.0, 155.0, 1.0, 3000.0}) EXPECT_FALSE(in_series(series, Opening(um, unit::micrometre))) << um;
  EXPECT_TRUE(in_series(SieveSeries::astm_e11, Opening(74, unit::micrometre))) << "the former No. 200";
  EXPECT_FALSE(in_series(SieveSeries::iso_3310_1, Opening(74, unit::micrometre)));
}

}  // namespace
}  // namespace prillbook
