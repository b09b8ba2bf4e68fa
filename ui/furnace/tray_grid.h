// SPDX-License-Identifier: GPL-3.0-or-later
// A tray as it lies on the bench, seen from above: numbered positions, one of them in hand. Arrows walk over it.
#pragma once

#include <QtWidgets/QWidget>
#include <vector>

#include "core/trays/trays.h"

namespace prillbook::ui {

struct TrayCell {
  QString words;  // "26-0003/2", "rock blank"; empty: nothing stands there
  bool control = false;

  friend bool operator==(const TrayCell&, const TrayCell&) = default;
};

class TrayGrid : public QWidget {
  Q_OBJECT
 public:
  explicit TrayGrid(QWidget* parent = nullptr);
  // Cells by position, from 1 at the front.
  void set_tray(trays::Kind kind, const trays::Grid& grid, std::vector<TrayCell> cells);
  void take(std::int64_t position);  // lights it, without telling
  std::int64_t in_hand() const { return in_hand_; }
  // The position that an arrow key leads to from the one in hand; the same at an edge, 0 for another key.
  std::int64_t beside(int key) const;
  int heightForWidth(int width) const override;
  QSize sizeHint() const override;
  QSize minimumSizeHint() const override { return {30 * 8, 8 * 8}; }

 signals:
  void taken(qint64 position);    // by mouse or arrow
  void wanted(const QChar& key);  // a letter or digit typed here belongs in the field
  void entered();

 protected:
  void paintEvent(QPaintEvent* event) override;
  void mousePressEvent(QMouseEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;

 private:
  // Positions of a line: those of the grid; a numbered row is broken where it is too long.
  int a_line(int width) const;
  double cell_width(int width) const;
  int lines(int width) const;
  QRectF cell_of(std::int64_t position) const;
  void paint_cell(QPainter& painter, const QRectF& cell, std::int64_t position) const;

  trays::Kind kind_ = trays::Kind::bead;
  trays::Grid grid_;
  std::vector<TrayCell> cells_;
  std::int64_t in_hand_ = 1;
};

}  // namespace prillbook::ui
