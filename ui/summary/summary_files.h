// SPDX-License-Identifier: GPL-3.0-or-later
// The files of a summary: their names, and how each is written.
#pragma once

#include <QtCore/QString>

#include "core/base/result.h"
#include "core/base/watch.h"
#include "core/summary/report.h"
#include "ui/summary/summary_station.h"

namespace prillbook::ui {

struct FileWords {
  QString ending, filter;
};
FileWords words_of(FileKind kind);

// "Larch Adit Syndicate 4 May 2026.pdf": what no file name may hold becomes a blank.
QString file_name(const QString& client, const QString& date, const QString& ending);

// On any thread. Errors: disk_full, read_only, not_found, cancelled; a file of that name is then as it was.
Result<void> write_file(FileKind kind, const summary::Report& report, const std::string& path, bool letter = false,
                        const Watch& watch = {});

}  // namespace prillbook::ui
