// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/furnace/tray_grid.h"

#include <QtGui/QKeyEvent>
#include <QtGui/QPainter>
#include <algorithm>
#include <cmath>

#include "ui/kit/theme.h"

namespace prillbook::ui {
namespace {

constexpr int cell_height = 8 * rhythm, widest_cell = 13 * rhythm, narrowest_cell = 9 * rhythm;

QString position_words(std::int64_t position, const TrayCell& cell) {
  return cell.words.isEmpty() ? TrayGrid::tr("position %1: empty").arg(position)
                              : TrayGrid::tr("position %1: %2").arg(position).arg(cell.words);
}

}  // namespace

TrayGrid::TrayGrid(QWidget* parent) : QWidget(parent) {
  QSizePolicy policy(QSizePolicy::Expanding, QSizePolicy::Fixed);
  policy.setHeightForWidth(true);
  setSizePolicy(policy);
  setFocusPolicy(Qt::StrongFocus);
  setAccessibleName(tr("Tray"));
}

void TrayGrid::set_tray(trays::Kind kind, const trays::Grid& grid, std::vector<TrayCell> cells) {
  kind_ = kind;
  grid_ = grid;
  cells_ = std::move(cells);
  cells_.resize(std::size_t(std::max<std::int64_t>(0, grid_.size())));
  in_hand_ = std::clamp<std::int64_t>(in_hand_, 1, std::max<std::int64_t>(1, grid_.size()));
  updateGeometry();
  take(in_hand_);
}

void TrayGrid::take(std::int64_t position) {
  if (!grid_.holds(position)) return;
  in_hand_ = position;
  setAccessibleDescription(position_words(position, cells_[std::size_t(position - 1)]));
  update();
}

int TrayGrid::a_line(int width) const {
  if (grid_.rows > 1) return int(grid_.columns);
  return int(std::clamp<std::int64_t>(width / narrowest_cell, 1, grid_.columns));
}

double TrayGrid::cell_width(int width) const { return std::min<double>(widest_cell, double(width) / a_line(width)); }

int TrayGrid::lines(int width) const {
  const int per_line = a_line(width);
  return int((grid_.size() + per_line - 1) / per_line);
}

int TrayGrid::heightForWidth(int width) const { return lines(std::max(width, 1)) * cell_height + rhythm; }

QSize TrayGrid::sizeHint() const { return {80 * rhythm, heightForWidth(width() > 0 ? width() : 80 * rhythm)}; }

// The height follows the width that the layout gives.
void TrayGrid::resizeEvent(QResizeEvent*) { setMinimumHeight(heightForWidth(width())); }

QRectF TrayGrid::cell_of(std::int64_t position) const {
  const int per_line = a_line(width());
  const double wide = cell_width(width());
  return {double((position - 1) % per_line) * wide, double((position - 1) / per_line) * cell_height, wide, double(cell_height)};
}

std::int64_t TrayGrid::beside(int key) const {
  const int per_line = a_line(width());
  std::int64_t to = in_hand_;
  switch (key) {
    case Qt::Key_Left: to -= 1; break;
    case Qt::Key_Right: to += 1; break;
    case Qt::Key_Up: to -= per_line; break;
    case Qt::Key_Down: to += per_line; break;
    case Qt::Key_Home: to = 1; break;
    case Qt::Key_End: to = grid_.size(); break;
    default: return 0;
  }
  return grid_.holds(to) ? to : in_hand_;
}

void TrayGrid::keyPressEvent(QKeyEvent* event) {
  if (const std::int64_t to = beside(event->key())) {
    take(to);
    emit taken(to);
    return;
  }
  if (event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter) return emit entered();
  const QString text = event->text();
  if (text.size() == 1 && text[0].isLetterOrNumber() && !(event->modifiers() & (Qt::ControlModifier | Qt::AltModifier)))
    return emit wanted(text[0]);
  QWidget::keyPressEvent(event);
}

void TrayGrid::mousePressEvent(QMouseEvent* event) {
  for (std::int64_t position = 1; position <= grid_.size(); ++position)
    if (cell_of(position).contains(event->pos())) {
      take(position);
      return emit taken(position);
    }
}

void TrayGrid::paintEvent(QPaintEvent* event) {
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  for (std::int64_t position = 1; position <= grid_.size(); ++position) {
    const QRectF cell = cell_of(position);
    if (cell.intersects(event->rect())) paint_cell(painter, cell, position);
  }
}

// A crucible is a ring, a mould a square, a cupel a ring with its bowl, a bead's cup a small one: the word above says it too.
void TrayGrid::paint_cell(QPainter& painter, const QRectF& cell, std::int64_t position) const {
  constexpr double cup = 13, middle_y = 20;
  const Inks& ink = inks();
  const TrayCell& held = cells_[std::size_t(position - 1)];
  const bool lit = position == in_hand_;
  if (lit) {
    painter.setPen(Qt::NoPen);
    painter.setBrush(ink.shaded);
    painter.drawRect(cell.adjusted(1, 0, -1, -2));
    painter.fillRect(QRectF(cell.x() + 1, cell.bottom() - 4, cell.width() - 2, 2), hasFocus() ? ink.accent : ink.line);
  }
  const QPointF middle(cell.center().x(), cell.y() + middle_y);
  painter.setPen(QPen(held.words.isEmpty() ? ink.rule : ink.ink, 1.5));
  painter.setBrush(held.words.isEmpty() ? Qt::NoBrush : QBrush(held.control ? ink.shaded : ink.gap));
  if (kind_ == trays::Kind::mould)
    painter.drawRect(QRectF(middle.x() - cup, middle.y() - cup, 2 * cup, 2 * cup));
  else
    painter.drawEllipse(middle, cup, cup);
  painter.setBrush(Qt::NoBrush);
  if (kind_ == trays::Kind::cupel) painter.drawEllipse(middle, cup - 4, cup - 4);
  painter.setFont(face(TextSize::small, lit ? Weight::bold : Weight::book));
  painter.setPen(held.words.isEmpty() ? ink.quiet : ink.ink);
  painter.drawText(QRectF(middle.x() - cup, middle.y() - cup, 2 * cup, 2 * cup), Qt::AlignCenter, QString::number(position));
  const QRectF below(cell.x() + 3, cell.y() + middle_y + cup + 3, cell.width() - 6, 20);
  const Qt::TextElideMode side = held.control ? Qt::ElideRight : Qt::ElideLeft;
  painter.drawText(below, Qt::AlignHCenter | Qt::AlignTop,
                   painter.fontMetrics().elidedText(held.words, side, int(below.width())));
}

}  // namespace prillbook::ui
