// SPDX-License-Identifier: GPL-3.0-or-later
// Sieve curves: per cent passing over size on a logarithmic axis, coarse at the right. For the screen, for files and for
// the clipboard.
#pragma once

#include <QtCore/QRectF>
#include <QtCore/QString>
#include <QtGui/QImage>
#include <QtWidgets/QWidget>
#include <memory>
#include <vector>

#include "core/base/number.h"
#include "core/base/result.h"
#include "ui/kit/theme.h"

namespace prillbook::ui {

struct CurvePoint {
  double um = 0, passing_pct = 0;
};

// A point that is not finite or not above 0 µm is left out.
struct SizeCurve {
  QString label;                   // "26-0003/4"
  std::vector<CurvePoint> points;  // any order
  bool provisional = false;        // dashed: something is not weighed yet
};

struct SizeMark {
  double um = 0, passing_pct = 0;
  QString words;  // "P80 212 µm"
};

struct CurvePicture {
  std::vector<SizeCurve> curves;  // the one in hand first; the others stand behind it
  std::vector<SizeCurve> laws;    // thin lines without points
  std::vector<SizeMark> marks;    // on the curve in hand
  QString empty_words;            // where there is no point to draw
  DecimalMark mark = DecimalMark::point;
};

class CurveDrawing {
 public:
  CurveDrawing(CurvePicture picture, const Inks& inks);
  ~CurveDrawing();
  void paint(QPainter& painter, const QRectF& area);
  // Geometry after paint(), in the painter's units.
  double x_of(double um) const;
  double y_of(double passing_pct) const;
  int points_drawn() const;
  QString described() const;  // the picture in words, for screen readers

 private:
  struct Parts;
  std::unique_ptr<Parts> parts_;
};

class CurveView : public QWidget {
  Q_OBJECT
 public:
  explicit CurveView(QWidget* parent = nullptr);
  ~CurveView() override;
  void set_picture(CurvePicture picture);
  const CurvePicture& picture() const { return picture_; }
  QSize sizeHint() const override;
  QSize minimumSizeHint() const override;

 protected:
  void paintEvent(QPaintEvent* event) override;
  void changeEvent(QEvent* event) override;

 private:
  CurvePicture picture_;
};

// On white, in the light inks. Errors: read_only, disk_full, not_found (folder); a file of that name is then as it was.
QImage curve_image(const CurvePicture& picture);
Result<void> write_curve_png(const CurvePicture& picture, const QString& path);
Result<void> write_curve_svg(const CurvePicture& picture, const QString& path);

}  // namespace prillbook::ui
