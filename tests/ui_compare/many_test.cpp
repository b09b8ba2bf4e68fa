// SPDX-License-Identifier: GPL-3.0-or-later
// Many samples side by side, draws on request, and the next test worth doing.
#include <gmock/gmock.h>

#include <QtTest/QTest>
#include <QtWidgets/QComboBox>
#include <QtWidgets/QLabel>
#include <QtWidgets/QTableWidget>

#include "core/history/fields.h"
#include "core/summary/gather.h"
#include "core/summary/next_test.h"
#include "core/summary/words.h"
#include "tests/support/desk.h"
#include "ui/compare/compare_station.h"
#include "ui/compare/draws_panel.h"
#include "ui/compare/many_chart.h"
#include "ui/compare/many_page.h"
#include "ui/kit/sentences.h"

namespace prillbook::ui {
namespace {

using testing::HasSubstr;
using testing_support::figure;

struct ManySamples : testing::Test, testing_support::Desk {
  CompareStation station{session};

  // Pan of 1 kg and a charge of 30 g, each with a touchstone fineness.
  void tested(const std::string& pan_mg, const std::string& fire_mg) {
    const auto panned = pan("1 kg");
    weigh(panned.bead, pan_mg), fineness(panned.bead, "800");
    const auto fired = fire("30 g");
    weigh(fired.bead, fire_mg), fineness(fired.bead, "700");
  }
  void show_all() {
    station.resize(1100, 760);
    station.show();
    station.show_many(true);
    ASSERT_TRUE(QTest::qWaitFor([this] { return station.many()->owed() == 0; }));
  }
  void choose(const QString& name, int index) {
    for (QComboBox* box : station.many()->findChildren<QComboBox*>())
      if (box->accessibleName() == name) box->setCurrentIndex(index), emit box->activated(index);
  }
  std::string cell(int row, int column) { return station.many()->table()->item(row, column)->text().toStdString(); }
};

TEST_F(ManySamples, EverySampleWithBothStandsInTheTableAndThePicture) {
  tested("22 mg", "0.9 mg");
  another("Brindle");
  tested("5 mg", "0.6 mg");
  another("pan alone");
  pan("1 kg");
  show_all();
  ASSERT_EQ(station.many()->table()->rowCount(), 2);
  EXPECT_EQ(cell(0, 0), "26-0002");
  EXPECT_THAT(cell(0, 5), HasSubstr("left behind"));
  EXPECT_THAT(cell(0, 2), HasSubstr("4.0")) << "5 mg at 800 in 1 kg";
  station.many()->chart()->grab();
  EXPECT_TRUE(station.many()->chart()->place_of(sample) == std::nullopt);
  EXPECT_TRUE(station.many()->chart()->place_of(SampleId{1}).has_value());
  choose("Picture", 1);
  station.many()->chart()->grab();
  const auto low = station.many()->chart()->place_of(SampleId{2}), high = station.many()->chart()->place_of(SampleId{1});
  EXPECT_GT(low->y(), high->y()) << "the smaller recovery lies lower";
}

TEST_F(ManySamples, EnterOpensTheSampleInHand) {
  tested("22 mg", "0.9 mg");
  another("Brindle");
  tested("5 mg", "0.6 mg");
  show_all();
  station.many()->table()->setCurrentCell(1, 0);
  QTest::keyClick(station.many()->table(), Qt::Key_Return);
  EXPECT_EQ(station.in_hand(), SampleId{1});
}

TEST_F(ManySamples, NothingToCompareSaysSo) {
  show_all();
  EXPECT_EQ(station.many()->table()->rowCount(), 0);
  station.many()->chart()->grab();
}

TEST_F(ManySamples, DrawsAreMadeOnAWorkerAndKeepTheirSeed) {
  tested("22 mg", "0.9 mg");
  station.show();
  station.take(sample);
  auto* panel = station.findChild<DrawsPanel*>();
  panel->set_draws(20'000);
  panel->draw_or_stop();
  EXPECT_TRUE(panel->drawing());
  ASSERT_TRUE(QTest::qWaitFor([panel] { return !panel->drawing(); }, 60'000));
  const QString words = panel->findChild<QLabel*>()->text();
  EXPECT_THAT(words.toStdString(), HasSubstr("20000 draws with seed 1"));
  EXPECT_THAT(words.toStdString(), HasSubstr("first order"));
  panel->draw_or_stop();
  panel->draw_or_stop();
  ASSERT_TRUE(QTest::qWaitFor([panel] { return !panel->drawing(); }, 60'000));
  EXPECT_THAT(panel->findChild<QLabel*>()->text().toStdString(), testing::AnyOf(HasSubstr("Stopped"), testing::IsEmpty()));
}

TEST_F(ManySamples, TheNextTestNamesWhatItTakes) {
  tested("5 mg", "0.9 mg");
  const auto before = summary::next_test(*summary::gather(*connection, sample));
  ASSERT_TRUE(before);
  EXPECT_THAT(before->words, HasSubstr("remainder and the tail"));
  EXPECT_FALSE(before->costs);
  another("no gap");
  tested("20 mg", "0.7 mg");
  const auto sampling = summary::next_test(*summary::gather(*connection, sample));
  ASSERT_TRUE(sampling);
  EXPECT_THAT(sampling->words, HasSubstr("largest colour")) << "sampling is not judged yet";
  ASSERT_TRUE(readings::enter(book, history::fields::pan_test::largest_colour, 2,
                              readings::cell_of(readings::Figure{figure("200 um", Measure::opening)}))
                  .ok());
  const auto after = summary::next_test(*summary::gather(*connection, sample));
  EXPECT_THAT(after->words, HasSubstr("three more charges"));
  EXPECT_NEAR(after->costs->in(unit::gram), 90, 1e-9);
  EXPECT_EQ(summary::cost_words(*after, DecimalMark::point), "It takes 90.0 g of the 2.97 kg of rock that are left uncut.");
}

TEST_F(ManySamples, AnotherFinenessIsExplainedAndNotAveraged) {
  tested("22 mg", "0.9 mg");
  EXPECT_THAT(summary::silver_sentence(*summary::gather(*connection, sample), DecimalMark::point),
              HasSubstr("800 ‰ in the pan, 700 ‰ by fire"));
}

}  // namespace
}  // namespace prillbook::ui
