// SPDX-License-Identifier: GPL-3.0-or-later
// The port against a real pseudo-terminal: every byte goes through the kernel.
#include "ui/balance_port/balance_port.h"

#include <gmock/gmock.h>

#include <QtCore/QFile>
#include <QtCore/QProcess>
#include <QtCore/QSettings>
#include <QtCore/QStandardPaths>
#include <QtCore/QTemporaryDir>
#include <QtTest/QTest>
#include <vector>

#include "tests/support/pseudo_terminal.h"

namespace prillbook::ui {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;
using testing_support::PseudoTerminal;

constexpr int patience_ms = 5000;

struct OnTheWire : testing::Test {
  BalancePort port;
  std::vector<std::string> figures, refused, raws;

  OnTheWire() {
    QObject::connect(&port, &BalancePort::figure_sent, &port, [this](const balance_line::Figure& figure, const QString& raw) {
      figures.push_back((figure.stability == balance_line::Stability::stable ? "" : "not stable ") + figure.typed);
      raws.push_back(raw.toStdString());
    });
    QObject::connect(&port, &BalancePort::line_refused, &port,
                     [this](const QString& raw, const Error&) { refused.push_back(raw.toStdString()); });
  }
  void listen(const std::string& name, int speed = 9600) {
    PortSettings settings;
    settings.port = QString::fromStdString(name);
    settings.speed = speed;
    port.use(settings);
  }
  bool come(std::size_t count) {
    return QTest::qWaitFor([&] { return figures.size() + refused.size() >= count; }, patience_ms);
  }
};

struct AtASpeed : OnTheWire, testing::WithParamInterface<int> {};

TEST_P(AtASpeed, LinesComeThrough) {
  const PseudoTerminal wire;
  listen(wire.port(), GetParam());
  ASSERT_TRUE(port.is_open()) << port.state_words().toStdString();
  ASSERT_TRUE(wire.send("  22.014 mg\r\n"));
  ASSERT_TRUE(wire.send("0,9000 mg\r\n22.015 mg?\n"));
  ASSERT_TRUE(come(3));
  EXPECT_THAT(figures, ElementsAre("22.014 mg", "0,9000 mg", "not stable 22.015 mg"));
  EXPECT_THAT(raws[0], "  22.014 mg");
}

INSTANTIATE_TEST_SUITE_P(Speeds, AtASpeed, testing::Values(1200, 9600, 19200, 115200));

TEST_F(OnTheWire, ALineInPiecesIsOneLine) {
  const PseudoTerminal wire;
  listen(wire.port());
  for (const char* piece : {"2", "2.0", "14 m", "g"}) {
    ASSERT_TRUE(wire.send(piece));
    QTest::qWait(20);
  }
  EXPECT_THAT(figures, IsEmpty());
  ASSERT_TRUE(wire.send("\r\n"));
  ASSERT_TRUE(come(1));
  EXPECT_THAT(figures, ElementsAre("22.014 mg"));
}

TEST_F(OnTheWire, NoiseLettersAndATenKilobyteLineSpoilNothingAfterThem) {
  const PseudoTerminal wire;
  listen(wire.port());
  ASSERT_TRUE(wire.send(std::string("\xff\x80\x01~~\r\n", 7)));
  ASSERT_TRUE(wire.send("22.O14 mg\r\n"));
  const std::string endless(1000, '7');
  for (int i = 0; i < 10; ++i) {
    ASSERT_TRUE(wire.send(endless));
    QTest::qWait(5);
  }
  ASSERT_TRUE(wire.send("\r\n1.5 mg\r\n"));
  ASSERT_TRUE(come(3));
  EXPECT_THAT(figures, ElementsAre("1.5 mg"));
  EXPECT_EQ(refused.size(), 2u);
}

TEST_F(OnTheWire, APortThatVanishesMidReadingLeavesHalfALineBehind) {
  std::string name;
  {
    PseudoTerminal wire;
    name = wire.port();
    listen(name);
    ASSERT_TRUE(port.is_open());
    ASSERT_TRUE(wire.send("22.0"));
    QTest::qWait(50);
    wire.unplug();
    ASSERT_TRUE(QTest::qWaitFor([&] { return !port.is_open(); }, patience_ms));
  }
  EXPECT_THAT(port.state_words().toStdString(), testing::HasSubstr("not there"));
  EXPECT_THAT(figures, IsEmpty());
  const PseudoTerminal next;  // the kernel gives the same name again where no other took it
  if (next.port() != name) listen(next.port());
  ASSERT_TRUE(QTest::qWaitFor([&] { return port.is_open(); }, patience_ms));
  ASSERT_TRUE(next.send("14 mg\r\n"));
  ASSERT_TRUE(come(1));
  EXPECT_THAT(figures, ElementsAre("14 mg")) << "not 22.014 mg";
}

TEST_F(OnTheWire, APortThatIsNotThereIsSaid) {
  listen("/dev/no-such-balance");
  EXPECT_FALSE(port.is_open());
  EXPECT_THAT(port.state_words().toStdString(), testing::HasSubstr("/dev/no-such-balance"));
  listen("");
  EXPECT_TRUE(port.state_words().isEmpty());
}

// The same through the pair that socat makes, where it is installed.
TEST_F(OnTheWire, APairMadeBySocat) {
  const QString socat = QStandardPaths::findExecutable(QStringLiteral("socat"));
  if (socat.isEmpty()) GTEST_SKIP() << "socat is not installed; the other tests use openpty";
  const QTemporaryDir folder;
  const QString balance = folder.filePath(QStringLiteral("balance")), computer = folder.filePath(QStringLiteral("computer"));
  QProcess pair;
  pair.start(socat, {QStringLiteral("pty,raw,echo=0,link=") + balance, QStringLiteral("pty,raw,echo=0,link=") + computer});
  ASSERT_TRUE(QTest::qWaitFor([&] { return QFile::exists(balance) && QFile::exists(computer); }, patience_ms));
  listen(computer.toStdString());
  ASSERT_TRUE(port.is_open());
  QFile wire(balance);
  ASSERT_TRUE(wire.open(QIODevice::WriteOnly | QIODevice::Unbuffered));
  wire.write("3.25 ct\r\n");
  EXPECT_TRUE(come(1));
  EXPECT_THAT(figures, ElementsAre("3.25 ct"));
  pair.terminate();
  EXPECT_TRUE(QTest::qWaitFor([&] { return !port.is_open(); }, patience_ms));
  pair.waitForFinished(patience_ms);
}

TEST(PortSettingsTest, AreKeptWithTheUser) {
  const QTemporaryDir folder;
  QSettings::setPath(QSettings::IniFormat, QSettings::UserScope, folder.path());
  PortSettings settings{QStringLiteral("ttyS9"), 1200, 7, QStringLiteral("even"), QStringLiteral("label, figure and unit"),
                        QStringLiteral("itself")};
  keep_port_settings(settings);
  EXPECT_EQ(kept_port_settings(), settings);
}

}  // namespace
}  // namespace prillbook::ui
