// SPDX-License-Identifier: GPL-3.0-or-later
// Qt 6.4 writes no outlines, so the bookmarks are put into its file afterwards (ISO 32000-1, 12.3.3; libqpdf).
#pragma once

#include <QtCore/QSizeF>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"
#include "ui/paper/flow.h"

namespace prillbook::paper {

// The same pages with an outline of two levels, the language and the title in the window's head. `page`: tenths of a
// point. Errors: damaged where `pdf` is no PDF.
Result<std::string> with_bookmarks(std::string_view pdf, const std::vector<Bookmark>& bookmarks, const QSizeF& page,
                                   const std::string& language = "en");

}  // namespace prillbook::paper
