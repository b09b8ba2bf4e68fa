// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/custody/hand_overs.h"

#include <gtest/gtest.h>

#include "core/custody/custody_record.h"
#include "core/custody/places.h"
#include "core/custody/wanted.h"
#include "core/history/fields.h"
#include "core/portions/net_mass.h"
#include "tests/support/records.h"

namespace prillbook::custody {
namespace {

using testing_support::figure;
using testing_support::LabWithSample;

struct HandOvers : testing::Test, LabWithSample<> {
  Chain chain(SampleId id) {
    const auto held = *custody::sample(*connection, id);
    const auto found = chain_of(*connection, held, *custody::consignment(*connection, held.consignment));
    EXPECT_TRUE(found.ok()) << found.error().detail;
    return found.ok() ? *found : Chain{};
  }
  static Instant at(const std::string& text) { return *parse_iso(text); }
};

TEST_F(HandOvers, TheArrivalAloneIsAChain) {
  const Chain whole = chain(sample);
  ASSERT_EQ(whole.links.size(), 1u);
  EXPECT_EQ(whole.links[0].from, "Larch Adit Syndicate");
  EXPECT_EQ(whole.holder(), "HM");
  EXPECT_FALSE(whole.links[0].id);
  ASSERT_TRUE(whole.links[0].typed);
  EXPECT_EQ(whole.links[0].typed->who, "HM");
}

TEST_F(HandOvers, ManySamplesChangeHandsInOneGesture) {
  const SampleId second = log_sample("B", "1 kg");
  const PlaceId shelf = *add_place(book, "shelf 2");
  NewHandOver what{"HM", "TB", shelf, at("2026-05-04T16:00+02:00"), "to be crushed", {}, {}, {}, {}, person};
  const auto made = hand_over(book, {sample, second}, what);
  ASSERT_TRUE(made.ok()) << made.error().detail;
  EXPECT_EQ(made->size(), 2u);
  for (const SampleId id : {sample, second}) {
    EXPECT_EQ(chain(id).holder(), "TB");
    EXPECT_EQ(chain(id).place(), "shelf 2");
  }
  ASSERT_TRUE(book.undo().ok());
  for (const SampleId id : {sample, second}) EXPECT_EQ(chain(id).holder(), "HM") << "one gesture is taken back whole";
}

TEST_F(HandOvers, StandInTheOrderInWhichTheyHappened) {
  ASSERT_TRUE(hand_over(book, {sample}, {"TB", "HM", {}, at("2026-05-06T08:00+02:00"), {}, {}, {}, {}, {}, person}).ok());
  ASSERT_TRUE(hand_over(book, {sample}, {"HM", "TB", {}, at("2026-05-05T08:00+02:00"), {}, {}, {}, {}, {}, person}).ok());
  ASSERT_TRUE(
      hand_over(book, consignment, {"the mine", "the post", {}, at("2026-05-03T08:00+02:00"), {}, {}, {}, {}, {}, person}).ok());
  const Chain whole = chain(sample);
  ASSERT_EQ(whole.links.size(), 4u);
  EXPECT_EQ(whole.links[0].to, "the post");
  EXPECT_EQ(whole.links[2].to, "TB");
  EXPECT_EQ(whole.holder(), "HM");
}

TEST_F(HandOvers, AReceiptWrittenOutTakesThePlaceOfTheArrival) {
  const Instant arrived = custody::consignment(*connection, consignment)->arrived;
  ASSERT_TRUE(hand_over(book, consignment, {"the post", "HM", {}, arrived, {}, "4471", "intact", {}, {}, person}).ok());
  const Chain whole = chain(sample);
  ASSERT_EQ(whole.links.size(), 1u);
  EXPECT_EQ(whole.links[0].seal, "4471");
}

TEST_F(HandOvers, RefusesWhatSaysNothing) {
  EXPECT_EQ(hand_over(book, std::vector<SampleId>{}, {"HM", "TB", {}, {}, {}, {}, {}, {}, {}, {}}).error().code,
            ErrorCode::missing_key);
  EXPECT_EQ(hand_over(book, {sample}, {"HM", " ", {}, {}, {}, {}, {}, {}, {}, {}}).error().code, ErrorCode::missing_key);
  EXPECT_EQ(hand_over(book, {sample}, {"HM", "hm", {}, {}, {}, {}, {}, {}, {}, {}}).error().code, ErrorCode::conflict);
  EXPECT_EQ(hand_over(book, {sample}, {"HM", "TB", {}, {}, {}, {}, "glued", {}, {}, {}}).error().code, ErrorCode::out_of_range);
  EXPECT_EQ(hand_over(book, {SampleId{99}}, {"HM", "TB", {}, {}, {}, {}, {}, {}, {}, {}}).error().code, ErrorCode::inconsistent);
  EXPECT_EQ(chain(sample).links.size(), 1u);
}

TEST_F(HandOvers, InitialsAndNameAreOneHolder) {
  const Holders holders(*lab::people(*connection));
  EXPECT_TRUE(holders.same("HM", "hanna moss"));
  EXPECT_TRUE(holders.same(" The post", "the POST"));
  EXPECT_FALSE(holders.same("HM", "TB"));
}

TEST_F(HandOvers, PlacesHaveOneNameOnce) {
  ASSERT_TRUE(add_place(book, "shelf 2").ok());
  EXPECT_EQ(add_place(book, "shelf 2").error().code, ErrorCode::already_exists);
  EXPECT_EQ(add_place(book, " ").error().code, ErrorCode::missing_key);
  EXPECT_TRUE(place_by_name(*connection, "shelf 2").ok());
  EXPECT_EQ(place_by_name(*connection, "attic").error().code, ErrorCode::not_found);
}

TEST_F(HandOvers, PiecesAreNumberedWithinTheirConsignment) {
  ASSERT_TRUE(add_piece(book, {consignment, "sealed", "4471", "4471", "intact", {}}).ok());
  ASSERT_TRUE(add_piece(book, {consignment, "torn", {}, {}, "missing", {}}).ok());
  const auto pieces = *pieces_of(*connection, consignment);
  ASSERT_EQ(pieces.size(), 2u);
  EXPECT_EQ(pieces[1].number, 2);
  EXPECT_EQ(pieces[1].condition, "torn");
  EXPECT_EQ(add_piece(book, {consignment, "soggy", {}, {}, {}, {}}).error().code, ErrorCode::out_of_range);
  EXPECT_EQ(add_piece(book, {ConsignmentId{9}, {}, {}, {}, {}, {}}).error().code, ErrorCode::not_found);
}

TEST_F(HandOvers, MetalThatIsReturnedNamesWhoTookIt) {
  NewOwnMetal bead{sample, "bead", "returned", figure("3.2 mg"), {}, {}, {}, person};
  EXPECT_EQ(give_back(book, bead).error().code, ErrorCode::missing_key);
  bead.to_whom = "Ada Fell";
  ASSERT_TRUE(give_back(book, bead).ok());
  bead.fate = "melted";
  EXPECT_EQ(give_back(book, bead).error().code, ErrorCode::out_of_range);
  const auto metal = *own_metal_of(*connection, sample);
  ASSERT_EQ(metal.size(), 1u);
  EXPECT_EQ(metal[0].to_whom, "Ada Fell");
  EXPECT_DOUBLE_EQ(metal[0].mass->value, 0.0032);
}

TEST_F(HandOvers, AToldFigureKeepsItsWords) {
  ASSERT_TRUE(tell_figure(book, {sample, "gold", "about 45 g/t", "Ada Fell", {}, person, {}}).ok());
  EXPECT_EQ(tell_figure(book, {sample, "gold", "", "Ada Fell", {}, person, {}}).error().code, ErrorCode::missing_key);
  EXPECT_EQ(tell_figure(book, {sample, "gold", "45", " ", {}, person, {}}).error().code, ErrorCode::missing_key);
  EXPECT_EQ(told_figures_of(*connection, sample)->front().said, "about 45 g/t");
}

TEST_F(HandOvers, TheSameMarkIsSeenWithinTheConsignmentOnly) {
  log_sample(" larch ADIT n ", "1 kg");
  const auto held = *custody::sample(*connection, sample);
  const auto shared = *load_consignment_record(*connection, consignment, *lab::people(*connection));
  const auto record = load_custody_record(*connection, held, shared);
  EXPECT_EQ(record->same_mark, std::vector<std::string>{"26-0002"});
}

TEST_F(HandOvers, TestsWantedAreAListOfWords) {
  ASSERT_TRUE(set_tests_wanted(book, sample, "Fire; pan  FIRE").ok());
  EXPECT_EQ(custody::sample(*connection, sample)->tests_wanted, "pan, fire");
  EXPECT_EQ(set_tests_wanted(book, sample, "pan, tasting").error().code, ErrorCode::out_of_range);
  ASSERT_TRUE(set_tests_wanted(book, sample, "").ok());
  EXPECT_FALSE(custody::sample(*connection, sample)->tests_wanted);
}

TEST_F(HandOvers, WhatIsKeptTooLongIsListed) {
  namespace f = history::fields::sample;
  EXPECT_TRUE(retention_over(*connection, at("2027-01-01T00:00Z"), 10)->empty());
  ASSERT_TRUE(readings::enter(book, f::retain_until, sample.value, std::string("2026-08-01T12:00:00.000+02:00")).ok());
  EXPECT_TRUE(retention_over(*connection, at("2026-08-01T09:59Z"), 10)->empty());
  EXPECT_EQ(retention_over(*connection, at("2026-08-01T10:01Z"), 10)->size(), 1u);
  ASSERT_TRUE(readings::enter(book, f::disposal, sample.value, std::string("returned")).ok());
  EXPECT_TRUE(retention_over(*connection, at("2027-01-01T00:00Z"), 10)->empty());
}

struct NetMass : HandOvers {
  SampleId fresh = log_sample("C", "");
  readings::Figure received() { return custody::sample(*connection, fresh)->mass_received; }
};

TEST_F(NetMass, IsGrossLessTare) {
  ASSERT_TRUE(portions::set_gross_and_tare(book, fresh, figure("4.5 kg"), {}).ok());
  EXPECT_FALSE(received());
  ASSERT_TRUE(portions::set_gross_and_tare(book, fresh, figure("4.5 kg"), figure("120 g")).ok());
  ASSERT_TRUE(received());
  EXPECT_NEAR(received()->value, 4380, 1e-9);
  EXPECT_EQ(received()->typed, "4.38 kg");
  ASSERT_TRUE(portions::set_gross_and_tare(book, fresh, figure("4.6 kg"), figure("120 g"), "misread").ok());
  EXPECT_NEAR(received()->value, 4480, 1e-9) << "what was worked out follows its parts";
}

TEST_F(NetMass, LeavesAMassThatWasWeighed) {
  ASSERT_TRUE(portions::set_received_mass(book, fresh, figure("4.2 kg"), {}).ok());
  ASSERT_TRUE(portions::set_gross_and_tare(book, fresh, figure("4.5 kg"), figure("120 g")).ok());
  EXPECT_EQ(received()->typed, "4.2 kg");
}

TEST_F(NetMass, RefusesABagHeavierThanTheWhole) {
  EXPECT_EQ(portions::set_gross_and_tare(book, fresh, figure("120 g"), figure("4.5 kg")).error().code, ErrorCode::inconsistent);
  EXPECT_FALSE(custody::sample(*connection, fresh)->gross);
}

TEST_F(NetMass, DoesNotFallBelowWhatWasCut) {
  ASSERT_TRUE(portions::set_gross_and_tare(book, fresh, figure("2 kg"), figure("100 g")).ok());
  ASSERT_TRUE(portions::cut(book, {fresh, {}, "pan", figure("1.5 kg"), {}, person, {}}).ok());
  EXPECT_EQ(portions::set_gross_and_tare(book, fresh, figure("1.2 kg"), figure("100 g")).error().code, ErrorCode::overdrawn);
  EXPECT_NEAR(received()->value, 1900, 1e-9);
}

}  // namespace
}  // namespace prillbook::custody
