// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/kit/figures.h"

#include <QtCore/QDate>
#include <QtCore/QLocale>
#include <QtGui/QFontMetricsF>
#include <QtGui/QPainter>
#include <algorithm>

#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"

namespace prillbook::ui {
namespace {

const QChar narrow_blank(0x202F);

QString in_lab_mark(std::string_view rounded, DecimalMark mark) {
  QString text = to_qt(rounded);
  text.replace(QLatin1Char('-'), QChar(0x2212));
  return mark == DecimalMark::comma ? text.replace(QLatin1Char('.'), QLatin1Char(',')) : text;
}

// Length of the typed text up to the unit that follows it.
qsizetype figure_length(const QString& typed) {
  qsizetype end = typed.size();
  while (end > 0 && !typed[end - 1].isDigit() && typed[end - 1] != QLatin1Char('.') && typed[end - 1] != QLatin1Char(',')) --end;
  return end;
}

QString local_day(const Instant& when) {
  const QDate day = QDate::fromString(to_qt(local_date(when)), Qt::ISODate);
  return QLocale().toString(day, QStringLiteral("d MMM yyyy"));
}

}  // namespace

Figure as_typed(const std::optional<readings::Reading>& reading) {
  if (!reading) return {};
  const QString typed = to_qt(reading->typed);
  if (reading->state == readings::State::none_seen) return {typed, {}};
  const qsizetype end = figure_length(typed);
  return {typed.left(end > 0 ? end : typed.size()), to_qt(reading->unit)};
}

Figure figure(std::string_view rounded, std::string_view unit, DecimalMark mark) {
  return {in_lab_mark(rounded, mark), to_qt(unit)};
}

Figure interval(std::string_view rounded, std::string_view rounded_half_width, std::string_view unit, DecimalMark mark) {
  return {QStringLiteral("%1 ± %2").arg(in_lab_mark(rounded, mark), in_lab_mark(rounded_half_width, mark)), to_qt(unit)};
}

QString text(const Figure& figure) {
  if (!figure.measured() || figure.unit.isEmpty()) return figure.number;
  return figure.number + narrow_blank + figure.unit;
}

QString in_short(const QString& name, int letters) {
  return name.size() <= letters ? name : name.left(letters - 1).trimmed() + QChar(0x2026);
}

QString date_text(const Instant& when) { return local_day(when); }
QString time_text(const Instant& when) { return to_qt(local_time(when)); }
QString date_time_text(const Instant& when) { return date_text(when) + QStringLiteral(", ") + time_text(when); }

void draw_on_mark(QPainter& painter, const QPointF& at, const Figure& figure, double empty_width) {
  const QPen ink = painter.pen();
  if (!figure.measured()) {
    painter.setPen(QPen(inks().line, 1));
    painter.drawLine(at + QPointF(-empty_width / 2, 3), at + QPointF(empty_width / 2, 3));
    painter.setPen(ink);
    return;
  }
  const QFont book = painter.font();
  const QFontMetricsF metrics(book);
  // The mark of the value, not of what stands after ±; a whole number has its mark at its end.
  const QString value = figure.number.section(QLatin1Char(' '), 0, 0);
  const qsizetype point = value.indexOf(QLatin1Char('.')), comma = value.indexOf(QLatin1Char(','));
  const qsizetype mark = std::max(point, comma) < 0 ? value.size() : std::max(point, comma);
  const double before = metrics.horizontalAdvance(figure.number.left(mark));
  painter.drawText(at - QPointF(before, 0), figure.number);
  const double after = metrics.horizontalAdvance(figure.number) - before;
  QFont light = face(TextSize::body, Weight::light);
  light.setPixelSize(book.pixelSize() > 0 ? book.pixelSize() : light.pixelSize());
  painter.setFont(light);
  painter.setPen(inks().quiet);
  painter.drawText(at + QPointF(after + metrics.height() / 6, 0), figure.unit);
  painter.setFont(book);
  painter.setPen(ink);
}

}  // namespace prillbook::ui
