// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/compare/doubt_bars.h"

#include <QtGui/QPainter>
#include <algorithm>
#include <cmath>

#include "ui/kit/theme.h"

namespace prillbook::ui {
namespace {

constexpr int line_height = 4 * rhythm + 2, bar_height = 3, share_room = 6 * rhythm;

QString share_text(double share) {
  return share < 0.5 ? QStringLiteral("<1 %") : QStringLiteral("%1 %").arg(int(std::lround(share)));
}

}  // namespace

DoubtBars::DoubtBars(QWidget* parent) : QWidget(parent) { setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed); }

void DoubtBars::set_lines(std::vector<Line> lines) {
  lines_ = std::move(lines);
  QStringList words;
  for (const Line& line : lines_) words << QStringLiteral("%1 %2").arg(share_text(line.share_pct), line.words);
  setAccessibleName(words.join(QStringLiteral("; ")));
  updateGeometry();
  update();
}

QSize DoubtBars::sizeHint() const { return {40 * rhythm, std::max(1, int(lines_.size())) * line_height}; }

void DoubtBars::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  const QFont small = face(TextSize::small);
  const QFontMetrics metrics(small);
  int y = 0;
  for (const Line& line : lines_) {
    painter.setFont(face(TextSize::small, Weight::bold));
    painter.setPen(inks().ink);
    painter.drawText(QRect(0, y, share_room - rhythm, line_height - 8), Qt::AlignRight | Qt::AlignVCenter,
                     share_text(line.share_pct));
    painter.setFont(small);
    const QRect words(share_room, y, width() - share_room, line_height - 8);
    painter.drawText(words, Qt::AlignLeft | Qt::AlignVCenter, metrics.elidedText(line.words, Qt::ElideRight, words.width()));
    const int room = width() - share_room;
    painter.fillRect(QRect(share_room, y + line_height - 8, room, 1), inks().rule);
    painter.fillRect(QRectF(share_room, y + line_height - 9, room * line.share_pct / 100, bar_height), inks().ink);
    y += line_height;
  }
}

}  // namespace prillbook::ui
