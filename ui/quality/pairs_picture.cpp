// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/quality/pairs_picture.h"

#include <QtCore/QEvent>
#include <QtGui/QPainter>
#include <algorithm>
#include <cmath>

#include "core/assay/rounding.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"
#include "ui/quality/words.h"

namespace prillbook::ui {
namespace {

constexpr int rim_left = 8 * rhythm, rim_right = 18 * rhythm, rim_top = 4 * rhythm, rim_bottom = 6 * rhythm;
constexpr double least_grade = 0.01;  // g/t, where the scale begins at the latest
constexpr double marker = 5;

}  // namespace

PairsPicture::PairsPicture(QWidget* parent) : QWidget(parent) {
  setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
  show_pairs({}, DecimalMark::point);
}

void PairsPicture::show_pairs(const std::vector<results::DuplicatePair>& pairs, DecimalMark mark) {
  points_.clear();
  mark_ = mark;
  QStringList words;
  double low = 1e300, high = 0;
  top_ = 40;
  for (const results::DuplicatePair& pair : pairs) {
    if (!pair.apart_pct) continue;
    const double grade = std::max(least_grade, (pair.first.gold()->g_t() + pair.second.gold()->g_t()) / 2);
    points_.push_back({grade, *pair.apart_pct, pair.limit_pct, pair.second.role, pair.verdict == results::ControlVerdict::outside,
                       to_qt(pair.second.label)});
    low = std::min(low, grade);
    high = std::max(high, grade);
    top_ = std::max(top_, std::ceil(*pair.apart_pct / 20) * 20);
    words << tr("%1: %2 % apart").arg(to_qt(pair.second.label), to_qt(fixed(*pair.apart_pct, 0, mark)));
  }
  low_ = points_.empty() ? 0.1 : std::pow(10, std::floor(std::log10(low)));
  high_ = points_.empty() ? 10 : std::pow(10, std::ceil(std::log10(high * 1.0001)));
  setAccessibleName(words.isEmpty() ? tr("No pair to draw yet.") : words.join(QStringLiteral("; ")));
  update();
}

QSize PairsPicture::sizeHint() const { return {70 * rhythm, 32 * rhythm}; }
QSize PairsPicture::minimumSizeHint() const { return {40 * rhythm, 28 * rhythm}; }

QPointF PairsPicture::place_of(const Point& point, const QRectF& plot) const {
  const double across = std::log10(point.grade / low_) / std::log10(high_ / low_);
  return {plot.left() + across * plot.width(), plot.bottom() - point.apart / top_ * plot.height()};
}

void PairsPicture::draw_scale(QPainter& painter, const QRectF& plot) const {
  const Inks& ink = inks();
  const QFontMetricsF metrics(painter.font());
  for (double apart = 0; apart <= top_; apart += top_ > 100 ? 40 : top_ > 40 ? 20 : 10) {
    const double y = plot.bottom() - apart / top_ * plot.height();
    painter.setPen(QPen(ink.rule, 1));
    painter.drawLine(QPointF(plot.left(), y), QPointF(plot.right(), y));
    painter.setPen(ink.quiet);
    const QString words = QString::number(apart);
    painter.drawText(QPointF(plot.left() - metrics.horizontalAdvance(words) - rhythm, y + 5), words);
  }
  for (double grade = low_; grade <= high_ * 1.001; grade *= 10) {
    const double x = place_of({grade, 0, 0, {}, false, {}}, plot).x();
    const QString words = to_qt(written(grade, {}, {}, mark_));
    painter.drawText(QPointF(x - metrics.horizontalAdvance(words) / 2, plot.bottom() + 22), words);
  }
  painter.drawText(QPointF(rhythm, plot.top() - 14), tr("% apart"));
  const QString below = tr("g/t gold, mean of the two");
  painter.drawText(QPointF(plot.right() - metrics.horizontalAdvance(below), plot.bottom() + 38), below);
}

// Pulp a filled dot, coarse an open one, field a square; a ring round those outside.
void PairsPicture::draw_pair(QPainter& painter, const QRectF& plot, const Point& point) const {
  const Inks& ink = inks();
  const QPointF at = place_of(point, plot);
  painter.setPen(QPen(ink.ink, 1.6));
  painter.setBrush(point.role == controls::Role::duplicate_pulp ? QBrush(ink.ink) : QBrush(ink.ground));
  if (point.role == controls::Role::duplicate_field)
    painter.drawRect(QRectF(at.x() - marker, at.y() - marker, 2 * marker, 2 * marker));
  else
    painter.drawEllipse(at, marker, marker);
  if (!point.outside) return;
  painter.setBrush(Qt::NoBrush);
  painter.setPen(QPen(ink.signal, 2.4));
  painter.drawEllipse(at, 2 * marker, 2 * marker);
  painter.setPen(ink.ink);
  painter.drawText(QPointF(at.x() + 3 * marker, at.y() + 5), tr("%1, outside").arg(point.label));
}

void PairsPicture::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  painter.setFont(face(TextSize::small));
  const QRectF plot(rim_left, rim_top, std::max(1, width() - rim_left - rim_right), std::max(1, height() - rim_top - rim_bottom));
  if (points_.empty()) {
    painter.setPen(inks().quiet);
    painter.drawText(plot, Qt::AlignCenter | Qt::TextWordWrap,
                     tr("A pair is drawn here once both of its beads are weighed and their gold is known."));
    return;
  }
  draw_scale(painter, plot);
  std::vector<double> drawn;
  for (const Point& point : points_) {
    if (point.limit > top_ || std::find(drawn.begin(), drawn.end(), point.limit) != drawn.end()) continue;
    drawn.push_back(point.limit);
    const double y = plot.bottom() - point.limit / top_ * plot.height();
    painter.setPen(QPen(inks().line, 1.6, Qt::DashLine));
    painter.drawLine(QPointF(plot.left(), y), QPointF(plot.right(), y));
    painter.setPen(inks().quiet);
    painter.drawText(QPointF(plot.right() + rhythm, y + 5), role_word(point.role));
  }
  for (const Point& point : points_) draw_pair(painter, plot, point);
}

void PairsPicture::changeEvent(QEvent* event) {
  QWidget::changeEvent(event);
  if (event->type() == QEvent::PaletteChange) update();
}

}  // namespace prillbook::ui
