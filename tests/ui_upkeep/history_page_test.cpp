// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/upkeep/history_page.h"

#include <QtCore/QTemporaryDir>
#include <QtTest/QTest>

#include "core/history/fields.h"
#include "core/readings/entry.h"
#include "tests/support/files.h"
#include "tests/support/records.h"
#include "tests/support/scripted_prompter.h"
#include "ui/upkeep/history_table.h"
#include "ui/upkeep/journal_page.h"

namespace prillbook::ui {
namespace {

using history::Entity;

struct HistoryDesk : testing_support::LabWithSample<testing_support::FileNotebook> {
  QTemporaryDir state;
  Notifier notifier{book};
  testing_support::ScriptedPrompter prompter;
  Drafts drafts{"desk", state.path()};
  Session session{*connection, book, notifier, prompter, drafts, {}};

  void correct(const std::string& mark) {
    ASSERT_TRUE(readings::enter(book, history::fields::sample::mark, sample.value, mark, "misread").ok());
  }
};

QString cell(HistoryTable& table, int row, int column) {
  return table.lines().index(row, column).data(Qt::DisplayRole).toString();
}

TEST(HistoryPageTest, OldAndNewWhoAndWhyNewestFirst) {
  HistoryDesk desk;
  desk.correct("Larch adit S");
  ASSERT_TRUE(desk.cut("1 kg", "pan").ok());
  HistoryPage page(desk.session);
  ASSERT_TRUE(page.show_record({Entity::sample, desk.sample.value}));
  auto* table = page.findChild<HistoryTable*>();
  ASSERT_EQ(page.count(), 3) << "the sample, its correction, and the portion cut from it";
  EXPECT_EQ(cell(*table, 0, HistoryModel::record_column), "portion 26-0001/1");
  EXPECT_EQ(cell(*table, 1, HistoryModel::field_column), "mark");
  EXPECT_EQ(cell(*table, 1, HistoryModel::old_column), "Larch adit N");
  EXPECT_EQ(cell(*table, 1, HistoryModel::new_column), "Larch adit S");
  EXPECT_EQ(cell(*table, 1, HistoryModel::who_column), "HM");
  EXPECT_EQ(cell(*table, 1, HistoryModel::why_column), "misread");
  EXPECT_FALSE(page.show_record({Entity::sample, 999}));
}

TEST(HistoryPageTest, WhatWasTakenBackSaysSo) {
  HistoryDesk desk;
  desk.correct("Larch adit S");
  ASSERT_TRUE(desk.book.undo().ok());
  HistoryPage page(desk.session);
  ASSERT_TRUE(page.show_record({Entity::sample, desk.sample.value}));
  auto* table = page.findChild<HistoryTable*>();
  EXPECT_EQ(cell(*table, 0, HistoryModel::why_column), "takes back");
  EXPECT_EQ(cell(*table, 1, HistoryModel::why_column), QStringLiteral("taken back · misread"));
  EXPECT_TRUE(table->lines().index(1, HistoryModel::new_column).data(Qt::FontRole).value<QFont>().strikeOut());
}

TEST(HistoryPageTest, WhatIsTypedByOthersIsShownAsWords) {
  HistoryDesk desk;
  desk.correct("<b>bold</b> & \"quoted\"");
  HistoryPage page(desk.session);
  ASSERT_TRUE(page.show_record({Entity::sample, desk.sample.value}));
  EXPECT_TRUE(page.findChild<HistoryTable*>()->whole_words().contains("&lt;b&gt;bold"));
}

TEST(JournalPageTest, ReadsPageByPageAndFilters) {
  HistoryDesk desk;
  for (int i = 0; i < 150; ++i) desk.correct("mark " + std::to_string(i));
  JournalPage page(desk.session);
  page.enter();
  EXPECT_EQ(page.count(), 100) << "a page; the rest when it is scrolled to";
  auto* table = page.findChild<HistoryTable*>();
  table->selectRow(99);
  EXPECT_GT(page.count(), 100);
  page.set_filter({.kind = Entity::client});
  EXPECT_EQ(page.count(), 1);
  page.set_filter({.words = "mark 149"});
  EXPECT_EQ(page.count(), 1);
  page.set_filter({.who = "nobody"});
  EXPECT_EQ(page.count(), 0);
  EXPECT_FALSE(page.reading());
  for (auto* words : page.findChildren<QLabel*>()) EXPECT_FALSE(words->text().contains("misread")) << "no entry is in hand";
}

TEST(JournalPageTest, EnterOpensTheRecord) {
  HistoryDesk desk;
  JournalPage page(desk.session);
  page.enter();
  RecordRef opened;
  QObject::connect(&page, &JournalPage::open_requested, [&](const RecordRef& wanted) { opened = wanted; });
  QTest::keyClick(page.findChild<HistoryTable*>(), Qt::Key_Return);
  EXPECT_EQ(opened.entity, Entity::sample);
  EXPECT_EQ(opened.record, desk.sample.value);
}

TEST(JournalPageTest, WritesWhatTheFilterLetsThrough) {
  HistoryDesk desk;
  desk.correct("=1+1, \"odd\"");
  JournalPage page(desk.session);
  page.enter();
  page.set_filter({.kind = Entity::sample});
  const std::string file = desk.folder.file("journal.csv");
  desk.prompter.files = {QString::fromStdString(file)};
  for (auto* button : page.findChildren<QPushButton*>())
    if (button->text().startsWith("Write")) button->click();
  ASSERT_TRUE(QTest::qWaitFor([&] { return !page.writing(); }, 30'000));
  const std::string text = testing_support::file_text(file);
  EXPECT_TRUE(text.starts_with("entry,change_set,when,who,gesture,kind,record,field,old,new,why,standing\r\n"));
  EXPECT_EQ(std::count(text.begin(), text.end(), '\n'), 3) << text;
  EXPECT_NE(text.find("\"'=1+1, \"\"odd\"\"\""), std::string::npos) << "no spreadsheet runs it: " << text;
  EXPECT_NE(text.find(",sample,26-0001,mark,Larch adit N,"), std::string::npos) << text;
}

}  // namespace
}  // namespace prillbook::ui
