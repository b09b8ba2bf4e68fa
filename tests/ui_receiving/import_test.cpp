// SPDX-License-Identifier: GPL-3.0-or-later
#include <gmock/gmock.h>

#include <QtGui/QClipboard>
#include <QtTest/QAbstractItemModelTester>
#include <QtWidgets/QCheckBox>
#include <QtWidgets/QComboBox>
#include <QtWidgets/QTableView>

#include "core/units/units.h"
#include "tests/support/files.h"
#include "tests/support/scripted_prompter.h"
#include "tests/support/window_hand.h"
#include "ui/kit/messages.h"
#include "ui/photographs/photograph_strip.h"
#include "ui/receiving/column_strip.h"
#include "ui/receiving/import_page.h"
#include "ui/receiving/receiving_station.h"

namespace prillbook::ui {
namespace {

using namespace testing_support;

struct Import : WithApplication, testing::Test {
  MemoryNotebook notebook;
  history::Journal& book = *notebook.journal;
  ClientId client = *lab::add_client(book, "Heron Creek");
  ConsignmentId consignment = *custody::log_consignment(book, {client, {}, {}, {}, {}, {}, {}});
  QTemporaryDir folder;
  Notifier notifier{book};
  ScriptedPrompter prompter;
  Drafts drafts{"import", folder.path()};
  Session session{*notebook.connection, book, notifier, prompter, drafts, {}};
  ReceivingStation station{session};

  void SetUp() override {
    QObject::connect(&notifier, &Notifier::written, &station, [this](const auto& written) { station.notebook_changed(written); });
    show(station, 1090, 680);
    station.take_consignment(consignment);
  }
  ImportPage& page() { return *station.findChild<ImportPage*>(); }
  QComboBox* combo(const QString& name) {
    for (QComboBox* found : page().findChildren<QComboBox*>())
      if (found->accessibleName() == name) return found;
    ADD_FAILURE() << "no choice " << name.toStdString();
    return nullptr;
  }
  void choose(QComboBox* combo, const QString& words) {
    const int at = combo->findText(words);
    ASSERT_GE(at, 0) << words.toStdString();
    combo->setCurrentIndex(at);
    emit combo->activated(at);
  }
  void import(const std::string& text) {
    const QString path = folder.filePath("list.csv");
    write_file(path.toStdString(), text);
    prompter.files = {path};
    station.import_file();
    settle();
  }
  void correct(int row, int column, const QString& text) {
    QTableView* table = page().table();
    table->setFocus();
    table->setCurrentIndex(table->model()->index(row, column));
    press(Qt::Key_Return);
    auto* editor = table->findChild<QLineEdit*>();
    ASSERT_NE(editor, nullptr);
    editor->selectAll();
    QTest::keyClicks(editor, text);
    QTest::keyClick(editor, Qt::Key_Return);
    settle();
  }
  QString words() { return page().findChild<MessageBar*>()->words(); }
  std::vector<custody::Sample> samples() { return *custody::samples_of(*notebook.connection, consignment); }
};

TEST_F(Import, TheFirstRowsStandBeforeTheRestIsRead) {
  std::string text = "Mark;Weight (kg)\n";
  for (int row = 0; row < 500; ++row) text += "A" + std::to_string(row) + ";1,5\n";
  write_file(folder.filePath("long.csv").toStdString(), text);
  ImportPage alone(session);
  alone.open_file(consignment, folder.filePath("long.csv"));
  EXPECT_EQ(alone.table()->model()->rowCount(), 199) << "the heading is one of two hundred";
  EXPECT_EQ(alone.count_text(), "Reading the rest of the list…");
  EXPECT_TRUE(QTest::qWaitFor([&] { return alone.table()->model()->rowCount() == 500; }));
  EXPECT_NE(alone.count_text(), "Reading the rest of the list…");
}

TEST_F(Import, AFaultBehindTheFirstRowsIsToldAndNothingCanBeEntered) {
  std::string text = "Mark;Weight (kg)\n";
  for (int row = 0; row < 500; ++row) text += "A" + std::to_string(row) + ";1,5\n";
  write_file(folder.filePath("open.csv").toStdString(), text + "\"never closed;1\n");
  ImportPage alone(session);
  show(alone, 1090, 680);
  alone.open_file(consignment, folder.filePath("open.csv"));
  EXPECT_TRUE(QTest::qWaitFor([&] { return alone.table()->model()->rowCount() == 0; }));
  EXPECT_FALSE(button(alone, "Enter the list")->isEnabled());
}

TEST_F(Import, TheCustodyRecordOfAConsignmentIsWritten) {
  const QString path = folder.filePath("all.pdf");
  prompter.files = {path};
  button(station, "Custody record of all…")->click();
  settle();
  EXPECT_TRUE(file_text(path.toStdString()).starts_with("%PDF-"));
}

TEST_F(Import, AListIsLookedOverAndEntered) {
  const QString file = PRILLBOOK_SOURCE_DIR "/sample-data/client-list.csv";
  prompter.files = {file};
  button(station, "Import a list…")->click();
  ASSERT_TRUE(page().isVisible());
  EXPECT_EQ(prompter.wished.front().purpose, FilePurpose::open);
  EXPECT_EQ(page().count_text(), "10 samples");
  EXPECT_EQ(combo("Letters read as")->currentText(), "Windows-1252");
  EXPECT_EQ(combo("Cells end with")->currentText(), "semicolon");
  EXPECT_EQ(combo("Decimal mark")->currentText(), "comma");
  EXPECT_EQ(combo("Column 5, Weight (kg), stands for")->currentText(), "Mass declared, kg");
  button(page(), "Enter the list")->click();
  settle();
  EXPECT_FALSE(page().isVisible());
  ASSERT_EQ(samples().size(), 10u);
  EXPECT_EQ(samples()[2].place, "Höllgraben, foot of the slope");
  ASSERT_TRUE(book.undo().ok());
  EXPECT_TRUE(samples().empty()) << "one gesture, one undo";
}

TEST_F(Import, BadCellsAreMarkedAndCorrectedInPlace) {
  import("mark;mass (kg);kind\nA;1,x;chip\n;2,5;grab\nC;3;pebble\n");
  EXPECT_EQ(page().count_text(), "3 samples, 3 rows need a look");
  EXPECT_FALSE(button(page(), "Enter the list")->isEnabled());
  const auto& model = page().model();
  EXPECT_EQ(model.index(0, 1).data().toString(), "1,x · no unit");
  EXPECT_FALSE(model.index(0, 1).data(Qt::DecorationRole).isNull()) << "a mark beside the word";
  EXPECT_EQ(model.index(1, 0).data().toString(), "missing");
  EXPECT_EQ(model.index(0, 0).data().toString(), "A");
  EXPECT_THAT(words().toStdString(), testing::HasSubstr("Line 2, mass declared:")) << "the first is in hand";
  correct(0, 1, "1,5");
  EXPECT_EQ(page().count_text(), "3 samples, 2 rows need a look");
  press(Qt::Key_F3);
  EXPECT_EQ(page().table()->currentIndex(), model.index(1, 0));
  correct(1, 0, "B");
  correct(2, 2, "dump");
  EXPECT_EQ(page().count_text(), "3 samples");
  button(page(), "Enter the list")->click();
  ASSERT_EQ(samples().size(), 3u);
  EXPECT_DOUBLE_EQ(samples()[0].mass_declared->mass().in(unit::kilogram), 1.5);
  EXPECT_EQ(samples()[1].mark, "B");
}

TEST_F(Import, RowsArePastedFromASpreadsheet) {
  QGuiApplication::clipboard()->setText("A\tchip\t1,5\nB\tgrab\t2,5\n");
  button(station, "New consignment")->setFocus();
  press(Qt::Key_V, Qt::ControlModifier);
  ASSERT_TRUE(page().isVisible());
  EXPECT_EQ(combo("Cells end with")->currentText(), "tab");
  EXPECT_FALSE(page().findChild<QCheckBox*>()->isChecked()) << "no word of a heading in it";
  EXPECT_THAT(words().toStdString(), testing::HasSubstr("client’s mark"));
  choose(combo("Column 1 stands for"), "Client’s mark");
  choose(combo("Column 2 stands for"), "Kind");
  choose(combo("Column 3 stands for"), "Mass received, g");
  EXPECT_EQ(page().count_text(), "2 samples");
  button(page(), "Enter the list")->click();
  ASSERT_EQ(samples().size(), 2u);
  EXPECT_DOUBLE_EQ(samples()[1].mass_received->mass().in(unit::gram), 2.5);
}

TEST_F(Import, APastedPictureIsAPhotographAndNoList) {
  QImage picture(64, 48, QImage::Format_RGB32);
  for (const auto& [at, colour] : {std::pair("New consignment", Qt::red), std::pair("Add a photograph…", Qt::blue)}) {
    picture.fill(colour);
    QGuiApplication::clipboard()->setImage(picture);
    button(station, at)->setFocus();
    press(Qt::Key_V, Qt::ControlModifier);
  }
  EXPECT_FALSE(page().isVisible());
  EXPECT_EQ(station.findChild<PhotographStrip*>()->count(), 2);
}

TEST_F(Import, AFieldKeepsItsPaste) {
  QGuiApplication::clipboard()->setText("Larch N");
  station.enter();
  press(Qt::Key_V, Qt::ControlModifier);
  EXPECT_FALSE(page().isVisible());
  EXPECT_EQ(field<LineField>(station, "Client's mark")->typed(), "Larch N");
}

TEST_F(Import, TheKeyboardIsEnough) {
  write_file(folder.filePath("list.csv").toStdString(), "mark,mass (kg)\nA,1.5\n");
  prompter.files = {folder.filePath("list.csv")};
  station.enter();
  press(Qt::Key_I, Qt::ControlModifier);
  ASSERT_TRUE(page().isVisible());
  EXPECT_EQ(QApplication::focusWidget(), page().table());
  QStringList seen;
  for (int i = 0; i < 20 && focused() != "Enter the list"; ++i) press(Qt::Key_Tab), seen << focused();
  ASSERT_EQ(focused(), "Enter the list") << seen.join(", ").toStdString();
  press(Qt::Key_Return);
  EXPECT_EQ(samples().size(), 1u);
  EXPECT_EQ(focused(), "Client's mark");
}

TEST_F(Import, EscapeEntersNothing) {
  import("mark\nA\n");
  ASSERT_TRUE(page().isVisible());
  press(Qt::Key_Escape);
  EXPECT_FALSE(page().isVisible());
  EXPECT_TRUE(samples().empty());
}

TEST_F(Import, TheDecimalMarkIsAskedFor) {
  import("mark;mass (kg)\nA;1,234\n");
  EXPECT_THAT(words().toStdString(), testing::HasSubstr("choose the decimal mark"));
  EXPECT_EQ(combo("Decimal mark")->currentIndex(), -1);
  choose(combo("Decimal mark"), "comma");
  EXPECT_EQ(page().count_text(), "1 sample");
}

TEST_F(Import, AnotherReadingCanBeChosen) {
  import("mark;place\nA;H\xC3\xB6lle\n");
  EXPECT_EQ(page().model().index(0, 1).data().toString(), "Hölle");
  choose(combo("Letters read as"), "Windows-1252");
  EXPECT_EQ(page().model().index(0, 1).data().toString(), "HÃ¶lle");
  choose(combo("Cells end with"), "bar");
  EXPECT_EQ(page().model().columnCount(), 1);
  page().findChild<QCheckBox*>()->setChecked(false);
  EXPECT_EQ(page().model().rowCount(), 2);
}

TEST_F(Import, AFileThatIsNoListSaysWhy) {
  import("mark,place\nA,\"north\nB,south\n");
  ASSERT_TRUE(page().isVisible());
  EXPECT_EQ(words(), "The row that begins on line 2 has a quote that is never closed.");
  EXPECT_FALSE(button(page(), "Enter the list")->isEnabled());
  button(page(), "Back")->click();
  prompter.files = {folder.filePath("nowhere.csv")};
  station.import_file();
  EXPECT_THAT(words().toStdString(), testing::HasSubstr("nowhere.csv"));
}

TEST_F(Import, TheNextListOfThisClientMatchesByItself) {
  import("Probe;Ort\nA;north\n");
  page().findChild<QCheckBox*>()->setChecked(true);
  choose(combo("Column 1, Probe, stands for"), "Client’s mark");
  choose(combo("Column 2, Ort, stands for"), "Place taken");
  button(page(), "Enter the list")->click();
  import("Ort;Probe\nsouth;B\n");
  EXPECT_EQ(combo("Column 1, Ort, stands for")->currentText(), "Place taken");
  EXPECT_EQ(page().count_text(), "1 sample");
}

TEST_F(Import, WithoutAConsignmentTheClientIsAskedFor) {
  QString said;
  QObject::connect(&station, &Station::said, [&](const QString& news) { said = news; });
  station.new_consignment();
  station.import_file();
  EXPECT_FALSE(page().isVisible());
  EXPECT_THAT(said.toStdString(), testing::HasSubstr("name the client first"));
}

TEST_F(Import, WhatIsTakenBackTakesThePageAlong) {
  import("mark\nA\n");
  ASSERT_TRUE(book.undo().ok());
  settle();
  EXPECT_FALSE(page().isVisible());
}

TEST_F(Import, TheModelKeepsTheRulesOfModels) {
  ImportModel model;
  QAbstractItemModelTester tester(&model, QAbstractItemModelTester::FailureReportingMode::Fatal);
  auto list = intake::SampleList::read("mark,kind\nA,chip\nB,x\n", {});
  ASSERT_TRUE(list.ok());
  model.show_list(std::move(list).value());
  model.say_heading(false);
  model.use_column(0, {});
  ASSERT_TRUE(model.setData(model.index(0, 0), "C", Qt::EditRole));
  ASSERT_TRUE(model.read_as({{}, ';', {}, {}}).ok());
  model.show_list(std::nullopt);
  EXPECT_EQ(model.rowCount(), 0);
}

}  // namespace
}  // namespace prillbook::ui
