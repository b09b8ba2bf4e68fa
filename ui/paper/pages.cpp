// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/paper/pages.h"

#include <QtCore/QBuffer>
#include <QtGui/QPageLayout>
#include <QtGui/QPageSize>
#include <QtGui/QPdfWriter>
#include <QtPrintSupport/QPrinter>
#include <QtPrintSupport/QPrinterInfo>
#include <algorithm>

#include "core/store/part_file.h"

namespace prillbook::paper {
namespace {

constexpr int per_inch = 720;

QPageLayout layout_of(const Pages& pages) {
  QPageLayout layout(QPageSize(pages.size == PaperSize::a4 ? QPageSize::A4 : QPageSize::Letter),
                     pages.lying ? QPageLayout::Landscape : QPageLayout::Portrait, {});
  layout.setMode(QPageLayout::FullPageMode);
  return layout;
}

void paint_sheet(QPainter& painter, const Sheet& sheet) {
  for (const Stroke& stroke : sheet) stroke(painter);
}

Error no_pages() { return {ErrorCode::missing_key, "pages", "there is nothing to put on paper", {}}; }

}  // namespace

QSizeF Pages::page() const {
  const QSizeF upright = page_size(size);
  return lying ? upright.transposed() : upright;
}

Result<void> write_pdf(const Pages& pages, const std::string& path) {
  if (pages.sheets.empty()) return no_pages();
  QByteArray bytes;
  QBuffer buffer(&bytes);
  buffer.open(QIODevice::WriteOnly);
  {
    QPdfWriter writer(&buffer);
    writer.setResolution(per_inch);
    writer.setPageLayout(layout_of(pages));
    writer.setTitle(pages.title);
    writer.setCreator(QStringLiteral("Prillbook"));
    QPainter painter(&writer);
    for (std::size_t i = 0; i < pages.sheets.size(); ++i) {
      if (i > 0) writer.newPage();
      paint_sheet(painter, pages.sheets[i]);
    }
  }
  return store::write_whole(path, {bytes.constData(), static_cast<std::size_t>(bytes.size())});
}

std::vector<QImage> page_images(const Pages& pages, double dots_per_inch) {
  const double scale = std::clamp(dots_per_inch, 20.0, 600.0) / per_inch;
  std::vector<QImage> images;
  for (const Sheet& sheet : pages.sheets) {
    QImage image((pages.page() * scale).toSize(), QImage::Format_RGB32);
    image.fill(Qt::white);
    QPainter painter(&image);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.scale(scale, scale);
    paint_sheet(painter, sheet);
    painter.end();
    images.push_back(std::move(image));
  }
  return images;
}

QStringList printers() {
  QStringList names = QPrinterInfo::availablePrinterNames();
  const QString usual = QPrinterInfo::defaultPrinterName();
  if (const auto at = names.indexOf(usual); at > 0) names.move(at, 0);
  return names;
}

Result<void> print(const Pages& pages, const QString& name) {
  if (pages.sheets.empty()) return no_pages();
  const QStringList known = printers();
  if (known.isEmpty()) return Error{ErrorCode::not_found, "printer", "no printer is set up on this machine", {}};
  if (!known.contains(name))
    return Error{ErrorCode::not_found, "printer", "there is no printer " + name.toStdString(), {name.toStdString()}};
  QPrinter printer(QPrinterInfo::printerInfo(name), QPrinter::HighResolution);
  printer.setPageLayout(layout_of(pages));
  printer.setFullPage(true);
  printer.setDocName(pages.title);
  printer.setCreator(QStringLiteral("Prillbook"));
  QPainter painter;
  if (!painter.begin(&printer))
    return Error{ErrorCode::read_only, "printer", name.toStdString() + " does not take the pages", {name.toStdString()}};
  const double scale = double(printer.resolution()) / per_inch;
  for (std::size_t i = 0; i < pages.sheets.size(); ++i) {
    if (i > 0) printer.newPage();
    painter.save();
    painter.scale(scale, scale);
    paint_sheet(painter, pages.sheets[i]);
    painter.restore();
  }
  if (!painter.end())
    return Error{ErrorCode::read_only, "printer", name.toStdString() + " does not take the pages", {name.toStdString()}};
  return {};
}

}  // namespace prillbook::paper
