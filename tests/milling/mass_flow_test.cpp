// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/milling/mass_flow.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>

#include "tests/support/masses.h"
#include "tests/support/records.h"

namespace prillbook::milling {
namespace {

using testing_support::figure;

FlowInput sample_of(const std::string& mass) {
  FlowInput input;
  input.sample = SampleId{1};
  input.number = "26-0001";
  input.mass = figure(mass);
  return input;
}

Step step_at(std::int64_t id, const std::string& kind, const std::string& in, std::int64_t minute, PortionId portion = {}) {
  Step step;
  step.id = StepId{id};
  step.sample = SampleId{1};
  step.portion = portion;
  step.kind = kind;
  step.mass_in = figure(in);
  step.done_at = {minute * 60'000, 0};
  return step;
}

portions::Portion part(std::int64_t id, const std::string& mass, std::int64_t minute, StepId step = {}, PortionId parent = {}) {
  portions::Portion portion;
  portion.id = PortionId{id};
  portion.sample = SampleId{1};
  portion.parent = parent;
  portion.number = id;
  portion.purpose = "split";
  portion.mass = figure(mass);
  portion.cut_at = Instant{minute * 60'000, 0};
  portion.step = step;
  return portion;
}

TEST(MassFlow, CrushedAndSplitWithItsLosses) {
  FlowInput input = sample_of("4 kg");
  Step crush = step_at(1, "crush", "4 kg", 10);
  crush.mass_out = figure("3.9 kg");
  Step split = step_at(2, "split", "3.9 kg", 20);
  split.closed = true;
  input.steps = {crush, split};
  input.portions = {part(1, "1.9 kg", 20, StepId{2}), part(2, "1.95 kg", 20, StepId{2})};
  const auto reaches = flow_of(input);
  std::vector<std::string> kinds;
  double lost = 0;
  for (const Reach& reach : reaches) {
    if (reach.kind == ReachKind::loss) lost += reach.mass.in(unit::gram);
    kinds.push_back(reach.kind == ReachKind::source  ? "source"
                    : reach.kind == ReachKind::after ? "after"
                    : reach.kind == ReachKind::part  ? "part"
                    : reach.kind == ReachKind::loss  ? "loss"
                                                     : "rest");
  }
  EXPECT_EQ(kinds, (std::vector<std::string>{"source", "after", "loss", "part", "part", "loss"}));
  EXPECT_NEAR(lost, 150, 1e-6);
  EXPECT_EQ(reaches[1].step, StepId{1});
  EXPECT_EQ(reaches[3].portion, PortionId{1});
  EXPECT_EQ(reaches[3].parent, 1);
}

TEST(MassFlow, CutsWithoutAStepAreOneForkAndTheRestFlowsOn) {
  FlowInput input = sample_of("4 kg");
  input.portions = {part(1, "1 kg", 10), part(2, "100 g", 12)};
  const auto reaches = flow_of(input);
  ASSERT_EQ(reaches.size(), 4u);
  EXPECT_EQ(reaches[3].kind, ReachKind::rest);
  EXPECT_NEAR(reaches[3].mass.in(unit::gram), 2900, 1e-6);
  EXPECT_EQ(reaches[3].sample, SampleId{1}) << "it opens the sample";
}

TEST(MassFlow, WidthsAreMasses) {
  FlowInput input = sample_of("4 kg");
  input.portions = {part(1, "1 kg", 10)};
  const auto reaches = flow_of(input);
  const FlowLayout layout = lay_out(reaches);
  EXPECT_DOUBLE_EQ(layout.places[0].width, FlowStyle{}.source_width);
  EXPECT_DOUBLE_EQ(layout.places[1].width, FlowStyle{}.source_width / 4);
  EXPECT_DOUBLE_EQ(layout.places[2].width, FlowStyle{}.source_width * 3 / 4);
  EXPECT_TRUE(lay_out({}).places.empty());
}

TEST(MassFlow, ASampleThatWasNeverWeighedIsDrawnByWhatIsKnown) {
  FlowInput input = sample_of("4 kg");
  input.mass.reset();
  input.portions = {part(1, "1 kg", 10)};
  const auto reaches = flow_of(input);
  EXPECT_FALSE(reaches[0].weighed);
  EXPECT_GT(lay_out(reaches).places[0].width, 0);
}

// Reaches of one column lie clear of one another, inside the picture, and no child leaves from outside its parent's end.
RC_GTEST_PROP(MassFlow, NothingOverlaps, ()) {
  FlowInput input = sample_of("100 kg");
  const int count = *rc::gen::inRange(0, 40);
  for (int i = 1; i <= count; ++i) {
    const int parent = *rc::gen::inRange(0, i);
    input.portions.push_back(part(i, std::to_string(*rc::gen::inRange(1, 4000)) + " g", 10 * i, {}, PortionId{parent}));
  }
  const auto reaches = flow_of(input);
  const FlowLayout layout = lay_out(reaches);
  RC_ASSERT(reaches.size() == layout.places.size());
  for (std::size_t i = 0; i < reaches.size(); ++i) {
    const ReachPlace& a = layout.places[i];
    RC_ASSERT(a.y >= 0 && a.y + a.width <= layout.height && a.x + a.length <= layout.width);
    if (reaches[i].parent >= 0) {
      const ReachPlace& up = layout.places[std::size_t(reaches[i].parent)];
      RC_ASSERT(a.from_y >= up.y - 1e-9 && a.from_y + a.from_width <= up.y + up.width + 1e-9);
    }
    for (std::size_t k = i + 1; k < reaches.size(); ++k) {
      const ReachPlace& b = layout.places[k];
      RC_ASSERT(reaches[i].depth != reaches[k].depth || a.y + a.width <= b.y + 1e-9 || b.y + b.width <= a.y + 1e-9);
    }
  }
}

}  // namespace
}  // namespace prillbook::milling
