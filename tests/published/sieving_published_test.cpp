// SPDX-License-Identifier: GPL-3.0-or-later
// Sieve figures printed outside the project.
#include <gtest/gtest.h>

#include <set>
#include <string>

#include "core/sieving/analysis.h"
#include "core/sieving/fits.h"

namespace prillbook {
namespace {

// Source: course notes CM2200, homework 3, table 1 (the masses are also those of a typical sieve test in Wills' Mineral
// Processing Technology, from memory). The printed column is chained from rounded figures; two entries differ from the
// masses in the last digit and are given here with the faulty print beside them.
struct PrintedRow {
  double um, grams, retained, passing;
};
constexpr PrintedRow printed_rows[] = {
    {250, 0.02, 0.04, 99.95},  // retained printed 0.05: 0.02/44.54 is 0.045, rounded twice
    {180, 1.32, 2.96, 96.99},  {125, 4.23, 9.50, 87.49},  {90, 9.44, 21.19, 66.30},
    {63, 13.10, 29.41, 36.89}, {45, 11.56, 25.95, 10.93},  // passing printed both 10.94 and 10.93
};
constexpr double printed_pan_g = 4.87;

TEST(PublishedSieving, TypicalTableOfASieveTest) {
  SieveAnalysis analysis;
  analysis.portion = Mass(44.54, unit::gram);
  for (const PrintedRow& row : printed_rows)
    analysis.cuts.push_back({Opening(row.um, unit::micrometre), Mass(row.grams, unit::gram)});
  analysis.pan = Mass(printed_pan_g, unit::gram);
  const auto result = analyse(analysis);
  ASSERT_TRUE(result.ok());
  EXPECT_NEAR(result->total.in(unit::gram), 44.54, 1e-9);
  for (std::size_t i = 0; i < result->rows.size(); ++i) {
    EXPECT_NEAR(result->rows[i].retained_pct, printed_rows[i].retained, 0.0051) << printed_rows[i].um;
    EXPECT_NEAR(result->rows[i].passing_pct, printed_rows[i].passing, 0.0052) << printed_rows[i].um;
  }
  EXPECT_NEAR(result->pan_pct, 10.93, 0.0051) << "printed 10.94";
}

// Source: ASTM C136, checklist item 9: the sum after sieving within 0.3 % of the mass before.
TEST(PublishedSieving, MassBalanceOfC136) {
  SieveAnalysis analysis;
  analysis.portion = Mass(500, unit::gram);
  analysis.cuts = {{Opening(150, unit::micrometre), Mass(250, unit::gram)}};
  analysis.pan = Mass(248.5, unit::gram);
  EXPECT_TRUE(analyse(analysis)->warnings.empty()) << "0.3 % lost";
  analysis.pan = Mass(248.4, unit::gram);
  EXPECT_EQ(analyse(analysis)->warnings.size(), 1u);
}

// Source: ASTM C136, 8.3 and table 1: 200 g on an 8-inch sieve (0.0285 m²) and 469 g on a 12-inch one (0.0670 m²) below
// 4.75 mm; kilograms on coarser sieves as printed, to the last digit printed (0.33 and 0.67 are cut off, not rounded).
TEST(PublishedSieving, OverloadOfC136) {
  EXPECT_NEAR(overload_limit(Opening(600, unit::micrometre), 0.0285).in(unit::gram), 200, 1);
  EXPECT_NEAR(overload_limit(Opening(600, unit::micrometre), 0.0670).in(unit::gram), 469, 1);
  struct Printed {
    double mm, kg, last_digit;
  };
  for (const Printed& p : {Printed{4.75, 0.33, 0.01}, Printed{9.5, 0.67, 0.01}, Printed{12.5, 0.89, 0.01}, Printed{19, 1.4, 0.1},
                           Printed{25, 1.8, 0.1}, Printed{37.5, 2.7, 0.1}, Printed{50, 3.6, 0.1}})
    EXPECT_NEAR(overload_limit(Opening(p.mm, unit::millimetre), 0.0285).in(unit::kilogram), p.kg, p.last_digit) << p.mm;
}

// Source: Kuo and Acharya, Applications of Turbulent and Multiphase Combustion, Wiley 2012, table D.1 p. 542: former
// openings in mm by ASTM number and by Tyler mesh.
struct PrintedMesh {
  const char* number;
  double astm_mm, tyler_mm;
};
constexpr PrintedMesh ambiguous[] = {
    {"10", 2.00, 1.68}, {"12", 1.68, 1.41}, {"14", 1.41, 1.19}, {"16", 1.19, 1.00}, {"35", 0.500, 0.420},
};

TEST(PublishedSieving, FiveMeshNumbersMeanTwoOpenings) {
  std::set<std::string> found;
  for (const Mesh& mesh : mesh_table()) {
    const std::string number(mesh.astm_number);
    const auto astm = mesh_opening(SieveSeries::astm_e11, number, true), tyler = mesh_opening(SieveSeries::tyler, number, true);
    if (astm && tyler && *astm != *tyler) found.insert(number);
  }
  std::set<std::string> printed;
  for (const PrintedMesh& mesh : ambiguous) {
    printed.insert(mesh.number);
    EXPECT_DOUBLE_EQ(mesh_opening(SieveSeries::astm_e11, mesh.number, true)->in(unit::millimetre), mesh.astm_mm);
    EXPECT_DOUBLE_EQ(mesh_opening(SieveSeries::tyler, mesh.number, true)->in(unit::millimetre), mesh.tyler_mm);
  }
  EXPECT_EQ(found, printed);
}

// Source: the same table.
TEST(PublishedSieving, NumbersThatAgreeInBothSeries) {
  for (const char* number : {"3.5", "4", "5", "6", "7", "8", "20", "60", "80", "100", "170", "200", "270", "325", "400"})
    EXPECT_EQ(mesh_opening(SieveSeries::astm_e11, number), mesh_opening(SieveSeries::tyler, number)) << number;
  for (const char* number : {"9", "24", "28", "32", "42", "48", "65", "115", "150", "250"})
    EXPECT_FALSE(mesh_opening(SieveSeries::astm_e11, number).has_value()) << number;
  for (const char* number : {"18", "25", "30", "40", "45", "50", "70", "120", "140", "230"})
    EXPECT_FALSE(mesh_opening(SieveSeries::tyler, number).has_value()) << number;
}

// Source: the same table of ASTM C136: areas of an 8-inch and a 12-inch sieve, printed to three digits.
TEST(PublishedSieving, SievingAreasOfC136) {
  EXPECT_NEAR(sieving_area_m2(Opening(203.2, unit::millimetre)), 0.0285, 0.00005);
  EXPECT_NEAR(sieving_area_m2(Opening(304.8, unit::millimetre)), 0.0670, 0.00005);
}

// Common practice, no source: 100 g of ground quartz leave about 1, 47, 21 and 31 g on 20, 60 and 100 mesh and in the pan.
TEST(PublishedSieving, AnOrdinaryGrindOnThreeSieves) {
  SieveAnalysis analysis;
  analysis.portion = Mass(100, unit::gram);
  for (const auto& [number, grams] : {std::pair("20", 1.0), std::pair("60", 47.0), std::pair("100", 21.0)})
    analysis.cuts.push_back({*mesh_opening(SieveSeries::astm_e11, number), Mass(grams, unit::gram)});
  analysis.pan = Mass(31, unit::gram);
  const auto result = analyse(analysis);
  ASSERT_TRUE(result.ok());
  EXPECT_NEAR(result->rows[0].passing_pct, 99, 1e-9);
  EXPECT_NEAR(result->rows[1].passing_pct, 52, 1e-9);
  EXPECT_NEAR(result->rows[2].passing_pct, 31, 1e-9);
  EXPECT_EQ(result->p80.status, SizeStatus::inside);
  EXPECT_EQ(result->warnings, std::vector{SieveWarning::wide_bracket}) << "20 and 60 mesh stand 3.4 times apart";
}

// Identities of the laws, to the digits that follow from them: with n 1 and x' 100 Rosin and Rammler's curve passes
// 39.3469, 63.2121 and 86.4665 % at 50, 100 and 200; with m 0.5 and k 1000 Gaudin and Schuhmann's passes 50 % at 250 and
// 80 % at 640. The laws themselves: mineral-dressing textbooks, from memory.
TEST(PublishedSieving, TheTwoLawsAtTheirOwnSizes) {
  const SizeLaw rosin{1, Opening(100, unit::micrometre), 1, 4};
  for (const auto& [um, passing] : {std::pair(50.0, 39.3469), std::pair(100.0, 63.2121), std::pair(200.0, 86.4665)})
    EXPECT_NEAR(100 * rosin_rammler_passing(rosin, Opening(um, unit::micrometre)), passing, 5e-5) << um;
  EXPECT_NEAR(rosin_rammler_passing(rosin, Opening(160.944, unit::micrometre)), 0.8, 1e-6);
  EXPECT_NEAR(rosin_rammler_passing(rosin, Opening(69.315, unit::micrometre)), 0.5, 2e-6) << "69.3147 rounded";
  const SizeLaw schuhmann{0.5, Opening(1000, unit::micrometre), 1, 4};
  EXPECT_NEAR(gaudin_schuhmann_passing(schuhmann, Opening(250, unit::micrometre)), 0.5, 1e-15);
  EXPECT_NEAR(gaudin_schuhmann_passing(schuhmann, Opening(640, unit::micrometre)), 0.8, 1e-15);
}

}  // namespace
}  // namespace prillbook
