// SPDX-License-Identifier: GPL-3.0-or-later
// An interval is drawn, not only written: dots with whiskers above each other on one horizontal scale.
#pragma once

#include <QtCore/QRectF>
#include <QtCore/QString>
#include <QtWidgets/QWidget>
#include <memory>
#include <optional>
#include <utility>
#include <vector>

#include "core/base/number.h"
#include "ui/kit/theme.h"

namespace prillbook::ui {

enum class Metal { gold, silver };

// One dot. Needs lo <= value <= hi; a row that is not finite is left out.
struct IntervalRow {
  QString label;  // "pan", "fire", "head"
  Metal kind = Metal::gold;
  double value = 0, lo = 0, hi = 0;                     // in `unit`
  std::optional<std::pair<double, double>> sampling{};  // the thinner, longer whisker; absent: not judged
  QString words;                                        // beside the mark: "16.5 ± 0.9 g/t"
  std::vector<double> dots{};                           // the single figures behind a mean, smaller
};

struct IntervalPicture {
  std::vector<IntervalRow> rows;                   // top to bottom
  std::optional<std::pair<double, double>> gap{};  // shaded
  QString gap_words;                               // "left behind 4.1 ± 1.3 g/t"
  QString unit = QStringLiteral("g/t");
  DecimalMark mark = DecimalMark::point;
};

// The drawing itself, for screen and paper alike.
class IntervalDrawing {
 public:
  IntervalDrawing(IntervalPicture picture, const Inks& inks);
  ~IntervalDrawing();
  // Draws into `area`, which wants natural_height() or more.
  void paint(QPainter& painter, const QRectF& area);
  int natural_height() const;

  // Geometry after paint(), in the painter's units.
  double x_of(double value) const;
  QRectF row_area(int row) const;
  double scale_from() const;
  double scale_to() const;
  // The picture in words, for screen readers.
  QString described() const;

 private:
  struct Parts;
  std::unique_ptr<Parts> parts_;
};

class IntervalScale : public QWidget {
  Q_OBJECT
 public:
  explicit IntervalScale(QWidget* parent = nullptr);
  ~IntervalScale() override;
  void set_picture(IntervalPicture picture);
  QSize sizeHint() const override;
  QSize minimumSizeHint() const override;

 protected:
  void paintEvent(QPaintEvent* event) override;
  void changeEvent(QEvent* event) override;

 private:
  void rebuild();

  IntervalPicture picture_;
  std::unique_ptr<IntervalDrawing> drawing_;
};

}  // namespace prillbook::ui
