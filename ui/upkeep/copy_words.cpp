// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/upkeep/copy_words.h"

#include <QtCore/QCoreApplication>
#include <QtCore/QDateTime>
#include <QtCore/QLocale>
#include <QtCore/QStringList>

#include "ui/kit/figures.h"
#include "ui/kit/sentences.h"

namespace prillbook::ui {
namespace {

struct CopyWords {
  Q_DECLARE_TR_FUNCTIONS(CopyWords)

 public:
  static QString kind(upkeep::CopyKind kind) {
    switch (kind) {
      case upkeep::CopyKind::taken: return tr("taken by itself");
      case upkeep::CopyKind::before_migration: return tr("before the program renewed the file");
      case upkeep::CopyKind::replaced: return tr("was the notebook until a copy took its place");
      case upkeep::CopyKind::sealed: return tr("sealed by a passphrase");
      case upkeep::CopyKind::conflict: return tr("another version, with entries of its own");
    }
    return {};
  }

  static QString holds(const upkeep::Holds& holds) {
    const QString samples = tr("%n samples", nullptr, int(holds.samples));
    if (!holds.last) return tr("Holds %1 and no entry yet.").arg(samples);
    return tr("Holds %1. Last entry: %2, %3%4.")
        .arg(samples, to_qt(holds.last->gesture), date_time_text(holds.last->when),
             holds.last->who.empty() ? QString() : tr(", by %1").arg(to_qt(holds.last->who)));
  }

  static QString people(const upkeep::Since& since) {
    QStringList people;
    for (const auto& [who, gestures] : since.gestures_by_person)
      people << tr("%1 %2").arg(who.empty() ? tr("nobody named") : to_qt(who)).arg(gestures);
    return people.join(tr(", "));
  }

  static QString made(const upkeep::Since& since) {
    QStringList made;
    for (const auto& [entity, count] : since.made)
      made << QStringLiteral("%1 × %2").arg(count).arg(to_qt(history::spec_of(entity).table).replace('_', ' '));
    return made.isEmpty() ? QString() : tr(" New: %1.").arg(made.join(tr(", ")));
  }

  static QString difference(const upkeep::Difference& difference) {
    if (!difference.related()) return tr("This is a copy of another notebook: the two have no entry in common.");
    if (difference.same()) return tr("It says what the notebook says today.");
    QStringList words;
    if (const auto& lost = difference.only_here; lost.entries > 0)
      words << (lost.gestures == 1 ? tr("One entry made since then is not in it (by %1).%2").arg(people(lost), made(lost))
                                   : tr("%1 entries made since then are not in it (by %2).%3")
                                         .arg(QString::number(lost.gestures), people(lost), made(lost)));
    if (const auto& more = difference.only_in_copy; more.entries > 0)
      words << (more.gestures == 1
                    ? tr("It has one entry that the notebook of today lacks (by %1).%2").arg(people(more), made(more))
                    : tr("It has %1 entries that the notebook of today lacks (by %2).%3")
                          .arg(QString::number(more.gestures), people(more), made(more)));
    return words.join('\n');
  }
};

}  // namespace

QString kind_words(upkeep::CopyKind kind) { return CopyWords::kind(kind); }
QString size_words(std::int64_t bytes) { return QLocale::c().formattedDataSize(bytes, 1, QLocale::DataSizeSIFormat); }

QString taken_words(const upkeep::Copy& copy) {
  if (copy.taken) {
    const auto ms = std::chrono::milliseconds(copy.taken->time_since_epoch()).count();
    return date_time_text({ms, 0});
  }
  const QDateTime written = QDateTime::fromSecsSinceEpoch(copy.written_s);
  return date_time_text({copy.written_s * 1000, written.offsetFromUtc() / 60});
}

QString holds_words(const upkeep::Holds& holds) { return CopyWords::holds(holds); }
QString difference_words(const upkeep::Difference& difference) { return CopyWords::difference(difference); }

QString newest_words(const upkeep::Since& since) {
  QStringList lines;
  for (const history::HistoryRow& row : since.newest)
    lines << QStringLiteral("%1   %2   %3").arg(date_time_text(row.when), to_qt(row.gesture), to_qt(row.who));
  return lines.join('\n');
}

}  // namespace prillbook::ui
