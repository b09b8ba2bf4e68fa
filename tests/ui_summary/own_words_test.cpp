// SPDX-License-Identifier: GPL-3.0-or-later
// The lab's own words and the account of a milling lot at the Summary station.
#include "ui/summary/own_words.h"

#include <SQLiteCpp/Database.h>
#include <gmock/gmock.h>

#include <QtWidgets/QLabel>
#include <QtWidgets/QPlainTextEdit>
#include <QtWidgets/QPushButton>
#include <algorithm>

#include "core/lab/own_texts.h"
#include "core/summary/gather.h"
#include "tests/support/desk.h"
#include "tests/support/summary_bench.h"
#include "ui/kit/fields.h"
#include "ui/kit/figure_entry.h"
#include "ui/summary/milling_panel.h"

namespace prillbook::ui {
namespace {

using testing::HasSubstr;
using testing_support::Desk;

struct OwnWordsTest : testing::Test, Desk {
  OwnWords panel{session};

  QPlainTextEdit* edit() { return panel.findChild<QPlainTextEdit*>(); }
  bool can_keep() { return panel.findChildren<QPushButton*>().front()->isEnabled(); }
  std::string shown() {
    std::string text;
    for (const QLabel* label : panel.findChildren<QLabel*>()) text += label->text().toStdString() + "\n";
    return text;
  }
  std::string page() { return testing_support::words_of(*summary::report_of(*connection, {&sample, 1}, clock.now())); }
};

TEST_F(OwnWordsTest, AreCheckedAsTheyAreTypedAndPrinted) {
  ASSERT_TRUE(panel.take("arrival.weighed"));
  edit()->setPlainText("On our balance it was {recieved}.");
  EXPECT_FALSE(can_keep());
  EXPECT_THAT(shown(), HasSubstr("{recieved} is no placeholder"));
  edit()->setPlainText("On our balance it was fine.");
  EXPECT_THAT(shown(), HasSubstr("{received} is left out"));
  edit()->setPlainText("On our balance it was {received}.");
  ASSERT_TRUE(can_keep());
  panel.keep();
  EXPECT_THAT(page(), HasSubstr("On our balance it was 4"));
  panel.put_back();
  EXPECT_THAT(page(), HasSubstr("We weighed 4"));
}

TEST_F(OwnWordsTest, AFigureOfALotFillsItsAccount) {
  MillingPanel milling(session);
  milling.show_sample(sample);
  const auto words = [&] {
    std::string text;
    for (const QLabel* label : milling.findChildren<QLabel*>())
      if (!label->isHidden()) text += label->text().toStdString() + "\n";
    return text;
  };
  connection->database().exec("PRAGMA query_only = ON");
  milling.begin();
  milling.show_sample(sample);
  EXPECT_THAT(words(), HasSubstr("can be read but not written")) << "also once its pages are drawn anew";
  connection->database().exec("PRAGMA query_only = OFF");
  milling.begin();
  namespace f = history::fields::milling_lot;
  const auto lot = milling::lot_of(*connection, sample).value();
  ASSERT_TRUE(lot);
  const auto enter = [&](const history::Field& field, const char* text, Measure measure) {
    ASSERT_TRUE(readings::enter(book, field, lot->id.value, readings::cell_of(testing_support::figure(text, measure))).ok());
  };
  enter(f::mass, "1000 kg", Measure::mass), enter(f::head, "20.0 g/t", Measure::grade);
  enter(f::bullion, "20.00 g", Measure::mass), enter(f::bullion_fineness, "800", Measure::fineness);
  milling.refresh();
  EXPECT_THAT(words(), HasSubstr("it lacks the grade of the tail"));
  enter(f::tail_gold, "3.00 g/t", Measure::grade), enter(f::owner_share, "75 %", Measure::share);
  milling.refresh();
  EXPECT_THAT(words(), HasSubstr("95"));  // (16 + 3) of 20 g
  EXPECT_THAT(words(), HasSubstr("12.0"));
  EXPECT_THAT(page(), HasSubstr("The account of the milling lot"));
}

// The page is drawn anew a moment after an entry; where the notebook can no longer be read, what was typed and refused
// stays in sight.
TEST_F(OwnWordsTest, AFigureOfALotStaysWhereTheNotebookCanNotBeRead) {
  MillingPanel milling(session);
  milling.show_sample(sample);
  milling.begin();
  milling.show();
  const auto fields = milling.findChildren<ReadingField*>();
  const auto found = std::find_if(fields.begin(), fields.end(), [](auto* one) { return one->label() == "Mass milled"; });
  ASSERT_NE(found, fields.end());
  ReadingField* mass = *found;
  connection->database().exec("ALTER TABLE milling_lot RENAME TO gone");
  mass->type("900");
  EXPECT_FALSE(mass->commit());
  milling.refresh();
  EXPECT_TRUE(mass->isVisible());
  EXPECT_EQ(mass->typed(), "900");
  EXPECT_TRUE(mass->refused());
  connection->database().exec("ALTER TABLE gone RENAME TO milling_lot");
  mass->type("900 kg");
  EXPECT_TRUE(mass->commit());
}

}  // namespace
}  // namespace prillbook::ui
