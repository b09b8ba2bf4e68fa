// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/labels/label.h"

#include <gmock/gmock.h>

#include "core/fire/charge_record.h"
#include "core/history/fields.h"
#include "core/lab/settings.h"
#include "core/labels/code.h"
#include "tests/support/records.h"

namespace prillbook::labels {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

const std::vector<LabelKind> every_kind{LabelKind::bag, LabelKind::portion, LabelKind::charge, LabelKind::reject,
                                        LabelKind::lead_waste};

struct Labels : testing::Test, testing_support::LabWithSample<> {
  std::vector<Label> of_sample(const std::vector<LabelKind>& kinds = every_kind) {
    auto list = labels_of(*connection, sample, kinds);
    EXPECT_TRUE(list.ok());
    return list.ok() ? *std::move(list) : std::vector<Label>{};
  }
  void remark(const std::string& words) {
    ASSERT_TRUE(readings::enter(book, history::fields::sample::remarks, sample.value, history::Value{words}).ok());
  }
};

TEST_F(Labels, ABagSaysWhoseItIs) {
  ASSERT_TRUE(lab::set_setting(book, "lab.name", "Fernhill Assay").ok());
  const auto list = of_sample({LabelKind::bag});
  ASSERT_EQ(list.size(), 1u);
  EXPECT_EQ(list[0].code, "PB1:S:26-0001");
  EXPECT_EQ(list[0].number, "26-0001");
  EXPECT_EQ(list[0].mark, "Larch adit N");
  EXPECT_EQ(list[0].client, "Larch Adit Syndicate");
  EXPECT_EQ(list[0].mass, "4 kg");
  EXPECT_EQ(list[0].date, "2026-05-04");
  EXPECT_EQ(list[0].lab, "Fernhill Assay");
  EXPECT_THAT(list[0].hazards, IsEmpty()) << "nothing is recorded";
}

TEST_F(Labels, APortionSaysWhatItIsFor) {
  ASSERT_TRUE(cut("1 kg", "pan").ok());
  ASSERT_TRUE(cut("30 g", "fire").ok());
  ASSERT_TRUE(cut("500 g", "reject").ok());
  const auto portions = of_sample({LabelKind::portion});
  ASSERT_EQ(portions.size(), 2u);
  EXPECT_EQ(portions[0].code, "PB1:P:26-0001/1");
  EXPECT_EQ(portions[0].what, "pan");
  EXPECT_EQ(portions[0].mass, "1 kg");
  EXPECT_EQ(portions[1].mass, "30 g");
  const auto rejects = of_sample({LabelKind::reject});
  ASSERT_EQ(rejects.size(), 1u);
  EXPECT_EQ(rejects[0].number, "26-0001/3");
  EXPECT_EQ(rejects[0].client, "Larch Adit Syndicate");
}

TEST_F(Labels, FiguresTakeTheMarkOfTheLab) {
  ASSERT_TRUE(lab::set_setting(book, "decimal_mark", ",").ok());
  ASSERT_TRUE(cut("29.97 g", "fire").ok());
  EXPECT_EQ(of_sample({LabelKind::portion})[0].mass, "29,97 g");
}

TEST_F(Labels, WhatComesOutOfTheFurnaceHoldsLead) {
  const PortionId portion = cut("30 g", "fire").value();
  EXPECT_THAT(of_sample({LabelKind::charge, LabelKind::lead_waste}), IsEmpty()) << "nothing was fused";
  ASSERT_TRUE(fire::start_charge(book, {portion, {}, person, {}, {}, {}}).ok());
  const auto list = of_sample({LabelKind::charge, LabelKind::lead_waste});
  ASSERT_EQ(list.size(), 2u);
  EXPECT_EQ(list[0].code, "PB1:C:26-0001/1");
  EXPECT_THAT(list[0].hazards, ElementsAre("lead"));
  EXPECT_EQ(list[1].what, "lead waste");
  EXPECT_EQ(list[1].code, "") << "waste of many charges stands for none";
  const auto of_portion = labels_of(*connection, portion, every_kind);
  ASSERT_TRUE(of_portion.ok());
  EXPECT_EQ(of_portion->size(), 2u);
}

TEST_F(Labels, ARecordedHazardStandsOnEveryLabel) {
  remark("Old tailings: may hold Mercury and cyanided slime");
  ASSERT_TRUE(cut("1 kg", "pan").ok());
  for (const Label& label : of_sample({LabelKind::bag, LabelKind::portion}))
    EXPECT_THAT(label.hazards, ElementsAre("mercury", "cyanide")) << label.number;
}

TEST(Hazards, AreTheWordsOfTheRemark) {
  EXPECT_THAT(hazards_in("arsenopyrite with stibnite, tellurides seen"), ElementsAre("arsenic", "antimony", "tellurium"));
  EXPECT_THAT(hazards_in("concentrate was amalgamated; AMALGAM, mercury"), ElementsAre("mercury"));
  EXPECT_THAT(hazards_in("no mercury, without lead"), IsEmpty());
  EXPECT_THAT(hazards_in("no mercury but lead"), ElementsAre("lead"));
  EXPECT_THAT(hazards_in("leading edge of the placid vein"), IsEmpty()) << "words that only sound alike";
  EXPECT_THAT(hazards_in(""), IsEmpty());
}

TEST_F(Labels, AConsignmentGivesTheLabelsOfItsSamples) {
  log_sample("Larch adit S", "");
  const auto list = labels_of(*connection, consignment, {LabelKind::bag});
  ASSERT_TRUE(list.ok());
  ASSERT_EQ(list->size(), 2u);
  EXPECT_EQ((*list)[1].number, "26-0002");
  EXPECT_EQ((*list)[1].mass, "") << "not weighed";
  EXPECT_EQ(labels_of(*connection, ConsignmentId{99}, every_kind).error().code, ErrorCode::not_found);
  EXPECT_EQ(labels_of(*connection, SampleId{99}, every_kind).error().code, ErrorCode::not_found);
  EXPECT_EQ(labels_of(*connection, PortionId{99}, every_kind).error().code, ErrorCode::not_found);
}

TEST_F(Labels, AConsignmentHasOneBoxOfWaste) {
  for (int i = 0; i < 2; ++i) {
    ASSERT_TRUE(fire::start_charge(book, {cut("30 g", "fire").value(), {}, person, {}, {}, {}}).ok());
    sample = log_sample("Larch adit S", "1 kg");
  }
  const auto list = labels_of(*connection, consignment, {LabelKind::bag, LabelKind::lead_waste});
  ASSERT_TRUE(list.ok());
  ASSERT_EQ(list->size(), 4u) << "three bags and one box";
  EXPECT_EQ(list->back().kind, LabelKind::lead_waste);
}

TEST_F(Labels, EveryCodeLeadsBack) {
  const PortionId portion = cut("30 g", "fire").value();
  ASSERT_TRUE(fire::start_charge(book, {portion, {}, person, {}, {}, {}}).ok());
  for (const Label& label : of_sample({LabelKind::bag, LabelKind::portion, LabelKind::charge})) {
    const auto code = parse_code(label.code);
    ASSERT_TRUE(code.ok()) << label.code;
    EXPECT_TRUE(find(*connection, *code).ok()) << label.code;
  }
}

TEST(LabelKinds, HaveNames) {
  for (const LabelKind kind : every_kind) EXPECT_EQ(kind_by_name(kind_name(kind)).value(), kind);
  EXPECT_EQ(kind_by_name("crate").error().code, ErrorCode::out_of_range);
}

}  // namespace
}  // namespace prillbook::labels
