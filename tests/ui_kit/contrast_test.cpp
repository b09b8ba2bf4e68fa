// SPDX-License-Identifier: GPL-3.0-or-later
#include <QtGui/QFontInfo>
#include <QtGui/QFontMetricsF>

#include "ui/kit/theme.h"

namespace prillbook::ui {
namespace {

// Source: WCAG 2.1, "contrast ratio": ranges from 1 to 21; black on white is 21:1.
TEST(Contrast, EndsOfTheRangeOfWcag) {
  EXPECT_NEAR(contrast(Qt::black, Qt::white), 21, 1e-9);
  EXPECT_NEAR(contrast(Qt::white, Qt::white), 1, 1e-9);
  EXPECT_NEAR(contrast(Qt::white, Qt::black), 21, 1e-9);
}

// #767676 is widely given as the lightest grey that passes 4.5:1 on white (from memory).
TEST(Contrast, LightestGreyThatPassesOnWhite) {
  EXPECT_GE(contrast(QColor(0x767676), Qt::white), 4.5);
  EXPECT_LT(contrast(QColor(0x777777), Qt::white), 4.5);
}

class InksPass : public testing::TestWithParam<const Inks*> {};

// Source: WCAG 2.1, success criterion 1.4.3 (text, 4.5:1), on the paper, the shaded paper and the gap.
TEST_P(InksPass, TextAgainstEveryGround) {
  const Inks& inks = *GetParam();
  for (const QColor& ground : {inks.ground, inks.shaded}) {
    EXPECT_GE(contrast(inks.ink, ground), 7);
    EXPECT_GE(contrast(inks.quiet, ground), 4.5);
    EXPECT_GE(contrast(inks.accent, ground), 4.5);
    EXPECT_GE(contrast(inks.signal, ground), 4.5);
  }
  EXPECT_GE(contrast(inks.ink, inks.gap), 4.5);
  EXPECT_GE(contrast(inks.on_accent, inks.accent), 4.5);
}

// Source: WCAG 2.1, success criterion 1.4.11 (3:1): the line to write on and the outline of a silver mark.
TEST_P(InksPass, LinesAgainstThePaper) {
  const Inks& inks = *GetParam();
  EXPECT_GE(contrast(inks.line, inks.ground), 3);
  EXPECT_GE(contrast(inks.silver, inks.ground), 3);
  EXPECT_GE(contrast(inks.silver, inks.gap), 3);
}

INSTANTIATE_TEST_SUITE_P(LightAndDark, InksPass, testing::Values(&light_inks(), &dark_inks()));

TEST(Faces, AreOurOwnAndTheirFiguresHaveOneWidth) {
  for (const auto weight : {Weight::light, Weight::book, Weight::bold}) {
    const QFont type = face(TextSize::body, weight);
    EXPECT_TRUE(QFontInfo(type).family().startsWith("Gentium")) << QFontInfo(type).family().toStdString();
    const QFontMetricsF metrics(type);
    for (char digit = '1'; digit <= '9'; ++digit)
      EXPECT_EQ(metrics.horizontalAdvance(QLatin1Char(digit)), metrics.horizontalAdvance(QLatin1Char('0')));
    for (const QChar c : QStringLiteral("±−‰µ·–…“”²³½")) EXPECT_TRUE(metrics.inFont(c)) << int(c.unicode());
  }
}

TEST(Faces, SizesGrow) {
  EXPECT_LT(face(TextSize::small).pixelSize(), face(TextSize::body).pixelSize());
  EXPECT_LT(face(TextSize::body).pixelSize(), face(TextSize::large).pixelSize());
  EXPECT_LT(face(TextSize::large).pixelSize(), face(TextSize::weigh_room).pixelSize());
}

}  // namespace
}  // namespace prillbook::ui
