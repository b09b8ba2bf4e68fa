// SPDX-License-Identifier: GPL-3.0-or-later
// Furnace figures printed outside the project. BER: C. and J. J. Beringer, A Text-book of Assaying, 9th ed. (1904).
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "core/fire/charge.h"
#include "core/fire/practice.h"
#include "core/fire/silicate.h"
#include "tests/support/masses.h"

namespace prillbook {
namespace {

using testing::Contains;
using testing::Not;

double grams(Mass mass) { return mass.in(unit::gram); }

// Source: BER p. 94: 1.5 g charcoal gave 34.0 g lead, 3 g flour 33.5 g, 7.5 g tartar 38.0 g.
TEST(PublishedFire, ReducingPowersOfReagents) {
  EXPECT_NEAR(1.5 * find_reagent("charcoal")->practice.value, 34.0, 0.15);
  EXPECT_NEAR(3 * find_reagent("flour")->practice.value, 33.5, 0.15);
  EXPECT_NEAR(7.5 * find_reagent("tartar")->practice.value, 38.0, 0.55);
  EXPECT_NEAR(grams(flour_for(g(33.5))), 3, 0.01);
}

// Source: BER p. 98, theoretical powers of the minerals; the upper figure of each pair. The lower one of pyrites, 8.6, is
// FeO and SO2. Copper pyrites is left out: no products give the printed 7.5 and 11.6.
TEST(PublishedFire, TheoreticalPowersOfMinerals) {
  EXPECT_NEAR(find_sulphide("pyrite")->theory(), 12.9, 0.06);
  EXPECT_NEAR(reducing_power(5, find_sulphide("pyrite")->molar_mass), 8.6, 0.05);
  EXPECT_NEAR(find_sulphide("blende")->theory(), 8.5, 0.05);
  EXPECT_NEAR(find_sulphide("antimonite")->theory(), 8, 0.1) << "8 only with Sb2O4";
  EXPECT_NEAR(find_sulphide("galena")->theory(), 3.4, 0.07);
  EXPECT_NEAR(find_sulphide("chalcopyrite")->theory(), 9.6, 0.05) << "our products; printed 11.6";
}

// Source: BER p. 97, lead from minerals with 80 g litharge, 20 g soda, 5 g borax, without quartz and with 15 g. The
// practice value lies within a gram per gram of both furnace results.
TEST(PublishedFire, PracticePowersAgainstTheFurnace) {
  struct Measured {
    const char* mineral;
    double mass, lead, lead_with_quartz;
  };
  for (const Measured& m :
       {Measured{"pyrite", 4, 46.5, 40.5}, Measured{"chalcopyrite", 5, 44.5, 32.5}, Measured{"blende", 5, 41.5, 38.5},
        Measured{"antimonite", 5, 31.0, 32.5}, Measured{"galena", 10, 33.5, 33.5}}) {
    const double practice = find_sulphide(m.mineral)->practice.value;
    const double low = std::min(m.lead, m.lead_with_quartz) / m.mass, high = std::max(m.lead, m.lead_with_quartz) / m.mass;
    EXPECT_GT(practice, low - 0.5) << m.mineral;
    EXPECT_LT(practice, high + 0.5) << m.mineral;
  }
}

// Source: BER p. 95: flour for a 20 g button from 80 g red lead, (80/5 + 20)/11 = 3.3 g; and the rule against the furnace
// for other amounts: 25.0, 13.5, 30.0 and 40.0 g lead.
TEST(PublishedFire, FlourWithRedLead) {
  const double red_lead = -find_reagent("red_lead")->practice.value;
  EXPECT_NEAR(grams(flour_for(g(80 * red_lead + 20), 11)), 3.3, 0.05);
  struct Fused {
    double red_lead, flour, button;
  };
  for (const Fused& f : {Fused{40, 3, 25.0}, Fused{100, 3, 13.5}, Fused{80, 4, 30.0}, Fused{80, 5, 40.0}})
    EXPECT_NEAR(f.flour * flour_practice - f.red_lead * red_lead, f.button, 2.01);
}

// Source: BER p. 95: 20 g of ore, half pyrites of power 11, button 30 g: 110 g lead less 30, over 4, is 20 g nitre with
// litharge. The furnace gave 26.0 and 22.5 g.
TEST(PublishedFire, NitreForAPyriticOre) {
  ChargeInput input;
  input.ore = g(20);
  input.kind = OreKind::sulphide;
  input.sulphides = {{"iron_pyrites", Share(50, unit::percent)}};
  input.button_target = g(30);
  const auto charge = design_charge(input);
  EXPECT_NEAR(grams(*charge->nitre), 20, 1e-9);
  EXPECT_NEAR(grams(charge->litharge), 80, 1e-9) << "80 g of lead flux in print";
  EXPECT_NEAR(grams(charge->button_theory), 26.0, 3.6) << "between the furnace's 22.5 and 26.0 and the rule's 30";
}

// Source: BER p. 96: lead P from 3 g of ore, charge of 20 g. Nitre as printed; flour printed 3.3 and 1.3, of which the
// second does not follow from the book's own rule (1.45). The rule of p. 92, 1.3 (P - 3), leaves the table above P = 6.
TEST(PublishedFire, TestFusionToCharge) {
  struct Printed {
    double p, nitre;
  };
  for (const Printed& row : {Printed{6, 4}, Printed{9, 9}, Printed{12, 14}, Printed{15, 19}, Printed{18, 24}, Printed{21, 29}}) {
    ChargeInput input;
    input.ore = g(20);
    input.reducing_power = row.p / 3;
    input.button_target = g(24);
    EXPECT_NEAR(grams(*design_charge(input)->nitre), row.nitre, 1e-9) << row.p;
  }
  EXPECT_NEAR(grams(flour_for(g(36 - 20 * 0.0 / 3), 11)), 3.3, 0.05);
  EXPECT_NEAR(grams(flour_for(g(36 - 20 * 3.0 / 3), 11)), 1.45, 0.01) << "printed 1.3";
}

// Source: BER p. 136-137: 50 g quartz takes 88.5 g carbonate of soda, or 140 g bicarbonate, or 186 g litharge; 100 g
// bicarbonate is 63 g carbonate.
TEST(PublishedFire, FiftyGramsOfQuartz) {
  EXPECT_NEAR(50 * base_per_silica(Base::soda_ash, 2), 88.5, 0.5);
  EXPECT_NEAR(50 * base_per_silica(Base::bicarbonate, 2), 140, 0.5);
  EXPECT_NEAR(50 * base_per_silica(Base::litharge, 2), 186, 0.5);
  EXPECT_NEAR(100 * grams_per_base_oxygen(Base::soda_ash) / grams_per_base_oxygen(Base::bicarbonate), 63, 0.1);
}

struct PrintedCharge {
  const char* what;
  double ore;
  OreKind kind;
  double silica_pct;
  double button, litharge, carbonate, borax, flour;  // flour for the charcoal of the print: twice its mass
};

// Source: BER p. 90 (silver ore), p. 91 (basic), p. 116 (burnt pyrites), p. 138 (quartz and ferric oxide), p. 140
// (tailings); bicarbonate turned into carbonate by 0.63. The share of silica is our reading of the words used for the
// ore, the button that of p. 90 and p. 137. The book varies these charges twofold between pages, so the
// design has to stay within a factor of 2.5 for fluxes and 2 for the reducer.
TEST(PublishedFire, DesignedChargesBesidePrintedOnes) {
  for (const PrintedCharge& p : {PrintedCharge{"silver ore", 20, OreKind::siliceous, 70, 22, 40, 18.9, 5, 2.25},
                                 PrintedCharge{"basic ore", 20, OreKind::oxide, 5, 22, 60, 9.5, 15, 5},
                                 PrintedCharge{"burnt pyrites", 100, OreKind::oxide, 10, 50, 100, 0, 50, 14},
                                 PrintedCharge{"quartz", 50, OreKind::siliceous, 100, 35, 75, 63, 10, 4},
                                 PrintedCharge{"ferric oxide", 50, OreKind::oxide, 0, 35, 50, 18.9, 30, 7},
                                 PrintedCharge{"tailings", 100, OreKind::siliceous, 95, 35, 150, 94.5, 25, 3.5}}) {
    ChargeInput input;
    input.ore = g(p.ore);
    input.kind = p.kind;
    input.silica = Share(p.silica_pct, unit::percent);
    input.button_target = g(p.button);
    const auto charge = design_charge(input);
    ASSERT_TRUE(charge.ok()) << p.what;
    const auto near = [&](Mass mass, double printed, double factor) {
      EXPECT_GT(grams(mass), printed / factor) << p.what;
      EXPECT_LT(grams(mass), printed * factor) << p.what;
    };
    near(charge->litharge, p.litharge, 2.5);
    if (p.carbonate > 0) near(charge->soda_ash, p.carbonate, 2.5);
    near(charge->borax_glass, p.borax, 2.5);
    ASSERT_TRUE(charge->flour.has_value()) << p.what;
    near(*charge->flour, p.flour, 2);
    EXPECT_GE(*charge->silicate_degree, 1 - 1e-9) << p.what;
    EXPECT_LE(*charge->silicate_degree, 3) << p.what;
    EXPECT_THAT(charge->warnings, Not(Contains(ChargeWarning::litharge_scarce))) << p.what;
  }
}

// Common practice, no source: 100 g clean quartz ore, 100 g soda ash, 50 g borax, 150 g litharge and 3 g flour give a
// button of roughly 30 to 36 g.
TEST(PublishedFire, CleanQuartzCharge) {
  ChargeInput input;
  input.ore = g(100);
  input.kind = OreKind::siliceous;
  input.soda_ash = g(100);
  input.litharge = g(150);
  for (const double target : {30.0, 36.0}) {
    input.button_target = g(target);
    const auto charge = design_charge(input);
    EXPECT_NEAR(grams(*charge->flour), 3, 0.35) << target;
    EXPECT_TRUE(charge->warnings.empty()) << target;
  }
  const double borax_of_glass = 381.37 / 201.22;  // Na2B4O7·10H2O over Na2B4O7
  EXPECT_NEAR(grams(design_charge(input)->borax_glass) * borax_of_glass, 50, 5);
}

// Source: BER p. 102-103: silver cupelled with lead, mg lost and per cent as printed.
TEST(PublishedFire, SilverLostInCupelling) {
  struct Row {
    double silver_mg, lost_mg, printed_pct;
  };
  for (const Row& row :
       {Row{400, 6.5, 1.62}, Row{400, 7.0, 1.75}, Row{400, 12.0, 3.00}, Row{400, 12.7, 3.17}, Row{400, 17.3, 4.32},
        Row{12.5, 0.7, 5.6}, Row{50, 1.6, 3.2}, Row{100, 2.9, 2.9}, Row{200, 5.6, 2.8}, Row{800, 9.7, 1.2}}) {
    const ProofLoss loss = loss_of_proofs({{{}, mg(row.silver_mg), mg(row.silver_mg - row.lost_mg), {}}});
    EXPECT_NEAR(loss.silver->in(unit::percent), row.printed_pct, 0.06) << row.silver_mg << " mg";
    EXPECT_FALSE(loss.gold);
  }
}

// Source: BER p. 145: 1 g of gold with 20 g of lead lost 1.37 to 1.92 mg, 0.16 % in the mean of 1.59 mg; very hot 6.04 to
// 6.45 mg, 0.60 to 0.65 %. 0.3 g with silver 0.3, 0.6, 0.9 g lost 0.47, 0.32, 0.17 mg: 0.157, 0.107, 0.057 %.
TEST(PublishedFire, GoldLostInCupelling) {
  const auto lost = [](double gold_mg, double silver_mg, double lost_mg) {
    return loss_of_proofs({{mg(gold_mg), mg(silver_mg), mg(gold_mg + silver_mg), mg(gold_mg - lost_mg)}}).gold->in(unit::percent);
  };
  EXPECT_NEAR(loss_of_proofs({{mg(1000), {}, mg(1000 - 1.59), {}}}).gold->in(unit::percent), 0.16, 0.005);
  EXPECT_NEAR(loss_of_proofs({{mg(1000), {}, mg(1000 - 6.04), {}}}).gold->in(unit::percent), 0.60, 0.005);
  EXPECT_NEAR(lost(300, 300, 0.47), 0.157, 0.0005);
  EXPECT_NEAR(lost(300, 600, 0.32), 0.107, 0.0005);
  EXPECT_NEAR(lost(300, 900, 0.17), 0.057, 0.0005);
}

// Source: BER p. 113, 115-116: 1.0 mg of silver in 120 g of litharge is 0.83 mg in 100 g, and 1.7 mg in 60 g is 2.8.
TEST(PublishedFire, SilverOfLithargeByLot) {
  EXPECT_NEAR(silver_brought(Grade(8.3, unit::gram_per_tonne), g(120)).in(unit::milligram), 1.0, 0.005);
  EXPECT_NEAR(silver_brought(Grade(28.33, unit::gram_per_tonne), g(60)).in(unit::milligram), 1.7, 0.005);
}

// Source: BER p. 147: 10 mg of bead, 8 mg of gold supposed, 18 mg of silver added; if 7 mg were gold it is 3.0 to 1, if 9 mg 2.1.
TEST(PublishedFire, SilverToGoldOfAnInquartedBead) {
  EXPECT_NEAR(*parting_ratio(mg(10), mg(7), mg(18)), 3.0, 0.005);
  EXPECT_NEAR(*parting_ratio(mg(10), mg(9), mg(18)), 2.1, 0.02);
  EXPECT_GE(*parting_ratio(mg(10), mg(9), mg(18)), least_parting_ratio);
}

// Source: BER p. 92, 96: 3 g of ore with 50 g of litharge; 9 g of lead gave 20 g of ore 9 g of nitre beside 80 g of red lead.
TEST(PublishedFire, ReducingTestToNitre) {
  const auto test = reducing_power_of(g(3), g(9), g(50));
  ASSERT_TRUE(test.ok());
  EXPECT_NEAR(nitre_for(g(20 * test->power - 24), 4).in(unit::gram), 9, 0.01);
}

}  // namespace
}  // namespace prillbook
