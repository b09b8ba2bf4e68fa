// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QtWidgets/QWidget>

#include "core/labels/layout.h"

namespace prillbook::ui {

// A small picture of a sheet of labels, to say where the first one goes: arrows and a click move it.
class SheetPicture : public QWidget {
  Q_OBJECT
 public:
  explicit SheetPicture(QWidget* parent = nullptr);
  void set_layout(const labels::Layout& layout);  // the start stays where the new sheet has it
  void set_labels(int count);                     // so many places are shown as taken, from the start on
  int start() const { return start_; }
  void set_start(int place);
  QSize sizeHint() const override;
  QRectF place_area(int place) const;

 signals:
  void start_changed(int place);

 protected:
  void paintEvent(QPaintEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;
  void mousePressEvent(QMouseEvent* event) override;
  void focusInEvent(QFocusEvent* event) override;
  void focusOutEvent(QFocusEvent* event) override;

 private:
  double scale() const;  // pixels a millimetre
  void tell();

  labels::Layout layout_;
  int start_ = 1, labels_ = 0;
};

}  // namespace prillbook::ui
