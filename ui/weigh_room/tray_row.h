// SPDX-License-Identifier: GPL-3.0-or-later
// The beads as they lie on the bench: a row of cupels in order, the one in hand lit.
#pragma once

#include <QtWidgets/QWidget>
#include <vector>

#include "core/base/id.h"

namespace prillbook::ui {

struct TrayPlace {
  enum class State { waiting, weighed, none_seen, spoiled };
  BeadId bead;
  QString number;  // "26-0003"
  QString kind;    // "pan", "fire"
  State state = State::waiting;
  int position = 0;  // on a tray, from 1; 0: a list without positions

  friend bool operator==(const TrayPlace&, const TrayPlace&) = default;
};

class TrayRow : public QWidget {
  Q_OBJECT
 public:
  explicit TrayRow(QWidget* parent = nullptr);
  void set_places(std::vector<TrayPlace> places, BeadId in_hand);
  const std::vector<TrayPlace>& places() const { return places_; }
  QSize sizeHint() const override;

 signals:
  void taken(prillbook::BeadId bead);

 protected:
  void paintEvent(QPaintEvent* event) override;
  void mousePressEvent(QMouseEvent* event) override;

 private:
  int first_shown() const;
  int room() const;  // places that fit
  void paint_place(QPainter& painter, const QRectF& cell, const TrayPlace& place) const;

  std::vector<TrayPlace> places_;
  BeadId in_hand_;
};

}  // namespace prillbook::ui
