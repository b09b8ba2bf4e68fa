// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/summary/summary_files.h"

#include <QtCore/QCoreApplication>
#include <QtCore/QRegularExpression>

#include "core/exchange/csv.h"
#include "core/exchange/summary_json.h"
#include "core/exchange/xlsx.h"
#include "ui/kit/sentences.h"
#include "ui/paper/paper.h"

namespace prillbook::ui {
namespace {

QString tr(const char* words) { return QCoreApplication::translate("SummaryStation", words); }

}  // namespace

FileWords words_of(FileKind kind) {
  switch (kind) {
    case FileKind::pdf: return {QStringLiteral(".pdf"), tr("PDF (*.pdf)")};
    case FileKind::spreadsheet: return {QStringLiteral(".xlsx"), tr("Spreadsheet (*.xlsx)")};
    case FileKind::list: return {QStringLiteral(".csv"), tr("List, comma-separated (*.csv)")};
    case FileKind::plain: return {QStringLiteral(".json"), tr("JSON (*.json)")};
  }
  return {};
}

QString file_name(const QString& client, const QString& date, const QString& ending) {
  static const QRegularExpression forbidden(QStringLiteral("[\\x00-\\x1f/\\\\:*?\"<>|]+"));
  QString name = client;
  name.replace(forbidden, QStringLiteral(" "));
  name = name.simplified().left(60).trimmed();
  while (name.startsWith(QLatin1Char('.')) || name.startsWith(QLatin1Char(' '))) name.remove(0, 1);
  return (name.isEmpty() ? tr("Summary") : name) + QLatin1Char(' ') + date + ending;
}

Result<void> write_file(FileKind kind, const summary::Report& report, const std::string& path, bool letter, const Watch& watch) {
  switch (kind) {
    case FileKind::pdf:
      return paper::write_pdf(report, path, {letter ? paper::PaperSize::letter : paper::PaperSize::a4, {}}, watch);
    case FileKind::spreadsheet: return exchange::write_xlsx(report, path, watch);
    case FileKind::list: return exchange::write_csv(report, path);
    case FileKind::plain: return exchange::write_summary_json(report, path);
  }
  return Error{ErrorCode::unknown_key, "kind", "no such kind of file", {}};
}

}  // namespace prillbook::ui
