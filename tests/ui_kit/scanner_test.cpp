// SPDX-License-Identifier: GPL-3.0-or-later
// Keys as a scanner types them and as a hand does, on their way to a window.
#include "ui/window/scanner.h"

#include <gtest/gtest.h>

#include <QtGui/QWindow>
#include <QtTest/QTest>
#include <QtWidgets/QLineEdit>
#include <QtWidgets/QPushButton>
#include <QtWidgets/QVBoxLayout>

namespace prillbook::ui {
namespace {

class ScannerTest : public testing::Test {
 protected:
  QWidget window;
  QLineEdit* line = new QLineEdit;
  QPushButton* button = new QPushButton("press");
  Scanner scanner{"PB1:"};
  std::vector<QString> scanned;
  qint64 now = 0;
  int entered = 0, pressed = 0;

  void SetUp() override {
    auto* column = new QVBoxLayout(&window);
    column->addWidget(line);
    column->addWidget(button);
    scanner.set_clock([this] { return now; });
    QObject::connect(&scanner, &Scanner::scanned, &window, [this](const QString& code) { scanned.push_back(code); });
    QObject::connect(line, &QLineEdit::returnPressed, &window, [this] { ++entered; });
    QObject::connect(button, &QPushButton::clicked, &window, [this] { ++pressed; });
    window.show();
    window.activateWindow();
    ASSERT_TRUE(QTest::qWaitForWindowActive(&window));
    line->setFocus();
  }
  void key(Qt::Key which, int pause, Qt::KeyboardModifiers modifiers = Qt::NoModifier) {
    now += pause;
    QTest::keyClick(window.windowHandle(), which, modifiers);
  }
  void type(const QString& text, int pause) {
    for (const QChar c : text) {
      now += pause;
      QTest::keyClick(window.windowHandle(), c.toLatin1());
    }
  }
  void wait() { QTest::qWait(4 * Scanner::longest_pause_ms + 60); }
};

constexpr int by_scanner = 8, by_hand = 90;

TEST_F(ScannerTest, ACodeTypedQuicklyGoesToTheScanner) {
  type("PB1:S:26-0003", by_scanner);
  EXPECT_TRUE(scanned.empty()) << "not before Enter";
  key(Qt::Key_Return, by_scanner);
  ASSERT_EQ(scanned.size(), 1u);
  EXPECT_EQ(scanned[0], "PB1:S:26-0003");
  EXPECT_EQ(line->text(), "");
  EXPECT_EQ(entered, 0);
}

TEST_F(ScannerTest, TheFieldWithTheFocusKeepsWhatItHolds) {
  line->setText("0.022 g");
  line->setSelection(2, 3);
  type("pb1:p:26-0003/2", by_scanner);
  key(Qt::Key_Return, by_scanner);
  ASSERT_EQ(scanned.size(), 1u);
  EXPECT_EQ(scanned[0], "pb1:p:26-0003/2");
  EXPECT_EQ(line->text(), "0.022 g");
  EXPECT_EQ(line->selectedText(), "022");
  EXPECT_EQ(entered, 0);
}

TEST_F(ScannerTest, AButtonWithTheFocusIsNotPressed) {
  button->setFocus();
  type("PB1:C:26-0003/2", by_scanner);
  key(Qt::Key_Return, by_scanner);
  EXPECT_EQ(scanned.size(), 1u);
  EXPECT_EQ(pressed, 0);
}

TEST_F(ScannerTest, SlowTypingIsTyping) {
  type("PB1:S:26-0003", by_hand);
  key(Qt::Key_Return, by_hand);
  wait();
  EXPECT_TRUE(scanned.empty());
  EXPECT_EQ(line->text(), "PB1:S:26-0003");
  EXPECT_EQ(entered, 1);
}

// A hand that hurries for a few letters.
TEST_F(ScannerTest, AHastyBeginningAloneIsTyping) {
  type("PB1:", by_scanner);
  type("S:26-0003", by_hand);
  key(Qt::Key_Return, by_hand);
  wait();
  EXPECT_TRUE(scanned.empty());
  EXPECT_EQ(line->text(), "PB1:S:26-0003");
}

TEST_F(ScannerTest, WordsThatBeginAlikeAreTyped) {
  for (const char* word : {"p", "pan", "pb", "pb1", "pb1;", "PPB1", "remarks on PB1:", "p p p"}) {
    line->clear();
    type(word, by_scanner);
    wait();
    EXPECT_EQ(line->text(), word);
  }
  EXPECT_TRUE(scanned.empty());
}

TEST_F(ScannerTest, KeysStayInTheirOrder) {
  type("pb", by_scanner);
  key(Qt::Key_Left, by_scanner);
  type("a", by_scanner);
  wait();
  EXPECT_EQ(line->text(), "pab");
}

TEST_F(ScannerTest, ACodeBehindALetterIsACode) {
  type("p", by_hand);
  type("PB1:S:26-0003", by_scanner);
  key(Qt::Key_Return, by_scanner);
  wait();
  ASSERT_EQ(scanned.size(), 1u);
  EXPECT_EQ(scanned[0], "PB1:S:26-0003");
  EXPECT_EQ(line->text(), "p");
}

TEST_F(ScannerTest, TwoScansAreTwo) {
  for (const char* code : {"PB1:S:26-0003", "PB1:S:26-0004"}) {
    type(code, by_scanner);
    key(Qt::Key_Enter, by_scanner);
  }
  EXPECT_EQ(scanned, (std::vector<QString>{"PB1:S:26-0003", "PB1:S:26-0004"}));
}

TEST_F(ScannerTest, ThePrefixAloneIsNoCode) {
  type("PB1:", by_scanner);
  key(Qt::Key_Return, by_scanner);
  wait();
  EXPECT_TRUE(scanned.empty());
  EXPECT_EQ(line->text(), "PB1:");
  EXPECT_EQ(entered, 1);
}

TEST_F(ScannerTest, EndlessDigitsBehindThePrefixAreTyped) {
  const QString text = "PB1:" + QString(200, '7');
  type(text, by_scanner);
  key(Qt::Key_Return, by_scanner);
  wait();
  EXPECT_TRUE(scanned.empty());
  EXPECT_EQ(line->text(), text);
}

TEST_F(ScannerTest, CommandsPass) {
  line->setText("abc");
  key(Qt::Key_P, by_scanner);
  key(Qt::Key_A, by_scanner, Qt::ControlModifier);
  EXPECT_EQ(line->selectedText(), line->text());
  EXPECT_EQ(line->text().size(), 4);
}

}  // namespace
}  // namespace prillbook::ui
