// SPDX-License-Identifier: GPL-3.0-or-later
// A table of more records than a page holds: every one within reach of the keyboard, one page of them made of fields.
#include "ui/setup/record_table.h"

#include <fmt/format.h>
#include <gmock/gmock.h>

#include <QtWidgets/QLabel>
#include <set>

#include "core/lab/lab.h"
#include "tests/support/window_hand.h"
#include "ui/setup/page_line.h"
#include "ui/setup/tables.h"

namespace prillbook::ui {
namespace {

using namespace testing_support;

struct LongTable : WithApplication, testing::Test {
  static constexpr int clients = 60, page = PageLine::page_size;
  MemoryNotebook notebook;
  Desk desk{*notebook.connection, *notebook.journal};
  std::unique_ptr<RecordTable> table;

  LongTable() {
    for (int number = 1; number <= clients; ++number) add(number);
    table.reset(clients_table(desk.session, Columns::all));
    QObject::connect(&desk.notifier, &Notifier::written, table.get(), [this] { table->refresh(); });
    testing_support::show(*table);
  }
  void add(int number) { ASSERT_TRUE(lab::add_client(*notebook.journal, fmt::format("Adit {:03}", number)).ok()); }
  // The names in sight, the empty row at the foot left out.
  std::vector<std::string> names() {
    std::vector<std::string> names;
    for (const LineField* found : table->findChildren<LineField*>())
      if (found->label() == "Client" && found->isVisible() && !found->typed().isEmpty())
        names.push_back(found->typed().toStdString());
    return names;
  }
  std::string client(int id) { return lab::client(*notebook.connection, ClientId{id})->name; }
  QLineEdit* find() { return table->findChild<PageLine*>()->findChild<QLineEdit*>(); }
  bool says(const QString& words) {
    for (const QLabel* label : table->findChildren<QLabel*>())
      if (label->isVisible() && label->text() == words) return true;
    return false;
  }
};

TEST_F(LongTable, MakesFieldsOfOnePageAndCountsAll) {
  EXPECT_EQ(table->count(), clients);
  EXPECT_EQ(names().size(), std::size_t(page));
  EXPECT_EQ(table->findChildren<TextField*>().size(), 4 * (page + 1)) << "four columns, and the foot";
  EXPECT_TRUE(says("1–25 of 60"));
  EXPECT_EQ(find()->accessibleName(), "Find: client");
}

TEST_F(LongTable, TurnsToEveryRecord) {
  std::vector<std::string> all = names();
  for (const char* range : {"26–50 of 60", "51–60 of 60"}) {
    button(*table, "Page on")->click();
    settle();
    EXPECT_TRUE(says(range)) << range;
    const auto more = names();
    all.insert(all.end(), more.begin(), more.end());
  }
  EXPECT_FALSE(button(*table, "Page on")->isEnabled());
  EXPECT_EQ(all.size(), std::size_t(clients));
  EXPECT_EQ(std::set(all.begin(), all.end()).size(), std::size_t(clients));
  enter_in(*table, "Contact", "by the ferry");
  EXPECT_EQ(lab::client(*notebook.connection, ClientId{51})->contact, "by the ferry");
  find()->setFocus();
  press(Qt::Key_PageUp);
  EXPECT_EQ(names().front(), "Adit 026");
}

TEST_F(LongTable, FindsAsYouTypeAndEnterGoesToTheRow) {
  find()->setFocus();
  type("IT 05");
  settle();
  EXPECT_THAT(names(), testing::ElementsAre("Adit 050", "Adit 051", "Adit 052", "Adit 053", "Adit 054", "Adit 055", "Adit 056",
                                            "Adit 057", "Adit 058", "Adit 059"));
  press(Qt::Key_Return);
  EXPECT_EQ(focused(), "Client");
  press(Qt::Key_A, Qt::ControlModifier);
  type_and_enter("Fifty");
  EXPECT_EQ(focused(), "Contact") << "the row stays, though its name is no longer looked for";
  type_and_enter("by post");
  EXPECT_EQ(client(50), "Fifty");
  EXPECT_EQ(lab::client(*notebook.connection, ClientId{50})->contact, "by post");
  find()->setText("nobody");
  settle();
  EXPECT_TRUE(names().empty());
  EXPECT_TRUE(says("Nothing found"));
}

TEST_F(LongTable, ANewOneStaysInSightAndWhatWasMadeElsewhereIsCounted) {
  table->enter();
  type_and_enter("Newcomer");
  EXPECT_EQ(focused(), "Contact");
  type_and_enter("on foot");
  EXPECT_EQ(client(clients + 1), "Newcomer");
  EXPECT_EQ(lab::client(*notebook.connection, ClientId{clients + 1})->contact, "on foot");
  EXPECT_EQ(names().back(), "Newcomer");
  EXPECT_TRUE(says("1–25 of 61"));
  add(99);
  settle();
  EXPECT_EQ(table->count(), clients + 2);
}

TEST_F(LongTable, ARecordIsTakenFromAnyPage) {
  find()->setText("Adit 001");
  EXPECT_TRUE(table->take(60));
  EXPECT_TRUE(says("51–60 of 60"));
  auto* at = qobject_cast<QLineEdit*>(at_hand());
  ASSERT_NE(at, nullptr);
  EXPECT_EQ(at->text(), "Adit 060");
  EXPECT_FALSE(table->take(99));
}

// What was refused goes with its record, not to the one whose turn it is in the same row.
TEST_F(LongTable, WhatWasTypedWaitsWithItsRecord) {
  auto* first = field<LineField>(*table, "Client");
  first->line()->setFocus();
  first->line()->selectAll();
  press(Qt::Key_Delete);
  press(Qt::Key_Return);
  ASSERT_TRUE(first->refused());
  button(*table, "Page on")->click();
  settle();
  EXPECT_EQ(names().front(), "Adit 026");
  EXPECT_EQ(client(1), "Adit 001");
  EXPECT_EQ(client(26), "Adit 026");
}

TEST(ShortTable, HasNoPages) {
  need_application();
  MemoryNotebook notebook;
  Desk desk{*notebook.connection, *notebook.journal};
  ASSERT_TRUE(lab::add_client(*notebook.journal, "Larch Adit Syndicate").ok());
  const std::unique_ptr<RecordTable> table(clients_table(desk.session, Columns::all));
  testing_support::show(*table);
  EXPECT_FALSE(table->findChild<PageLine*>()->isVisible());
}

}  // namespace
}  // namespace prillbook::ui
