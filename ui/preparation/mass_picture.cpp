// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/preparation/mass_picture.h"

#include <QtCore/QBuffer>
#include <QtGui/QKeyEvent>
#include <QtGui/QMouseEvent>
#include <QtGui/QPageSize>
#include <QtGui/QPainter>
#include <QtGui/QPainterPath>
#include <QtGui/QPdfWriter>
#include <algorithm>
#include <cmath>

#include "core/store/part_file.h"
#include "ui/kit/figures.h"
#include "ui/kit/record_fields.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"
#include "ui/preparation/words.h"

namespace prillbook::ui {
namespace {

using milling::FlowLayout;
using milling::Reach;
using milling::ReachKind;
using milling::ReachPlace;

constexpr double words_gap = 4;

// Two lines of words stand on a reach so wide.
double words_inside(double line) { return 2 * line + 2; }

QRectF body_of(const ReachPlace& place) { return {place.x, place.y, place.length, place.width}; }

RecordRef record_of(const Reach& reach) {
  if (reach.step) return {history::Entity::step, reach.step.value};
  if (reach.portion) return {history::Entity::portion, reach.portion.value};
  return {history::Entity::sample, reach.sample.value};
}

QString name_of(const Reach& reach) {
  switch (reach.kind) {
    case ReachKind::source: return to_qt(reach.name);
    case ReachKind::after: return step_done_word(reach.name);
    case ReachKind::part:
      return QStringLiteral("%1 %2").arg(to_qt(reach.name).section('/', 1).prepend('/'), choice_word(reach.purpose));
    case ReachKind::rest: return MassPicture::tr("left");
    case ReachKind::loss: return MassPicture::tr("lost");
  }
  return {};
}

QString figure_of_reach(const Reach& reach, DecimalMark mark) {
  return reach.weighed ? mass_words(reach.mass, mark) : MassPicture::tr("not weighed");
}

// A bend from the parent's end to the reach, then the reach itself.
QPainterPath water_of(const ReachPlace& place) {
  const double middle = (place.from_x + place.x) / 2;
  constexpr double under = 0.75;  // begins a little under its parent, so that no seam is seen between them
  QPainterPath path(QPointF(place.from_x - under, place.from_y));
  path.lineTo(place.from_x, place.from_y);
  path.cubicTo(middle, place.from_y, middle, place.y, place.x, place.y);
  path.lineTo(place.x + place.length, place.y);
  path.lineTo(place.x + place.length, place.y + place.width);
  path.lineTo(place.x, place.y + place.width);
  const double below = place.from_y + place.from_width;
  path.cubicTo(middle, place.y + place.width, middle, below, place.from_x, below);
  path.lineTo(place.from_x - under, below);
  path.closeSubpath();
  return path;
}

QColor mixed(const QColor& one, const QColor& other, float share) {
  return QColor::fromRgbF(one.redF() * (1 - share) + other.redF() * share, one.greenF() * (1 - share) + other.greenF() * share,
                          one.blueF() * (1 - share) + other.blueF() * share);
}

void paint_water(QPainter& painter, const Reach& reach, const ReachPlace& place, const Inks& ink, bool in_hand) {
  const QPainterPath water = water_of(place);
  const bool loss = reach.kind == ReachKind::loss;
  // A loss is hatched and ends in drops: a meaning does not rest on its colour.
  QBrush brush(mixed(ink.ground, ink.accent, in_hand ? 0.55F : 0.28F));
  if (loss) brush = QBrush(ink.signal, Qt::BDiagPattern);
  if (!reach.weighed) brush = QBrush(ink.line, Qt::Dense6Pattern);
  painter.setBrush(brush);
  painter.setPen(QPen(loss ? ink.signal : brush.color(), 1));  // so that a thin steep bend is still seen
  painter.drawPath(water);
}

void paint_words(QPainter& painter, const Reach& reach, const ReachPlace& place, const FlowLook& look) {
  const Inks& ink = look.inks;
  const QString name = name_of(reach), mass = figure_of_reach(reach, look.mark);
  painter.setFont(
      face(TextSize::small, reach.kind == ReachKind::source || reach.kind == ReachKind::part ? Weight::bold : Weight::book));
  const QFontMetricsF metrics(face(TextSize::small));
  const double line = metrics.height();
  const bool inside = place.width >= words_inside(line);
  // Words stand on a broad reach, else above and below a narrow one.
  const double middle = place.y + place.width / 2;
  const double upper = inside ? middle - 3 : place.y - words_gap;
  const double lower = inside ? middle + line - 4 : place.y + place.width + metrics.ascent() + 1;
  painter.setPen(reach.kind == ReachKind::loss ? ink.signal : ink.ink);
  painter.drawText(QPointF(place.x + 6, upper), name);
  painter.setFont(face(TextSize::small));
  painter.setPen(reach.kind == ReachKind::loss ? ink.signal : inside ? ink.ink : ink.quiet);
  QString below = mass;
  if (reach.top_size) below += QStringLiteral(" · ") + text(as_typed(reach.top_size));
  painter.drawText(QPointF(place.x + 6, lower), below);
}

milling::FlowStyle flow_style() {
  milling::FlowStyle style;
  const QFontMetricsF metrics(face(TextSize::small));
  style.words_inside = words_inside(metrics.height());
  style.least_band = 2 * metrics.height() + 14;
  style.reach = metrics.horizontalAdvance(QStringLiteral("not weighed 00 mm")) + 8;
  style.column = style.reach + 6 * rhythm;
  style.source_width = 9 * rhythm;
  return style;
}

// The picture from top to bottom, cut into pages. A page shows what the one before showed last once more, so that no words
// are cut through.
Result<void> write_flow_pages(QIODevice& device, const std::vector<Reach>& reaches, DecimalMark mark, const QString& title) {
  QPdfWriter writer(&device);
  writer.setPageSize(QPageSize(QPageSize::A4));
  const milling::FlowStyle style = flow_style();
  const FlowLayout layout = milling::lay_out(reaches, style);
  writer.setPageOrientation(layout.height > layout.width ? QPageLayout::Portrait : QPageLayout::Landscape);
  writer.setResolution(300);
  writer.setTitle(title);
  QPainter painter(&writer);
  if (!painter.isActive()) return refusal(ErrorCode::disk_full, "path", "the page can't be painted");
  constexpr double head = 48, least_width = 900;
  Inks ink = light_inks();
  ink.ground = Qt::white;
  constexpr double least_shrink = 0.75;  // rather a little smaller than a page for the last few branches
  const double to_width = writer.width() / std::max(layout.width, least_width);
  const double to_page = writer.height() / (layout.height + head + 1);
  const double scale = to_page < least_shrink * to_width ? to_width : std::min(to_width, to_page);
  const double on_page = writer.height() / scale - head, step = on_page - 2 * style.least_band;
  const int pages = layout.height <= on_page ? 1 : 1 + int(std::ceil((layout.height - on_page) / step));
  for (int page = 0; page < pages; ++page) {
    if (page > 0 && !writer.newPage()) return refusal(ErrorCode::disk_full, "path", "the page can't be begun");
    painter.save();
    painter.scale(scale, scale);
    painter.setFont(face(TextSize::body, Weight::bold));
    painter.setPen(ink.ink);
    painter.drawText(QPointF(12, 28),
                     pages > 1 ? MassPicture::tr("%1 · page %2 of %3").arg(title).arg(page + 1).arg(pages) : title);
    painter.translate(0, head);
    painter.setClipRect(QRectF(0, 0, writer.width() / scale, on_page));
    painter.translate(0, -page * step);
    paint_flow(painter, reaches, layout, {mark, ink});
    painter.restore();
  }
  if (!painter.end()) return refusal(ErrorCode::disk_full, "path", "the page could not be painted to its end");
  return {};
}

}  // namespace

void paint_flow(QPainter& painter, const std::vector<Reach>& reaches, const FlowLayout& layout, const FlowLook& look) {
  painter.setRenderHint(QPainter::Antialiasing);
  const QRectF seen = painter.hasClipping() ? painter.clipBoundingRect() : QRectF(0, 0, layout.width, layout.height);
  const auto shown = [&](const ReachPlace& place) {
    const double top = std::min(place.y, place.from_y) - 40,
                 bottom = std::max(place.y + place.width, place.from_y + place.from_width) + 40;
    return bottom >= seen.top() && top <= seen.bottom();
  };
  const std::size_t count = std::min(reaches.size(), layout.places.size());
  for (std::size_t i = 0; i < count; ++i)
    if (shown(layout.places[i])) paint_water(painter, reaches[i], layout.places[i], look.inks, int(i) == look.in_hand);
  for (std::size_t i = 0; i < count; ++i)
    if (shown(layout.places[i])) paint_words(painter, reaches[i], layout.places[i], look);
  if (look.in_hand < 0 || look.in_hand >= int(count)) return;
  painter.setBrush(Qt::NoBrush);
  painter.setPen(QPen(look.inks.accent, look.focused ? 2.5 : 1.5));
  painter.drawRoundedRect(body_of(layout.places[std::size_t(look.in_hand)]).adjusted(-2, -2, 2, 2), 3, 3);
}

Result<void> write_flow_pdf(const std::vector<Reach>& reaches, DecimalMark mark, const QString& title, const QString& path) {
  QBuffer bytes;
  bytes.open(QIODevice::WriteOnly);
  PRILLBOOK_TRY(write_flow_pages(bytes, reaches, mark, title));
  return store::write_whole(to_core(path), bytes.data().toStdString());
}

MassPicture::MassPicture(QWidget* parent) : QWidget(parent) {
  setFocusPolicy(Qt::StrongFocus);
  setAccessibleName(tr("Mass picture"));
  setSizePolicy(QSizePolicy::Minimum, QSizePolicy::Fixed);
}

void MassPicture::set_flow(std::vector<Reach> reaches, DecimalMark mark) {
  const bool held = in_hand_ >= 0 && in_hand_ < int(reaches_.size());
  const RecordRef before = held ? record_of(reaches_[std::size_t(in_hand_)]) : RecordRef{};
  const ReachKind kind = held ? reaches_[std::size_t(in_hand_)].kind : ReachKind::source;
  reaches_ = std::move(reaches);
  mark_ = mark;
  layout_ = milling::lay_out(reaches_, flow_style());
  in_hand_ = -1;
  for (std::size_t i = 0; held && i < reaches_.size(); ++i)
    if (record_of(reaches_[i]) == before && reaches_[i].kind == kind) in_hand_ = int(i);
  updateGeometry();
  update();
}

QSize MassPicture::sizeHint() const { return {int(layout_.width) + 1, std::max(int(layout_.height) + 1, 8 * rhythm)}; }

QRectF MassPicture::place_of(int reach) const { return body_of(layout_.places[std::size_t(reach)]); }

QString MassPicture::words_of(int reach) const {
  const Reach& one = reaches_[std::size_t(reach)];
  return QStringLiteral("%1, %2").arg(name_of(one), figure_of_reach(one, mark_));
}

void MassPicture::take(int reach) {
  in_hand_ = reach >= 0 && reach < int(reaches_.size()) ? reach : -1;
  setAccessibleDescription(in_hand_ < 0 ? QString() : words_of(in_hand_));
  update();
}

void MassPicture::choose(int reach) {
  if (reach < 0 || reach == in_hand_) return;
  take(reach);
  emit taken(reach);
}

void MassPicture::open() {
  if (in_hand_ >= 0) emit opened(record_of(reaches_[std::size_t(in_hand_)]));
}

void MassPicture::paintEvent(QPaintEvent* event) {
  QPainter painter(this);
  painter.setClipRect(event->rect());
  paint_flow(painter, reaches_, layout_, {mark_, inks(), in_hand_, hasFocus()});
}

int MassPicture::reach_at(const QPointF& point) const {
  constexpr double room = 14;  // a thin reach is hit by its words as well
  int hit = -1;
  for (std::size_t i = 0; i < layout_.places.size(); ++i) {
    const QRectF body = body_of(layout_.places[i]);
    const double more = std::max(0.0, room - body.height() / 2);
    if (body.adjusted(0, -more, 0, more).contains(point)) hit = int(i);
  }
  return hit;
}

void MassPicture::mousePressEvent(QMouseEvent* event) { choose(reach_at(event->position())); }

void MassPicture::mouseDoubleClickEvent(QMouseEvent* event) {
  if (reach_at(event->position()) == in_hand_) open();
}

// The next reach of the same column, by its place.
int MassPicture::sideways(int step) const {
  const int depth = reaches_[std::size_t(in_hand_)].depth;
  const double from = layout_.places[std::size_t(in_hand_)].y;
  int best = -1;
  for (std::size_t i = 0; i < reaches_.size(); ++i) {
    const double at = layout_.places[i].y;
    if (reaches_[i].depth != depth || (step > 0 ? at <= from : at >= from)) continue;
    if (best < 0 || (step > 0 ? at < layout_.places[std::size_t(best)].y : at > layout_.places[std::size_t(best)].y))
      best = int(i);
  }
  return best;
}

void MassPicture::keyPressEvent(QKeyEvent* event) {
  if (reaches_.empty()) return QWidget::keyPressEvent(event);
  if (in_hand_ < 0) take(0);
  switch (event->key()) {
    case Qt::Key_Left: return choose(reaches_[std::size_t(in_hand_)].parent);
    case Qt::Key_Right:
      for (std::size_t i = 0; i < reaches_.size(); ++i)
        if (reaches_[i].parent == in_hand_) return choose(int(i));
      return;
    case Qt::Key_Up: return choose(sideways(-1));
    case Qt::Key_Down: return choose(sideways(1));
    case Qt::Key_Home: return choose(0);
    case Qt::Key_Return:
    case Qt::Key_Enter: return open();
    default: return QWidget::keyPressEvent(event);
  }
}

void MassPicture::focusInEvent(QFocusEvent* event) {
  if (in_hand_ < 0 && !reaches_.empty()) choose(0);
  QWidget::focusInEvent(event);
  update();
}

void MassPicture::focusOutEvent(QFocusEvent* event) {
  QWidget::focusOutEvent(event);
  update();
}

}  // namespace prillbook::ui
