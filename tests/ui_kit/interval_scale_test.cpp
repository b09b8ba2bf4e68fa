// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/kit/interval_scale.h"

#include <QtGui/QImage>
#include <QtGui/QPainter>
#include <cmath>
#include <limits>

namespace prillbook::ui {
namespace {

IntervalPicture two_rows() {
  return {{{"pan", Metal::gold, 12.4, 11.8, 13.0, {{9.9, 14.9}}, "12.4 ± 0.6 g/t"},
           {"fire", Metal::silver, 16.5, 15.6, 17.4, {}, "16.5 ± 0.9 g/t"}},
          {{13.0, 15.6}},
          "left behind",
          "g/t",
          DecimalMark::point};
}

QImage painted(IntervalDrawing& drawing, int width = 800) {
  QImage image(width, drawing.natural_height(), QImage::Format_RGB32);
  image.fill(light_inks().ground);
  QPainter painter(&image);
  drawing.paint(painter, QRectF(image.rect()));
  return image;
}

bool near(QRgb pixel, const QColor& colour) {
  return std::abs(qRed(pixel) - colour.red()) + std::abs(qGreen(pixel) - colour.green()) +
             std::abs(qBlue(pixel) - colour.blue()) <
         60;
}

TEST(IntervalDrawings, ScaleHoldsEverythingAndIsLinear) {
  IntervalDrawing drawing(two_rows(), light_inks());
  painted(drawing);
  EXPECT_LE(drawing.scale_from(), 9.9);
  EXPECT_GE(drawing.scale_to(), 17.4);
  EXPECT_GT(drawing.x_of(drawing.scale_from()), 0);
  EXPECT_LT(drawing.x_of(drawing.scale_to()), 800);
  EXPECT_NEAR(drawing.x_of(12) - drawing.x_of(10), drawing.x_of(16) - drawing.x_of(14), 1e-9);
  EXPECT_LT(drawing.row_area(0).bottom(), drawing.row_area(1).bottom());
}

// Gold is filled, silver is an outline, the whisker reaches from lo to hi and the gap is shaded: looked up in the pixels.
TEST(IntervalDrawings, MarksStandWhereTheirFiguresAre) {
  IntervalDrawing drawing(two_rows(), light_inks());
  const QImage image = painted(drawing);
  const Inks& inks = light_inks();
  const auto at = [&](int row, double value) {
    return image.pixel(int(std::lround(drawing.x_of(value))), int(std::lround(drawing.row_area(row).y() + 42)));
  };
  EXPECT_TRUE(near(at(0, 12.4), inks.gold));
  EXPECT_TRUE(near(at(1, 16.5), inks.ground));
  EXPECT_TRUE(near(at(0, 12.9), inks.ink));
  EXPECT_TRUE(near(at(1, 15.7), inks.ink));
  EXPECT_TRUE(near(image.pixel(int(drawing.x_of(14.3)), int(drawing.row_area(1).bottom()) - 8), inks.gap));
  EXPECT_TRUE(near(image.pixel(int(drawing.x_of(11)), int(drawing.row_area(1).bottom()) - 8), inks.ground));
}

TEST(IntervalDrawings, AreDrawnAgainAtAnotherSize) {
  IntervalDrawing drawing(two_rows(), light_inks());
  painted(drawing, 800);
  const QImage wide = painted(drawing, 1200);
  EXPECT_TRUE(near(wide.pixel(int(std::lround(drawing.x_of(12.4))), int(drawing.row_area(0).y() + 42)), light_inks().gold));
}

TEST(IntervalDrawings, SmallSharesOfTheScaleBeginAtZero) {
  IntervalPicture picture = two_rows();
  picture.rows[0].sampling = {{1.0, 14.9}};
  EXPECT_EQ(IntervalDrawing(picture, light_inks()).scale_from(), 0);
}

TEST(IntervalDrawings, WhatCannotBeDrawnIsLeftOut) {
  const double nan = std::nan(""), infinite = std::numeric_limits<double>::infinity();
  IntervalPicture picture{{{"a", Metal::gold, nan, 1, 2, {}, ""},
                           {"b", Metal::gold, 1, 2, 3, {}, ""},
                           {"c", Metal::gold, 2, 1, infinite, {}, ""},
                           {"d", Metal::gold, 2, 1, 3, {{nan, 3}}, ""},
                           {"e", Metal::gold, 0, 0, 0, {}, "none"},
                           {"f", Metal::gold, 2, 1, 3, {}, "2"}},
                          {{nan, infinite}},
                          "gap",
                          "g/t",
                          DecimalMark::comma};
  IntervalDrawing drawing(picture, dark_inks());
  painted(drawing);
  for (const int row : {0, 1, 2, 3, -1, 99}) EXPECT_TRUE(drawing.row_area(row).isEmpty());
  EXPECT_FALSE(drawing.row_area(5).isEmpty());
  for (const IntervalPicture& odd : {IntervalPicture{}, IntervalPicture{{{"z", Metal::gold, 0, 0, 0, {}, ""}}, {}, {}}}) {
    IntervalDrawing other(odd, light_inks());
    painted(other);
    painted(other, 10);
    EXPECT_LT(other.scale_from(), other.scale_to());
  }
}

TEST(IntervalScales, SayInWordsWhatTheyShow) {
  IntervalScale scale;
  scale.set_picture(two_rows());
  EXPECT_EQ(scale.accessibleName(), "pan, gold: 12.4 ± 0.6 g/t; fire, silver: 16.5 ± 0.9 g/t; left behind");
  scale.resize(600, 240);
  EXPECT_FALSE(scale.grab().isNull());
}

}  // namespace
}  // namespace prillbook::ui
