// SPDX-License-Identifier: GPL-3.0-or-later
// Pages that are laid out: to a PDF, to pictures, to a printer. Needs a QGuiApplication, a printer a QApplication.
#pragma once

#include <QtCore/QStringList>
#include <QtGui/QImage>
#include <string>
#include <vector>

#include "ui/paper/flow.h"

namespace prillbook::paper {

struct Pages {
  PaperSize size = PaperSize::a4;
  bool lying = false;  // the long side lies at the foot
  QString title;
  std::vector<Sheet> sheets;

  QSizeF page() const;  // tenths of a point
};

// Errors: disk_full, read_only, not_found, with the path; a file of that name is then as it was. missing_key for no pages.
Result<void> write_pdf(const Pages& pages, const std::string& path);
// Domain: dots_per_inch 20 to 600.
std::vector<QImage> page_images(const Pages& pages, double dots_per_inch);

// Names of the printers that this machine knows, the usual one first; empty where there is none.
QStringList printers();
// In its true size. Errors: not_found where there is no such printer, or none at all (no argument then); read_only where it
// does not take the pages; missing_key for no pages.
Result<void> print(const Pages& pages, const QString& printer);

}  // namespace prillbook::paper
