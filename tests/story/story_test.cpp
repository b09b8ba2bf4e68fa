// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/story/story.h"

#include <gmock/gmock.h>

#include "core/history/fields.h"
#include "tests/support/records.h"

namespace prillbook::story {
namespace {

using testing::ElementsAre;
using testing_support::figure;
using testing_support::LabWithSample;

std::vector<Event> told(LabWithSample<>& lab) {
  const auto record = results::load_sample_record(*lab.connection, lab.sample);
  EXPECT_TRUE(record.ok());
  auto events = story_of(*lab.connection, *record);
  EXPECT_TRUE(events.ok());
  return *events;
}

std::vector<EventKind> kinds(const std::vector<Event>& events) {
  std::vector<EventKind> list;
  for (const Event& event : events) list.push_back(event.kind);
  return list;
}

TEST(Story, APanOnlyJobIsFourEvents) {
  LabWithSample<> lab;
  const PortionId portion = *lab.cut("500 g", "pan");
  const auto pan = *gravity::start_pan_test(lab.book, {portion, {}, lab.person, {}});
  ASSERT_TRUE(weighing::weigh(lab.book, {pan.bead, "bead", figure("6.2 mg"), lab.balance, {}, lab.person}).ok());
  const auto events = told(lab);
  EXPECT_THAT(kinds(events), ElementsAre(EventKind::arrived, EventKind::portion_cut, EventKind::panned, EventKind::weighed));
  EXPECT_EQ(events[1].portion, portion);
  EXPECT_EQ(events[3].who, "HM");
}

TEST(Story, HandOversMetalAndToldFiguresStandWhereTheyHappened) {
  LabWithSample<> lab;
  const Instant evening = *parse_iso("2026-05-04T20:00+02:00");
  ASSERT_TRUE(custody::hand_over(lab.book, {lab.sample}, {"HM", "TB", {}, evening, {}, {}, {}, {}, {}, lab.person}).ok());
  ASSERT_TRUE(custody::give_back(lab.book, {lab.sample, "bead", "kept", {}, {}, {}, {}, lab.person}).ok());
  ASSERT_TRUE(custody::tell_figure(lab.book, {lab.sample, "gold", "45", "Ada Fell", {}, lab.person, {}}).ok());
  const auto events = told(lab);
  EXPECT_THAT(kinds(events), ElementsAre(EventKind::arrived, EventKind::own_metal, EventKind::told, EventKind::handed_over));
  EXPECT_FALSE(events[1].typed) << "written when it happened";
  ASSERT_TRUE(events[3].typed) << "written eleven hours from when it happened";
  EXPECT_LT(events[3].typed->utc_ms, evening.utc_ms);
}

TEST(Story, ACorrectionNamesTheFieldBothFiguresAndTheReason) {
  LabWithSample<> lab;
  const PortionId portion = *lab.cut("500 g", "pan");
  ASSERT_TRUE(portions::set_mass(lab.book, portion, figure("505 g"), "read from the wrong line").ok());
  const auto events = told(lab);
  ASSERT_EQ(kinds(events).back(), EventKind::corrected);
  const Event& last = events.back();
  EXPECT_EQ(last.field, &history::fields::portion::mass);
  EXPECT_EQ(last.why, "read from the wrong line");
  EXPECT_EQ(readings::decode(std::get<std::string>(last.before), Measure::mass)->typed, "500 g");
  EXPECT_EQ(readings::decode(std::get<std::string>(last.after), Measure::mass)->typed, "505 g");
}

TEST(Story, WhatIsFilledInLaterIsNoCorrection) {
  LabWithSample<> lab;
  ASSERT_TRUE(readings::enter(lab.book, history::fields::sample::place, lab.sample.value, std::string("north drive")).ok());
  EXPECT_THAT(kinds(told(lab)), ElementsAre(EventKind::arrived));
}

TEST(Story, SpoiledAndFinenessStandOnce) {
  LabWithSample<> lab;
  const PortionId portion = *lab.cut("30 g", "fire");
  const auto charge = *fire::start_charge(lab.book, {portion, {}, lab.person, {}, {}, {}});
  ASSERT_TRUE(fire::set_spoiled(lab.book, charge.charge, "pot cracked").ok());
  ASSERT_TRUE(weighing::set_fineness(lab.book, charge.bead, "stated", figure("900 ‰", Measure::fineness),
                                     figure("5 ‰", Measure::fineness))
                  .ok());
  EXPECT_THAT(kinds(told(lab)),
              ElementsAre(EventKind::arrived, EventKind::portion_cut, EventKind::fired, EventKind::spoiled, EventKind::fineness));
}

TEST(Story, WhatHappenedEarlierAndWasTypedLaterStandsWhereItHappened) {
  LabWithSample<> lab;
  const PortionId first = *lab.cut("500 g", "pan");
  portions::NewPortion yesterday{lab.sample, {}, "retain", figure("1 kg"), parse_iso("2026-05-03T10:00+02:00").value(),
                                 lab.person, {}};
  const PortionId second = *portions::cut(lab.book, yesterday);
  const auto events = told(lab);
  EXPECT_EQ(events.front().portion, second);
  EXPECT_EQ(events.back().portion, first);
}

TEST(Story, WhatWasTakenBackIsNotTold) {
  LabWithSample<> lab;
  ASSERT_TRUE(lab.cut("500 g", "pan").ok());
  ASSERT_TRUE(lab.book.undo().ok());
  EXPECT_THAT(kinds(told(lab)), ElementsAre(EventKind::arrived));
}

}  // namespace
}  // namespace prillbook::story
