// SPDX-License-Identifier: GPL-3.0-or-later
// Paints a client summary on paper: PDF with real text and embedded fonts, or pages as pictures for a preview.
// Needs a QGuiApplication; no window and no display (platform "offscreen" will do).
#pragma once

#include <QtCore/QString>
#include <QtGui/QImage>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/base/watch.h"
#include "core/summary/report.h"

namespace prillbook::paper {

enum class PaperSize { a4, letter };

struct Paper {
  PaperSize size = PaperSize::a4;
  QString family;  // typeface; empty: our own bundled one
};

// The file itself: document title, language, fonts embedded, text that can be searched, a bookmark for every heading.
// Any thread may paint. Errors: damaged where the bookmarks can not be put in; cancelled.
Result<std::string> pdf_bytes(const summary::Report& report, const Paper& paper = {}, const Watch& watch = {});

// Errors: disk_full, read_only, not_found, with the path; cancelled; a file of that name is then as it was.
Result<void> write_pdf(const summary::Report& report, const std::string& path, const Paper& paper = {}, const Watch& watch = {});

// The same pages as pictures; those that are there where it was stopped. Domain: dots_per_inch 20 to 600.
std::vector<QImage> page_images(const summary::Report& report, const Paper& paper, double dots_per_inch, const Watch& watch = {});

}  // namespace prillbook::paper
