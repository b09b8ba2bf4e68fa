// SPDX-License-Identifier: GPL-3.0-or-later
// The Compare station on real notebooks: each state says what is known and what is missing.
#include <gmock/gmock.h>

#include <QtWidgets/QLabel>
#include <QtWidgets/QLineEdit>
#include <QtWidgets/QPushButton>
#include <QtWidgets/QToolButton>

#include "core/findings/finding.h"
#include "core/history/fields.h"
#include "tests/support/desk.h"
#include "tests/support/keys.h"
#include "ui/compare/compare_page.h"
#include "ui/compare/compare_station.h"
#include "ui/compare/figure_lines.h"
#include "ui/kit/interval_scale.h"
#include "ui/kit/messages.h"
#include "ui/kit/reason_line.h"
#include "ui/kit/waiting_list.h"

namespace prillbook::ui {
namespace {

using testing::HasSubstr;
using testing::Not;
using testing_support::Desk;
using testing_support::figure;
using testing_support::press;
using testing_support::write;

struct Side : testing::Test, Desk {
  CompareStation station{session};

  Side() {
    QObject::connect(&notifier, &Notifier::written, &station, &CompareStation::notebook_changed);
    station.resize(1000, 640);
    station.show();
  }
  gravity::StartedPanTest pan_22() {
    const auto panned = pan("1 kg");
    weigh(panned.bead, "22 mg");
    return panned;
  }
  fire::StartedCharge fire_9() {
    const auto charge = fire("100 g");
    weigh(charge.bead, "9 mg");
    return charge;
  }
  std::string everything() {
    station.enter();
    std::string text;
    for (const QLabel* label : station.findChildren<QLabel*>())
      if (label->isVisibleTo(&station)) text += label->text().toStdString() + "\n";
    return text;
  }
  std::string verdict() { return station.findChild<ComparePage*>()->verdict().toStdString(); }
};

// Common practice, no source: 1 kg with 22 mg of 750 ‰ is 16.5 g/t, 100 g with 9 mg of 500 ‰ is 45 g/t: 28.5 g/t apart.
TEST_F(Side, TheVerdictInWords) {
  fineness(pan_22().bead, "750");
  fineness(fire_9().bead, "500");
  const std::string text = everything();
  EXPECT_THAT(verdict(), HasSubstr("gold behind"));
  EXPECT_THAT(verdict(), HasSubstr("28"));
  EXPECT_THAT(verdict(), HasSubstr("sampling not judged"));
  EXPECT_THAT(text, HasSubstr("36.7 %"));
  EXPECT_THAT(text, HasSubstr("troy oz per short ton"));
  EXPECT_THAT(text, HasSubstr("Parting the bead would narrow it"));
  EXPECT_THAT(station.findChild<IntervalScale*>()->accessibleName().toStdString(), HasSubstr("16.5"));
  EXPECT_EQ(CompareStation::place(session).waiting(), 1);
}

TEST_F(Side, PanAloneSaysWhatToDoNext) {
  fineness(pan_22().bead, "750");
  EXPECT_THAT(everything(), HasSubstr("No charge stands: cut a portion for the fire"));
  EXPECT_THAT(verdict(), HasSubstr("16.5"));
  EXPECT_EQ(CompareStation::place(session).waiting(), 0);
}

TEST_F(Side, WithoutFinenessThereIsNoVerdict) {
  pan_22(), fire_9();
  const std::string text = everything();
  EXPECT_THAT(text, HasSubstr("pan bead of 26-0001/1 has no fineness"));
  EXPECT_THAT(text, HasSubstr("fire bead of 26-0001/2 has no fineness"));
  EXPECT_THAT(verdict(), Not(HasSubstr("left gold behind")));
}

TEST_F(Side, SpoiledAndExcludedChargesAreListedWithTheirReason) {
  fineness(pan_22().bead, "750");
  fineness(fire_9().bead, "500");
  ASSERT_TRUE(fire::set_spoiled(book, fire("30 g").charge, "cupel froze").ok());
  const auto left_out = fire("30 g");
  weigh(left_out.bead, "1 mg"), fineness(left_out.bead, "500");
  ASSERT_TRUE(readings::enter(book, history::fields::charge::excluded, left_out.charge.value, std::string("boiled over")).ok());
  const std::string text = everything();
  EXPECT_THAT(text, HasSubstr("spoiled: cupel froze"));
  EXPECT_THAT(text, HasSubstr("left out: boiled over"));
}

TEST_F(Side, NoneSeenIsALimitAndNotZero) {
  ASSERT_TRUE(weighing::set_none_seen(book, pan("1 kg").bead, true).ok());
  fineness(fire_9().bead, "500");
  const std::string text = everything();
  EXPECT_THAT(text, HasSubstr("less than"));
  EXPECT_THAT(text, Not(HasSubstr("0.0 g/t")));
}

TEST_F(Side, TailAndRemainderGiveTheHead) {
  const auto panned = pan_22();
  fineness(panned.bead, "750");
  fineness(fire_9().bead, "500");
  const PortionId tail = *gravity::weigh_product(book, panned.test, "tail", figure("960 g"), person);
  const PortionId remainder = *gravity::weigh_product(book, panned.test, "remainder", figure("35 g"), person);
  auto charge = fire("30 g", tail);
  weigh(charge.bead, "1.5 mg"), fineness(charge.bead, "500");
  charge = fire("10 g", remainder);
  weigh(charge.bead, "2 mg"), fineness(charge.bead, "500");
  const std::string text = everything();
  // Common practice, no source: 16.5 mg free, 960 g at 25 g/t and 35 g at 100 g/t are 44 mg in 1 kg; 5 g are missing.
  EXPECT_THAT(text, HasSubstr("Calculated head"));
  EXPECT_THAT(text, HasSubstr("44"));
  EXPECT_THAT(text, HasSubstr("38 % as free gold"));
  EXPECT_THAT(text, HasSubstr("5.0 g"));
}

TEST_F(Side, AFindingIsAnsweredInPlace) {
  fineness(pan_22().bead, "750");
  fineness(fire_9().bead, "500");
  station.enter();
  auto* row = station.findChild<FindingRow*>();
  ASSERT_TRUE(row);
  row->findChild<QToolButton*>()->click();
  auto* reason = station.findChild<ReasonLine*>();
  ASSERT_TRUE(reason->open());
  write(reason->field()->line(), "sulphide ore, known");
  press(reason->field()->line(), Qt::Key_Return);
  const auto findings = findings::findings_of(*connection, sample);
  ASSERT_TRUE(findings->front().answer);
  EXPECT_EQ(findings->front().answer->explanation, "sulphide ore, known");
  EXPECT_FALSE(reason->open());
}

TEST_F(Side, TheSheetIsAskedFor) {
  pan_22();
  station.enter();
  RecordRef wanted;
  QObject::connect(&station, &Station::open_requested, &station, [&](const RecordRef& ref) { wanted = ref; });
  station.findChild<ComparePage*>()->sheet_button()->click();
  EXPECT_EQ(wanted, (RecordRef{history::Entity::sample, sample.value}));
  EXPECT_FALSE(station.show_record(wanted));  // it has its own place
}

TEST_F(Side, NewestFirst) {
  pan_22();
  const SampleId second = another("Old dump");
  pan_22();
  station.enter();
  EXPECT_EQ(station.in_hand(), second);
  auto* list = station.findChild<WaitingList*>();
  EXPECT_EQ(list->rows().row_of(second.value), 0);
  press(list, Qt::Key_Down);
  EXPECT_EQ(station.in_hand().value, second.value - 1);
}

}  // namespace
}  // namespace prillbook::ui
