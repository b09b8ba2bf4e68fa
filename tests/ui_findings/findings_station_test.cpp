// SPDX-License-Identifier: GPL-3.0-or-later
// The findings board as hands and eyes meet it.
#include "ui/findings/findings_station.h"

#include <gtest/gtest.h>

#include <QtWidgets/QComboBox>
#include <QtWidgets/QLabel>

#include "core/custody/custody.h"
#include "tests/support/window_hand.h"
#include "ui/findings/finding_page.h"
#include "ui/findings/findings_watch.h"
#include "ui/kit/ledger.h"
#include "ui/kit/waiting_list.h"

namespace prillbook::ui {
namespace {

using namespace testing_support;

struct FindingsBench : WithApplication, testing::Test, LabWithSample<> {
  testing_support::Desk desk{*connection, book};
  std::shared_ptr<FindingsWatch> watch = std::make_shared<FindingsWatch>(desk.session);
  FindingsStation* station = nullptr;
  std::vector<RecordRef> opened;

  SampleId torn = arrived("Larch adit N, footwall", "torn");
  SampleId whole = arrived("Brindle", "sealed");

  SampleId arrived(const std::string& mark, const std::string& condition) {
    custody::NewSample fresh;
    fresh.consignment = consignment;
    fresh.mark = mark;
    fresh.condition = condition;
    fresh.mass_declared = testing_support::figure("4.55 kg");
    fresh.mass_received = testing_support::figure("4.10 kg");
    return *custody::log_sample(book, fresh);
  }
  void SetUp() override {
    book.set_author("HM");
    station = new FindingsStation(desk.session, watch);
    QObject::connect(station, &Station::open_requested, station, [this](const RecordRef& wanted) { opened.push_back(wanted); });
    show(*station);
    station->enter();
    ASSERT_TRUE(QTest::qWaitFor([this] { return watch->open() >= 0 && list()->rows().rowCount() > 0; }));
  }
  void TearDown() override { delete station; }
  bool open_are(int count) {
    return QTest::qWaitFor([&] { return watch->open() == count; });
  }
  WaitingList* list() { return station->findChild<WaitingList*>(); }
  QComboBox* choice(const QString& name) {
    for (QComboBox* box : station->findChildren<QComboBox*>())
      if (box->accessibleName() == name) return box;
    return nullptr;
  }
  void choose(const QString& name, int index) {
    choice(name)->setCurrentIndex(index);
    emit choice(name)->activated(index);
    settle();
  }
  bool says(const QString& words) {
    settle();
    for (const QLabel* label : station->findChildren<QLabel*>())
      if (label->isVisible() && label->text().contains(words)) return true;
    return false;
  }
};

TEST_F(FindingsBench, EveryOpenFindingStandsOnTheBoard) {
  EXPECT_TRUE(open_are(3)) << "short twice, torn once";
  EXPECT_EQ(list()->rows().rowCount(), 3);
  EXPECT_TRUE(says("% is missing")) << "the first is in hand";
  EXPECT_TRUE(says("What leaks from a bag"));
  EXPECT_TRUE(says("Look for sweepings"));
}

TEST_F(FindingsBench, ThePlaceCountsOnceSomebodyWentThere) {
  const StationPlace place = FindingsStation::place(desk.session);
  EXPECT_LT(place.waiting(), 0) << "not read yet";
  const std::unique_ptr<Station> there(place.make());
  there->enter();
  EXPECT_TRUE(QTest::qWaitFor([&] { return place.waiting() == 3; }));
}

TEST_F(FindingsBench, AnAnswerTypedTakesItFromTheBoardAndIsKept) {
  auto* page = station->findChild<FindingPage*>();
  page->enter();
  QTest::keyClicks(QApplication::focusWidget(), "weighed with the box");
  press(Qt::Key_Return);
  EXPECT_TRUE(open_are(2));
  choose("Which", 1);
  ASSERT_EQ(list()->rows().rowCount(), 1);
  list()->setCurrentIndex(list()->rows().index(0, 0));
  settle();
  EXPECT_TRUE(says("weighed with the box"));
  EXPECT_TRUE(says("Explained by HM"));
}

TEST_F(FindingsBench, NewEvidenceOpensItAgain) {
  const auto seen = findings::findings_of(*connection, whole)->front().finding;
  ASSERT_TRUE(findings::answer(book, seen, "told by telephone").ok());
  EXPECT_TRUE(open_are(2));
  ASSERT_TRUE(portions::set_received_mass(book, whole, testing_support::figure("4.00 kg"), "weighed again").ok());
  EXPECT_TRUE(open_are(3));
  choose("Which", 2);
  EXPECT_EQ(list()->rows().rowCount(), 1) << "the old answer is not lost";
}

TEST_F(FindingsBench, FiltersBySeverityRuleAndNumber) {
  choose("Severity", 1);
  EXPECT_EQ(list()->rows().rowCount(), 0);
  choose("Severity", 0);
  choose("Rule", choice("Rule")->findText("leaking bag"));
  EXPECT_EQ(list()->rows().rowCount(), 1);
  choose("Rule", 0);
  auto* number = station->findChild<QLineEdit*>();
  number->setText("26-0002");
  settle();
  EXPECT_EQ(list()->rows().rowCount(), 2);
  number->setText("26-9999");
  settle();
  EXPECT_EQ(list()->rows().rowCount(), 0);
}

TEST_F(FindingsBench, EnterOnTheEvidenceOpensItsRecord) {
  Ledger* evidence = station->findChild<FindingPage*>()->evidence();
  evidence->setFocus();
  evidence->setCurrentIndex(evidence->model()->index(0, 0));
  press(Qt::Key_Return);
  ASSERT_EQ(opened.size(), 1u);
  EXPECT_EQ(opened[0].entity, history::Entity::sample);
}

}  // namespace
}  // namespace prillbook::ui
