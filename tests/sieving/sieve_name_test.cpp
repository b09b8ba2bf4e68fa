// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/sieving/sieve_name.h"

#include <gmock/gmock.h>
#include <rapidcheck/gtest.h>

#include "core/units/units.h"

namespace prillbook {
namespace {

using testing::HasSubstr;

double um(const NamedSieve& sieve) { return sieve.opening.in(unit::micrometre); }

Result<NamedSieve> named(std::string_view text, std::optional<SieveSeries> series = {}) {
  return read_sieve_name(text, series, DecimalMark::point);
}

struct Reading {
  const char* text;
  const char* name;
  double um;
  std::optional<SieveSeries> series;
};

class SieveNames : public testing::TestWithParam<Reading> {};

TEST_P(SieveNames, AreUnderstood) {
  const auto sieve = named(GetParam().text);
  ASSERT_TRUE(sieve.ok()) << sieve.error().detail;
  EXPECT_EQ(sieve->name, GetParam().name);
  EXPECT_NEAR(um(*sieve), GetParam().um, 1e-9);
  EXPECT_EQ(sieve->series, GetParam().series);
}

INSTANTIATE_TEST_SUITE_P(AsPeopleWriteThem, SieveNames,
                         testing::Values(Reading{"200 ASTM", "200", 75, SieveSeries::astm_e11},
                                         Reading{"No. 200 astm e11", "200", 75, SieveSeries::astm_e11},
                                         Reading{"ASTM #200", "200", 75, SieveSeries::astm_e11},
                                         Reading{"10 mesh Tyler", "10", 1700, SieveSeries::tyler},
                                         Reading{"3 1/2 ASTM", "3.5", 5600, SieveSeries::astm_e11},
                                         Reading{"75 µm", "75 µm", 75, {}}, Reading{"75um", "75 µm", 75, {}},
                                         Reading{"1,18 mm", "1.18 mm", 1180, {}},
                                         Reading{"150 µm ISO 3310-1", "150 µm", 150, SieveSeries::iso_3310_1}));

TEST(SieveName, AMeshNumberWithoutItsSeriesIsAskedNeverGuessed) {
  for (const char* number : {"10", "12", "14", "16", "35", "200", "60 mesh"}) {
    const auto sieve = named(number);
    ASSERT_FALSE(sieve.ok()) << number;
    EXPECT_EQ(sieve.error().code, ErrorCode::ambiguous);
    EXPECT_EQ(sieve.error().field, "sieve.series");
    EXPECT_EQ(sieve.error().arguments.size(), 2u);
  }
  EXPECT_EQ(named("10").error().arguments[1], "2 mm in ASTM E11 or 1.7 mm in Tyler");
  EXPECT_EQ(named("200").error().arguments[1], "75 µm in ASTM E11 and in Tyler");
  EXPECT_EQ(named("65").error().arguments[1], "212 µm in Tyler");
  EXPECT_TRUE(named("10", SieveSeries::tyler).ok()) << "the series may be said elsewhere";
}

TEST(SieveName, RefusesWhatIsNoSieve) {
  EXPECT_EQ(named("").error().code, ErrorCode::missing_key);
  EXPECT_EQ(named("fine").error().code, ErrorCode::not_a_number);
  EXPECT_EQ(named("0 µm").error().code, ErrorCode::out_of_range);
  EXPECT_EQ(named("-75 µm").error().code, ErrorCode::out_of_range);
  EXPECT_EQ(named("75 g").error().code, ErrorCode::not_a_number) << "a mass is no opening";
  EXPECT_EQ(named("75g").error().code, ErrorCode::unknown_unit);
  EXPECT_EQ(named("7").error().code, ErrorCode::ambiguous);
  EXPECT_EQ(named("77 mesh").error().code, ErrorCode::not_found) << "no series has it";
  EXPECT_EQ(named("65 ASTM").error().code, ErrorCode::not_found);
  EXPECT_EQ(named("200 ISO").error().code, ErrorCode::not_found) << "ISO names sieves by opening";
  EXPECT_EQ(named("75 µm, 150 µm").error().code, ErrorCode::wrong_type);
  EXPECT_EQ(named("\xff").error().code, ErrorCode::not_a_number);
}

TEST(SieveName, SeveralShareAUnitOrASeries) {
  const auto by_number = read_sieve_names("20, 60, 100 ASTM", {}, DecimalMark::point);
  ASSERT_TRUE(by_number.ok());
  ASSERT_EQ(by_number->size(), 3u);
  EXPECT_DOUBLE_EQ(um((*by_number)[0]), 850);
  EXPECT_DOUBLE_EQ(um((*by_number)[2]), 150);
  const auto leading = read_sieve_names("Tyler 10 16", {}, DecimalMark::point);
  ASSERT_TRUE(leading.ok());
  EXPECT_DOUBLE_EQ(um((*leading)[1]), 1000);
  const auto mixed = read_sieve_names("1.18 mm; 850 250 µm", {}, DecimalMark::comma);
  ASSERT_TRUE(mixed.ok());
  EXPECT_DOUBLE_EQ(um((*mixed)[0]), 1180);
  EXPECT_DOUBLE_EQ(um((*mixed)[1]), 850);
  const auto twice = read_sieve_names("200 ASTM, 75 µm", {}, DecimalMark::point);
  EXPECT_EQ(twice.error().code, ErrorCode::conflict);
  EXPECT_EQ(twice.error().arguments.front(), "75 µm");
}

TEST(SieveName, InWords) {
  EXPECT_EQ(sieve_in_words("200", SieveSeries::astm_e11, Opening(75, unit::micrometre)), "75 µm (200 ASTM E11)");
  EXPECT_EQ(sieve_in_words("75 µm", SieveSeries::iso_3310_1, Opening(75, unit::micrometre)), "75 µm (ISO 3310-1)");
  EXPECT_EQ(sieve_in_words("1.18 mm", {}, Opening(1180, unit::micrometre), DecimalMark::comma), "1,18 mm");
  EXPECT_EQ(size_in_words(Opening(212.4, unit::micrometre)), "212 µm");
  EXPECT_EQ(size_in_words(Opening(37.46, unit::micrometre)), "37.5 µm");
  EXPECT_EQ(size_in_words(Opening(1184, unit::micrometre), DecimalMark::comma), "1,18 mm");
}

TEST(SieveName, SizesThatLieBetween) {
  std::vector<double> sizes;
  for (const Opening size : sizes_between(SieveSeries::astm_e11, Opening(150, unit::micrometre), Opening(600, unit::micrometre)))
    sizes.push_back(size.in(unit::micrometre));
  EXPECT_THAT(sizes, testing::ElementsAre(500, 425, 355, 300, 250, 212, 180));
}

// Whatever is typed: a sieve with an opening above 0, or an error that names a field.
RC_GTEST_PROP(SieveName, TakesAnyText, ()) {
  const auto words = *rc::gen::container<std::vector<std::string>>(rc::gen::element<std::string>(
      "75", "10", "-3", "1,18", "µm", "mm", "ASTM", "tyler", "iso", "#", ";", ",", "1/2", "e9", "no.", "zz"));
  std::string text;
  for (const std::string& word : words) text += word + (*rc::gen::inRange(0, 2) ? " " : "");
  const auto sieves = read_sieve_names(text, {}, DecimalMark::point);
  if (!sieves.ok()) {
    RC_ASSERT(sieves.error().field.starts_with("sieve."));
    return;
  }
  for (const NamedSieve& sieve : *sieves) {
    RC_ASSERT(sieve.opening > Opening());
    RC_ASSERT(!sieve.name.empty());
  }
}

// Every mesh number of every series is read back from its own words.
TEST(SieveName, EveryNumberOfTheTableIsReadBack) {
  for (const Mesh& mesh : mesh_table())
    for (const auto& [number, series] :
         {std::pair(mesh.astm_number, SieveSeries::astm_e11), std::pair(mesh.tyler_mesh, SieveSeries::tyler)}) {
      if (number.empty()) continue;
      const auto sieve = named(std::string(number) + " " + std::string(series_words(series)));
      ASSERT_TRUE(sieve.ok()) << number;
      EXPECT_DOUBLE_EQ(um(*sieve), mesh.opening_um) << number;
      EXPECT_EQ(find_sieve_series(contract_name(series)), series);
    }
}

}  // namespace
}  // namespace prillbook
