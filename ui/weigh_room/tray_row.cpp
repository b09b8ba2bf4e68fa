// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/weigh_room/tray_row.h"

#include <QtGui/QMouseEvent>
#include <QtGui/QPainter>
#include <algorithm>

#include "ui/kit/theme.h"

namespace prillbook::ui {
namespace {

constexpr int cell_width = 9 * rhythm, cup = 30, cup_middle = 20, more_room = 10 * rhythm;

QString state_word(TrayPlace::State state) {
  switch (state) {
    case TrayPlace::State::waiting: return TrayRow::tr("waiting");
    case TrayPlace::State::weighed: return TrayRow::tr("weighed");
    case TrayPlace::State::none_seen: return TrayRow::tr("none seen");
    case TrayPlace::State::spoiled: return TrayRow::tr("lost");
  }
  return {};
}

}  // namespace

TrayRow::TrayRow(QWidget* parent) : QWidget(parent) {
  setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
  setAccessibleName(tr("Tray"));
}

QSize TrayRow::sizeHint() const { return {60 * rhythm, 9 * rhythm}; }

void TrayRow::set_places(std::vector<TrayPlace> places, BeadId in_hand) {
  if (places == places_ && in_hand == in_hand_) return;
  places_ = std::move(places);
  in_hand_ = in_hand;
  QStringList words;
  for (const TrayPlace& place : places_)
    words << (place.position ? tr("position %1: ").arg(place.position) : QString()) +
                 QStringLiteral("%1 %2 %3").arg(place.number, place.kind, state_word(place.state));
  setAccessibleDescription(words.join(QStringLiteral("; ")));
  update();
}

int TrayRow::room() const { return std::max(1, (width() - more_room) / cell_width); }

// The one in hand stands about a third along, so that what comes next is in sight.
int TrayRow::first_shown() const {
  const auto found =
      std::find_if(places_.begin(), places_.end(), [&](const TrayPlace& place) { return in_hand_ && place.bead == in_hand_; });
  const int at = found == places_.end() ? 0 : int(found - places_.begin());
  return std::clamp(at - room() / 3, 0, std::max(0, int(places_.size()) - room()));
}

void TrayRow::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  const int first = first_shown(), last = std::min(int(places_.size()), first + room());
  if (last > first) {  // the edge of the tray
    painter.setPen(QPen(inks().rule, 1));
    painter.drawLine(QPointF(0, cup_middle + cup / 2.0 + 4), QPointF((last - first) * cell_width, cup_middle + cup / 2.0 + 4));
  }
  for (int i = first; i < last; ++i)
    paint_place(painter, QRectF((i - first) * cell_width, 0, cell_width, height()), places_[std::size_t(i)]);
  const int more = int(places_.size()) - last;
  if (more <= 0) return;
  painter.setFont(face(TextSize::small));
  painter.setPen(inks().quiet);
  painter.drawText(QRectF((last - first) * cell_width + rhythm, 0, more_room, 2 * cup_middle), Qt::AlignVCenter,
                   tr("%1 more").arg(more));
}

void TrayRow::paint_place(QPainter& painter, const QRectF& cell, const TrayPlace& place) const {
  const Inks& ink = inks();
  const bool lit = in_hand_ && place.bead == in_hand_;
  const QPointF middle(cell.center().x(), cup_middle);
  if (lit) {
    painter.setPen(Qt::NoPen);
    painter.setBrush(ink.accent);
    painter.drawEllipse(middle, cup / 2.0 + 4, cup / 2.0 + 4);
  }
  painter.setPen(QPen(lit ? ink.ground : ink.line, 1.5));
  painter.setBrush(lit ? ink.ground : ink.shaded);
  painter.drawEllipse(middle, cup / 2.0, cup / 2.0);
  painter.setPen(QPen(ink.rule, 1));
  painter.drawEllipse(middle, cup / 2.0 - 5, cup / 2.0 - 5);  // the bowl of the cupel
  painter.setPen(QPen(ink.ink, 1.5));
  if (place.state == TrayPlace::State::weighed) {
    painter.setBrush(ink.gold);
    painter.drawEllipse(middle, 5, 5);
  } else if (place.state == TrayPlace::State::spoiled) {
    painter.drawLine(middle + QPointF(-6, -6), middle + QPointF(6, 6));
    painter.drawLine(middle + QPointF(-6, 6), middle + QPointF(6, -6));
  } else if (place.state == TrayPlace::State::none_seen) {
    painter.drawLine(middle + QPointF(-6, 0), middle + QPointF(6, 0));
  }
  if (place.position && place.state == TrayPlace::State::waiting) {
    painter.setFont(face(TextSize::small));
    painter.setPen(ink.quiet);
    painter.drawText(QRectF(middle.x() - cup / 2.0, middle.y() - cup / 2.0, cup, cup), Qt::AlignCenter,
                     QString::number(place.position));
  }
  const QFont small = face(TextSize::small, lit ? Weight::bold : Weight::book);
  painter.setFont(small);
  painter.setPen(lit ? ink.ink : ink.quiet);
  const QRectF below(cell.x() + 2, cup_middle + cup / 2.0 + 6, cell.width() - 4, 24);
  const QString tail = place.bead ? place.number.section(QLatin1Char('-'), -1) : place.number;
  painter.drawText(below, Qt::AlignHCenter | Qt::AlignTop,
                   QFontMetrics(small).elidedText(tail + QLatin1Char(' ') + place.kind, Qt::ElideRight, int(below.width())));
}

void TrayRow::mousePressEvent(QMouseEvent* event) {
  const int at = first_shown() + event->pos().x() / cell_width;
  if (event->pos().x() < room() * cell_width && at >= 0 && at < int(places_.size()) && places_[std::size_t(at)].bead)
    emit taken(places_[std::size_t(at)].bead);
}

}  // namespace prillbook::ui
