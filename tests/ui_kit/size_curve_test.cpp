// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/kit/size_curve.h"

#include <gmock/gmock.h>

#include <QtCore/QFile>
#include <QtCore/QTemporaryDir>
#include <QtGui/QPainter>
#include <QtSvg/QSvgRenderer>
#include <cmath>

namespace prillbook::ui {
namespace {

CurvePicture ordinary() {
  CurvePicture picture;
  picture.curves.push_back({QStringLiteral("26-0001/1"), {{850, 99}, {250, 52}, {150, 31}}, false});
  picture.marks.push_back({500, 80, QStringLiteral("P80 500 µm")});
  return picture;
}

void paint(CurveDrawing& drawing) {
  QImage image(600, 400, QImage::Format_RGB32);
  QPainter painter(&image);
  drawing.paint(painter, image.rect());
}

TEST(SizeCurve, TheAxisOfSizeIsLogarithmic) {
  CurveDrawing drawing(ordinary(), light_inks());
  paint(drawing);
  EXPECT_NEAR(drawing.x_of(400) - drawing.x_of(200), drawing.x_of(800) - drawing.x_of(400), 1e-6);
  EXPECT_LT(drawing.x_of(150), drawing.x_of(850)) << "coarse at the right";
  EXPECT_LT(drawing.y_of(99), drawing.y_of(31)) << "all passing at the top";
}

TEST(SizeCurve, LeavesOutWhatCannotBeDrawn) {
  CurvePicture picture;
  picture.empty_words = QStringLiteral("nothing yet");
  picture.curves.push_back(
      {QStringLiteral("x"), {{0, 10}, {-5, 10}, {std::nan(""), 10}, {100, std::nan("")}, {1e300, 4}}, false});
  CurveDrawing drawing(picture, light_inks());
  EXPECT_EQ(drawing.points_drawn(), 0);
  EXPECT_EQ(drawing.described(), "nothing yet");
  paint(drawing);
  picture.curves[0].points.push_back({100, 50});
  CurveDrawing one(picture, light_inks());
  EXPECT_EQ(one.points_drawn(), 1);
  paint(one);
}

TEST(SizeCurve, IsToldToAScreenReader) {
  CurveView view;
  view.set_picture(ordinary());
  EXPECT_THAT(view.accessibleName().toStdString(), testing::HasSubstr("52 % pass 250"));
  EXPECT_THAT(view.accessibleName().toStdString(), testing::HasSubstr("P80 500 µm"));
}

TEST(SizeCurve, IsWrittenAsPictureAndAsDrawing) {
  QTemporaryDir folder;
  const QString png = folder.filePath("curve.png"), svg = folder.filePath("curve.svg");
  ASSERT_TRUE(write_curve_png(ordinary(), png).ok());
  ASSERT_TRUE(write_curve_svg(ordinary(), svg).ok());
  const QImage image(png);
  EXPECT_EQ(image.width(), 1200);
  QFile text(svg);
  ASSERT_TRUE(text.open(QIODevice::ReadOnly));
  const QByteArray bytes = text.readAll();
  EXPECT_TRUE(QSvgRenderer(bytes).isValid());
  EXPECT_GT(bytes.size(), 2000);
  EXPECT_EQ(write_curve_png(ordinary(), folder.filePath("no/such/folder.png")).error().code, ErrorCode::not_found);
}

TEST(SizeCurve, TheFileShowsTheCurve) {
  CurvePicture empty;
  EXPECT_NE(curve_image(ordinary()), curve_image(empty));
}

}  // namespace
}  // namespace prillbook::ui
