// SPDX-License-Identifier: GPL-3.0-or-later
// Numbered summaries at the station: begun, issued, printed again to the byte, amended with what and why.
#include "ui/summary/numbered.h"

#include <SQLiteCpp/Database.h>
#include <gmock/gmock.h>

#include <QtCore/QFile>
#include <QtWidgets/QCheckBox>
#include <QtWidgets/QComboBox>
#include <QtWidgets/QLineEdit>
#include <QtWidgets/QListWidget>
#include <QtWidgets/QTreeWidget>

#include "core/history/fields.h"
#include "tests/support/desk.h"
#include "tests/support/wait.h"
#include "ui/kit/fields.h"
#include "ui/kit/figures.h"
#include "ui/kit/messages.h"
#include "ui/summary/origins_view.h"
#include "ui/summary/summary_station.h"

namespace prillbook::ui {
namespace {

using testing::HasSubstr;
using testing_support::Desk;

struct Numbered : testing::Test, Desk {
  NumberedSummaries panel{session};

  Numbered() {
    const auto panned = pan("1 kg");
    weigh(panned.bead, "22 mg"), fineness(panned.bead, "750");
    book.set_author("HM");
    panel.show_client(client);
    panel.set_samples({sample});
  }
  std::string news() { return panel.findChild<MessageBar*>()->words().toStdString(); }
  std::string line(int row) { return panel.findChild<QListWidget*>()->item(row)->text().toStdString(); }
  // Runs the window until it is issued or refused.
  bool issued(bool over = false) {
    bool result = false;
    const auto hand = QObject::connect(&panel, &NumberedSummaries::issue_ended, [&](bool ok) { result = ok; });
    over ? panel.issue_as_preliminary() : panel.issue_chosen();
    EXPECT_TRUE(testing_support::wait_until([this] { return !panel.issuing(); }));
    QObject::disconnect(hand);
    return result;
  }
  void type(const QString& name, const QString& words) {
    for (QLineEdit* edit : panel.findChildren<QLineEdit*>())
      if (edit->accessibleName() == name) return edit->setText(words);
    ADD_FAILURE() << name.toStdString();
  }
  issue::Summary newest() { return issue::summaries(*connection).value().front(); }
  template <class Field>
  Field* field(const QString& label) {
    for (Field* one : panel.findChildren<Field*>())
      if (one->label() == label) return one;
    ADD_FAILURE() << label.toStdString();
    return nullptr;
  }
  void enter(const QString& label, const QString& words) {
    auto* one = field<TextField>(label);
    one->line()->setText(words);
    one->commit();
  }
  int lines() { return panel.findChild<QListWidget*>()->count(); }
};

TEST_F(Numbered, FromTheDraftToTheSamePdfAgain) {
  panel.begin_draft();
  ASSERT_EQ(lines(), 1) << news();
  EXPECT_THAT(line(0), HasSubstr("draft"));
  EXPECT_TRUE(issued()) << news();
  EXPECT_THAT(line(0), HasSubstr("issued"));
  prompter.path = folder.filePath("again.pdf");
  panel.print_again();
  QFile file(prompter.path);
  ASSERT_TRUE(file.open(QIODevice::ReadOnly)) << news();
  const auto kept = issue::issued_pdf(*connection, issue::summaries(*connection).value().front().id).value();
  EXPECT_EQ(file.readAll(), QByteArray::fromStdString(kept));
  EXPECT_TRUE(kept.starts_with("%PDF"));
}

TEST_F(Numbered, AStopIsAnsweredOrIssuedOver) {
  const auto fired = fire("100 g");
  weigh(fired.bead, "0.3 mg"), fineness(fired.bead, "750");
  ASSERT_TRUE(readings::enter(book, history::fields::pan_test::largest_colour, 1,
                              readings::cell_of(readings::Figure{testing_support::figure("60 um", Measure::opening)}))
                  .ok());
  panel.begin_draft();
  EXPECT_FALSE(issued());
  EXPECT_THAT(news(), HasSubstr("held back"));
  EXPECT_THAT(line(0), HasSubstr("draft"));
  EXPECT_TRUE(issued(true));
  EXPECT_THAT(line(0), HasSubstr("as preliminary")) << news();
}

TEST_F(Numbered, NobodyIssuesWithoutInitials) {
  panel.begin_draft();
  book.set_author("");
  EXPECT_FALSE(issued());
  EXPECT_THAT(news(), HasSubstr("who is working"));
  EXPECT_THAT(line(0), HasSubstr("draft"));
}

TEST_F(Numbered, AStoppedIssueLeavesTheDraft) {
  panel.begin_draft();
  panel.issue_chosen();
  ASSERT_TRUE(panel.issuing());
  panel.stop_issuing();
  EXPECT_FALSE(panel.issuing());
  EXPECT_THAT(line(0), HasSubstr("draft"));
  EXPECT_TRUE(issued()) << "it can be issued afterwards";
}

TEST_F(Numbered, AnAmendmentAsksWhatAndWhy) {
  panel.begin_draft();
  ASSERT_TRUE(issued());
  panel.amend_chosen();
  EXPECT_EQ(lines(), 1) << "it asks first";
  EXPECT_THAT(news(), HasSubstr("what is different"));
  type("What is different", "the bead");
  type("Why", "a slip");
  panel.amend_chosen();
  ASSERT_EQ(lines(), 2) << news();
  ASSERT_TRUE(issued());
  EXPECT_THAT(line(1), HasSubstr("took its place"));
}

TEST_F(Numbered, WhatIsUntickedIsHidden) {
  EXPECT_TRUE(panel.hidden().empty());
  panel.findChildren<QCheckBox*>().front()->setChecked(false);
  EXPECT_EQ(panel.hidden(), std::vector<std::string>{std::string(issue::parts().front())});
  panel.begin_draft();
  EXPECT_EQ(issue::summaries(*connection).value().front().hidden, panel.hidden());
}

TEST_F(Numbered, ADraftIsChangedByItsFields) {
  panel.begin_draft();
  enter("Title, in the place of ours", "Report on the adit");
  enter("Remarks for the client", "Bring more of it.");
  field<ChoiceField>("Language of the pages")->set_value("es");
  panel.findChildren<QCheckBox*>().front()->setChecked(false);
  const issue::Summary held = newest();
  EXPECT_EQ(held.title, "Report on the adit");
  EXPECT_EQ(held.remarks, "Bring more of it.");
  EXPECT_EQ(held.hidden.size(), 1u);
  panel.set_samples({sample, another("Dump")});
  panel.put_samples_in();
  EXPECT_EQ(newest().samples.size(), 2u) << news();
  panel.drop_draft();
  EXPECT_EQ(lines(), 0) << news();
}

TEST_F(Numbered, ATickThatIsNotWrittenIsPutBackAndSaid) {
  panel.begin_draft();
  connection->database().exec("PRAGMA query_only = ON");
  auto* box = panel.findChildren<QCheckBox*>().front();
  auto* paper = panel.findChild<QComboBox*>();
  box->setChecked(false);
  EXPECT_TRUE(box->isChecked());
  EXPECT_THAT(news(), HasSubstr("can be read but not written"));
  paper->setCurrentIndex(1);
  EXPECT_EQ(paper->currentIndex(), 0);
  connection->database().exec("PRAGMA query_only = OFF");
  box->setChecked(false);
  EXPECT_EQ(newest().hidden.size(), 1u);
}

TEST_F(Numbered, APriceIsPrintedOnceItIsWhole) {
  panel.begin_draft();
  enter("Price of gold", "2000,50");
  EXPECT_FALSE(newest().price.gold) << "its unit and day are missing";
  enter("in, as USD/ozt", "USD/ozt");
  enter("on the day, as 2026-05-04", "2026-05-04");
  EXPECT_EQ(newest().price.gold, "2000.50") << news();
  enter("Price of silver", "dear");
  EXPECT_TRUE(field<TextField>("Price of silver")->refused());
  EXPECT_FALSE(newest().price.silver);
}

// The key is made, opened and used in the window; a wrong passphrase issues nothing.
TEST_F(Numbered, IssuedWithTheLabsKey) {
  Signing& signing = panel.signing();
  panel.begin_draft();
  signing.make_key();
  EXPECT_TRUE(prompter.wishes.empty()) << "a passphrase comes first";
  type("Passphrase of the key", "a long enough one");
  prompter.path = folder.filePath("lab.prillkey");
  signing.make_key();
  ASSERT_TRUE(testing_support::wait_until([&] { return !signing.busy(); }));
  ASSERT_TRUE(signing.wish()) << "a key that was made is used";
  type("Passphrase of the key", "");
  EXPECT_FALSE(issued());
  EXPECT_THAT(news(), HasSubstr("passphrase"));
  type("Passphrase of the key", "another long one");
  EXPECT_FALSE(issued());
  EXPECT_THAT(news(), HasSubstr("does not open"));
  EXPECT_FALSE(newest().is_issued());
  type("Passphrase of the key", "a long enough one");
  EXPECT_TRUE(issued()) << news();
  const auto verdict = issue::verify(*connection, issue::issued_pdf(*connection, newest().id).value());
  EXPECT_EQ(verdict->sign, issue::Signed::valid);
  signing.make_key();
  ASSERT_TRUE(testing_support::wait_until([&] { return !signing.busy(); }));
  EXPECT_THAT(signing.findChild<MessageBar*>()->words().toStdString(), HasSubstr("never written over"));
  signing.forget_key();
  EXPECT_FALSE(signing.wish());
}

TEST_F(Numbered, AFolderThatIsNotThereIsSaid) {
  panel.begin_draft();
  ASSERT_TRUE(issued());
  prompter.path = folder.filePath("no/such/again.pdf");
  panel.print_again();
  EXPECT_THAT(news(), HasSubstr("no folder"));
}

TEST_F(Numbered, FiguresUnfoldToTheirReadings) {
  OriginsView view;
  view.show_origins({{"Gold, 26-0001/1", "16.5 g/t", "bead ÷ portion", {"a constant"}, "a book", {}, {"another"}}});
  ASSERT_EQ(view.topLevelItemCount(), 1);
  ASSERT_EQ(view.topLevelItem(0)->childCount(), 4);
  EXPECT_THAT(view.topLevelItem(0)->child(0)->text(0).toStdString(), HasSubstr("bead ÷ portion"));
}

}  // namespace
}  // namespace prillbook::ui
