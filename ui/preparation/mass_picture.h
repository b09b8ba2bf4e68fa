// SPDX-License-Identifier: GPL-3.0-or-later
// The sample's way as a river: it forks where it was split and narrows where rock was lost. Every reach opens its record.
#pragma once

#include <QtWidgets/QWidget>

#include "core/milling/mass_flow.h"
#include "ui/kit/station.h"
#include "ui/kit/theme.h"

namespace prillbook::ui {

// How a flow is painted: with which inks, which reach is in hand (-1: none) and whether the keys go there.
struct FlowLook {
  DecimalMark mark = DecimalMark::point;
  const Inks& inks = ui::inks();
  int in_hand = -1;
  bool focused = false;
};
// Paints the flow with its words; of a clipped painter only what is in sight.
void paint_flow(QPainter& painter, const std::vector<milling::Reach>& reaches, const milling::FlowLayout& layout,
                const FlowLook& look);
// As many A4 pages as it needs, in light inks whatever the shade of the window; no figure is printed smaller than it can be
// read unless the tree is so deep that its width asks for it. Errors: read_only, disk_full, not_found (folder).
Result<void> write_flow_pdf(const std::vector<milling::Reach>& reaches, DecimalMark mark, const QString& title,
                            const QString& path);

class MassPicture : public QWidget {
  Q_OBJECT
 public:
  explicit MassPicture(QWidget* parent = nullptr);
  // The reach in hand stays in hand where its record is still there.
  void set_flow(std::vector<milling::Reach> reaches, DecimalMark mark);
  const std::vector<milling::Reach>& reaches() const { return reaches_; }
  int in_hand() const { return in_hand_; }
  void take(int reach);
  QRectF place_of(int reach) const;  // of its body, in the widget
  QString words_of(int reach) const;
  QSize sizeHint() const override;
  QSize minimumSizeHint() const override { return sizeHint(); }

 signals:
  void taken(int reach);                         // by mouse or arrow keys
  void opened(prillbook::ui::RecordRef record);  // Enter or a second click

 protected:
  void paintEvent(QPaintEvent* event) override;
  void mousePressEvent(QMouseEvent* event) override;
  void mouseDoubleClickEvent(QMouseEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;
  void focusInEvent(QFocusEvent* event) override;
  void focusOutEvent(QFocusEvent* event) override;

 private:
  int reach_at(const QPointF& point) const;
  int sideways(int step) const;
  void choose(int reach);
  void open();

  std::vector<milling::Reach> reaches_;
  milling::FlowLayout layout_;
  DecimalMark mark_ = DecimalMark::point;
  int in_hand_ = -1;
};

}  // namespace prillbook::ui
