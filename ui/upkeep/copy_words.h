// SPDX-License-Identifier: GPL-3.0-or-later
// A copy of the notebook, and what parts it from today, in words.
#pragma once

#include <QtCore/QString>

#include "core/upkeep/copies.h"
#include "core/upkeep/difference.h"

namespace prillbook::ui {

QString kind_words(upkeep::CopyKind kind);
QString size_words(std::int64_t bytes);
// "4 May 2026, 09:30", by its name or by the file system.
QString taken_words(const upkeep::Copy& copy);
QString holds_words(const upkeep::Holds& holds);
// One sentence, and one more for each side that has something of its own.
QString difference_words(const upkeep::Difference& difference);
// "14:02 weigh bead, HM" a line.
QString newest_words(const upkeep::Since& since);

}  // namespace prillbook::ui
