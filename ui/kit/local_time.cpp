// SPDX-License-Identifier: GPL-3.0-or-later
// Days and times as people type them.
#include <QtCore/QCoreApplication>
#include <QtCore/QDateTime>
#include <QtCore/QLocale>
#include <QtCore/QRegularExpression>
#include <optional>

#include "ui/kit/fields.h"
#include "ui/kit/sentences.h"

namespace prillbook::ui {
namespace {

struct Split {
  QString day;
  std::optional<QTime> time;
  bool good = true;
};

Split split(const QString& text) {
  static const QRegularExpression at_end(QStringLiteral(R"((?:^|[\s,T])(\d{1,2}):(\d{2})(?::\d{2})?$)"));
  const auto match = at_end.match(text);
  if (!match.hasMatch()) return {text, std::nullopt, true};
  const QTime time(match.captured(1).toInt(), match.captured(2).toInt());
  QString day = text.left(match.capturedStart()).trimmed();
  while (day.endsWith(QLatin1Char(','))) day.chop(1);
  return {day.trimmed(), time, time.isValid()};
}

std::optional<QDate> valid(int year, int month, int day) {
  const QDate date(year < 100 ? 2000 + year : year, month, day);
  return date.isValid() ? std::optional(date) : std::nullopt;
}

// "4 May", "4 May 2026", in the language of the window or in English.
std::optional<QDate> with_month_name(const QString& text, const QDate& today) {
  static const QRegularExpression shape(QStringLiteral(R"(^(\d{1,2})\.?\s+(\p{L}{3,})\.?(?:\s+(\d{4}))?$)"));
  const auto match = shape.match(text);
  if (!match.hasMatch()) return std::nullopt;
  const QString name = match.captured(2).left(3);
  const int year = match.captured(3).isEmpty() ? today.year() : match.captured(3).toInt();
  for (int month = 1; month <= 12; ++month)
    for (const QLocale& locale : {QLocale(), QLocale::c()})
      if (locale.monthName(month, QLocale::LongFormat).startsWith(name, Qt::CaseInsensitive))
        return valid(year, month, match.captured(1).toInt());
  return std::nullopt;
}

std::optional<QDate> with_numbers(const QString& text, const QDate& today) {
  static const QRegularExpression iso(QStringLiteral(R"(^(\d{4})-(\d{1,2})-(\d{1,2})$)"));
  static const QRegularExpression dotted(QStringLiteral(R"(^(\d{1,2})\.(\d{1,2})\.?(\d{4}|\d{2})?$)"));
  static const QRegularExpression slashed(QStringLiteral(R"(^(\d{1,2})/(\d{1,2})(?:/(\d{4}|\d{2}))?$)"));
  if (const auto match = iso.match(text); match.hasMatch())
    return valid(match.captured(1).toInt(), match.captured(2).toInt(), match.captured(3).toInt());
  const auto year_of = [&](const QString& year) { return year.isEmpty() ? today.year() : year.toInt(); };
  if (const auto match = dotted.match(text); match.hasMatch())
    return valid(year_of(match.captured(3)), match.captured(2).toInt(), match.captured(1).toInt());
  const auto match = slashed.match(text);
  if (!match.hasMatch()) return std::nullopt;
  const QString order = QLocale().dateFormat(QLocale::ShortFormat);
  const bool month_first = order.indexOf(QLatin1Char('M')) < order.indexOf(QLatin1Char('d'));
  return valid(year_of(match.captured(3)), match.captured(month_first ? 1 : 2).toInt(),
               match.captured(month_first ? 2 : 1).toInt());
}

struct Words {
  Q_DECLARE_TR_FUNCTIONS(DateTimeField)

 public:
  static QString now() { return tr("now"); }
  static QString today() { return tr("today"); }
  static QString yesterday() { return tr("yesterday"); }
};

std::optional<QDate> day_of(const QString& text, const QDate& today) {
  if (text.isEmpty() || text.compare(Words::today(), Qt::CaseInsensitive) == 0) return today;
  if (text.compare(Words::yesterday(), Qt::CaseInsensitive) == 0) return today.addDays(-1);
  const auto named = with_month_name(text, today);
  return named ? named : with_numbers(text, today);
}

}  // namespace

Result<Instant> parse_local_time(const QString& typed, const Instant& now) {
  const QString text = typed.trimmed();
  const Error refused{ErrorCode::out_of_range, "", "no day or time", {to_core(text)}};
  if (text.compare(Words::now(), Qt::CaseInsensitive) == 0) return now;
  const QDate today = QDate::fromString(to_qt(local_date(now)), Qt::ISODate);
  const Split parts = split(text);
  if (!parts.good || (parts.day.isEmpty() && !parts.time)) return refused;
  const auto day = day_of(parts.day, today);
  if (!day) return refused;
  const QDateTime when(*day, parts.time.value_or(QTime(12, 0)), Qt::LocalTime);
  if (!when.isValid()) return refused;
  const std::int64_t local_ms = when.toMSecsSinceEpoch() + std::int64_t{when.offsetFromUtc()} * 1000;
  const bool machine_zone = QDateTime::fromMSecsSinceEpoch(now.utc_ms).offsetFromUtc() == now.offset_minutes * 60;
  const std::int32_t offset = machine_zone ? when.offsetFromUtc() / 60 : now.offset_minutes;
  return Instant{local_ms - std::int64_t{offset} * 60'000, offset};
}

}  // namespace prillbook::ui
