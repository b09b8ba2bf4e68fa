// SPDX-License-Identifier: GPL-3.0-or-later
#include <gmock/gmock.h>

#include "core/history/fields.h"
#include "core/sieve_records/analyses.h"
#include "core/sieve_records/statements.h"
#include "core/units/units.h"
#include "tests/support/records.h"

namespace prillbook::sieves {
namespace {

using testing_support::figure;
using testing_support::LabWithSample;

struct SieveRecords : testing::Test, LabWithSample<> {
  SieveStackId three = *add_stack(book, "gold stack", "20, 60, 100 ASTM");

  PortionId to_sieve(const std::string& mass = "100 g") { return *cut(mass, "sieve"); }
  SieveAnalysisId begin(PortionId portion) { return *start_analysis(book, {portion, three, {}, person, {}, {}, {}}); }
  Analysis held(SieveAnalysisId id) { return *analysis(*connection, id); }
  Result<void> weigh(SieveAnalysisId id, std::size_t place, const std::string& mass) {
    return set_retained(book, held(id).cuts[place].id, figure(mass));
  }
  // 1, 47, 21 and 31 g.
  SieveAnalysisId sieved(PortionId portion) {
    const SieveAnalysisId id = begin(portion);
    for (const auto& [place, mass] : {std::pair(0, "1 g"), std::pair(1, "47 g"), std::pair(2, "21 g"), std::pair(3, "31 g")})
      EXPECT_TRUE(weigh(id, std::size_t(place), mass).ok());
    return id;
  }
};

TEST_F(SieveRecords, AStackIsMadeOfItsOpeningsAndTheLabsOwnSieves) {
  const auto stack = sieves::stack(*connection, three);
  ASSERT_TRUE(stack.ok());
  EXPECT_EQ(stack->openings_in_words(), "850 µm, 250 µm, 150 µm");
  EXPECT_EQ(stack->sieves[0].in_words(), "850 µm (20 ASTM E11)");
  const auto finer = add_stack(book, {}, "250, 150, 75 µm");
  ASSERT_TRUE(finer.ok());
  EXPECT_EQ(sieves::stack(*connection, *finer)->name, "250, 150, 75 µm") << "named by what was typed";
  EXPECT_EQ(sieves::sieves(*connection)->size(), 4u) << "250 and 150 µm are there already";
}

TEST_F(SieveRecords, AStackTakesOtherSievesAsOneGesture) {
  ASSERT_TRUE(set_stack(book, three, "850, 425, 150 µm").ok());
  EXPECT_EQ(sieves::stack(*connection, three)->openings_in_words(), "850 µm, 425 µm, 150 µm");
  ASSERT_TRUE(book.undo().ok());
  EXPECT_EQ(sieves::stack(*connection, three)->openings_in_words(), "850 µm, 250 µm, 150 µm");
  EXPECT_EQ(sieves::sieves(*connection)->size(), 3u) << "the sieve of 425 µm went with it";
}

TEST_F(SieveRecords, RefusesStacksThatAreNone) {
  EXPECT_EQ(add_stack(book, "s", "20, 60").error().code, ErrorCode::ambiguous);
  EXPECT_EQ(add_stack(book, "s", "200 ASTM, 75 µm").error().code, ErrorCode::conflict);
  EXPECT_EQ(add_stack(book, "s", "").error().code, ErrorCode::missing_key);
  EXPECT_EQ(add_stack(book, "gold stack", "75 µm").error().code, ErrorCode::already_exists);
  EXPECT_EQ(sieves::stacks(*connection)->size(), 1u) << "and nothing was written";
  EXPECT_EQ(sieves::sieves(*connection)->size(), 3u);
}

TEST_F(SieveRecords, NameSeriesAndOpeningGoTogether) {
  const SieveId id = *add_sieve(book, "10 ASTM");
  const auto sieve = [&] {
    for (const Sieve& one : *sieves::sieves(*connection))
      if (one.id == id) return one;
    return Sieve{};
  };
  EXPECT_DOUBLE_EQ(sieve().opening.in(unit::micrometre), 2000);
  ASSERT_TRUE(set_series(book, id, SieveSeries::tyler).ok());
  EXPECT_DOUBLE_EQ(sieve().opening.in(unit::micrometre), 1700) << "10 is another opening in the other series";
  EXPECT_EQ(set_series(book, id, {}).error().code, ErrorCode::ambiguous);
  EXPECT_EQ(set_series(book, id, SieveSeries::iso_3310_1).error().code, ErrorCode::not_found);
  ASSERT_TRUE(rename_sieve(book, id, "14").ok()) << "the series it has is taken";
  EXPECT_EQ(sieve().in_words(), "1.18 mm (14 Tyler)");
  ASSERT_TRUE(rename_sieve(book, id, "1,4 mm").ok());
  EXPECT_DOUBLE_EQ(sieve().opening.in(unit::micrometre), 1400);
  ASSERT_TRUE(book.undo().ok());
  EXPECT_EQ(sieve().in_words(), "1.18 mm (14 Tyler)") << "one gesture";
}

TEST_F(SieveRecords, AnAnalysisHasALineForEverySieveAndThePan) {
  const PortionId portion = to_sieve();
  const Analysis begun = held(begin(portion));
  ASSERT_EQ(begun.cuts.size(), 4u);
  EXPECT_DOUBLE_EQ(begun.cuts[0].opening->in(unit::micrometre), 850);
  EXPECT_TRUE(begun.cuts[3].is_pan());
  EXPECT_EQ(begun.sieved_by, person);
  EXPECT_TRUE(begun.sieved_at);
  EXPECT_EQ(fraction_in_words(begun, 0), "+850 µm");
  EXPECT_EQ(fraction_in_words(begun, 1), "−850 µm +250 µm");
  EXPECT_EQ(fraction_in_words(begun, 3), "−150 µm");
  EXPECT_EQ(start_analysis(book, {portion, three, {}, person, {}, {}, {}}).error().code, ErrorCode::already_exists);
}

TEST_F(SieveRecords, ASpoiledAnalysisMayBeDoneAgain) {
  const PortionId portion = to_sieve();
  const SieveAnalysisId first = begin(portion);
  ASSERT_TRUE(readings::enter(book, history::fields::sieve_analysis::spoiled, first.value, std::string("pan tipped over")).ok());
  EXPECT_EQ(count_waiting_to_sieve(*connection).value(), 1);
  EXPECT_TRUE(start_analysis(book, {portion, three, {}, person, {}, {}, {}}).ok());
}

TEST_F(SieveRecords, ItKeepsTheSieveAsItWas) {
  const SieveAnalysisId id = sieved(to_sieve());
  ASSERT_TRUE(rename_sieve(book, held(id).cuts[0].sieve, "1 mm").ok());
  EXPECT_DOUBLE_EQ(held(id).cuts[0].opening->in(unit::micrometre), 850);
}

TEST_F(SieveRecords, WhatWaitsAndWhatIsMade) {
  const PortionId portion = to_sieve(), other = to_sieve("50 g");
  EXPECT_EQ(count_waiting_to_sieve(*connection).value(), 2);
  const SieveAnalysisId id = begin(other);
  const auto waiting = waiting_to_sieve(*connection, 10);
  ASSERT_EQ(waiting->size(), 2u);
  EXPECT_EQ((*waiting)[0].analysis, id) << "what was begun first";
  EXPECT_EQ((*waiting)[1].portion, portion);
  EXPECT_EQ((*waiting)[1].number, "26-0001/1");
  sieved(portion);
  ASSERT_EQ(analyses_made(*connection, 10)->size(), 1u);
  EXPECT_EQ(count_waiting_to_sieve(*connection).value(), 1);
}

TEST_F(SieveRecords, AMassAboveThePortionIsRefused) {
  const SieveAnalysisId id = begin(to_sieve());
  EXPECT_EQ(weigh(id, 1, "102.1 g").error().code, ErrorCode::inconsistent);
  EXPECT_EQ(weigh(id, 1, "47 kg").error().field, "sieve_cut.retained");
  EXPECT_FALSE(held(id).cuts[1].retained) << "nothing was written";
  EXPECT_TRUE(weigh(id, 1, "101.9 g").ok()) << "iron and the balance are allowed for";
  EXPECT_TRUE(weigh(id, 0, "0 g").ok()) << "a sieve may be empty";
}

TEST_F(SieveRecords, TheBalanceOfThePortionWeighsTheSieves) {
  const BalanceId bench = *lab::add_balance(book, "bench", figure("0.01 g"));
  const auto mass = lab::on_balance(*connection, figure("100.00 g"), bench);
  const PortionId portion = *portions::cut(book, {sample, {}, "sieve", *mass, {}, person, {}});
  const SieveAnalysisId id = begin(portion);
  ASSERT_TRUE(weigh(id, 0, "1.02 g").ok());
  EXPECT_EQ(held(id).cuts[0].retained->balance, bench);
  EXPECT_DOUBLE_EQ(*held(id).cuts[0].retained->step_g, 0.01);
}

TEST_F(SieveRecords, FractionsArePortionsUnderTheOneThatWasSieved) {
  const PortionId portion = to_sieve();
  const SieveAnalysisId id = sieved(portion);
  const auto made = make_fractions(book, id, person);
  ASSERT_TRUE(made.ok()) << made.error().detail;
  ASSERT_EQ(made->size(), 4u);
  const auto fraction = portions::portion(*connection, (*made)[1]);
  EXPECT_EQ(fraction->purpose, "fraction");
  EXPECT_EQ(fraction->parent, portion);
  EXPECT_DOUBLE_EQ(fraction->mass->mass().in(unit::gram), 47);
  EXPECT_EQ(fraction->remarks, "−850 µm +250 µm");
  ASSERT_TRUE(weigh(id, 1, "46.5 g").ok());
  EXPECT_DOUBLE_EQ(portions::portion(*connection, (*made)[1])->mass->mass().in(unit::gram), 46.5) << "one mass, one command";
  EXPECT_EQ(weigh(id, 1, "0 g").error().code, ErrorCode::out_of_range);
  EXPECT_TRUE(make_fractions(book, id, person)->empty()) << "each once";
  EXPECT_TRUE(portions::cut(book, {sample, (*made)[1], "fire", figure("30 g"), {}, person, {}}).ok());
}

TEST_F(SieveRecords, AnEmptySieveGivesNoFraction) {
  const SieveAnalysisId id = begin(to_sieve());
  ASSERT_TRUE(weigh(id, 0, "0 g").ok());
  ASSERT_TRUE(weigh(id, 1, "50 g").ok());
  EXPECT_EQ(make_fractions(book, id, person)->size(), 1u);
}

TEST(SieveStatements, AllCompile) {
  const auto connection = store::Connection::in_memory().value();
  for (const store::Sql* statement : sieve_records::sql::all)
    EXPECT_TRUE(connection->prepare_only(*statement).ok()) << statement->name;
}

}  // namespace
}  // namespace prillbook::sieves
