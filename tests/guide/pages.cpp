// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/guide/pages.h"

#include <QtCore/QDir>
#include <QtCore/QFile>
#include <QtCore/QRegularExpression>
#include <QtCore/QUrl>
#include <QtGui/QImage>
#include <QtGui/QPageSize>
#include <QtGui/QPdfWriter>
#include <QtGui/QTextBlock>
#include <QtGui/QTextDocument>

#include "ui/kit/theme.h"

namespace prillbook::guide {
namespace {

constexpr double body_points = 10.5;
constexpr double text_width = 620;  // of a page of A4 between the margins that Qt prints with, in pixels of 96 an inch
constexpr int dots_per_inch = 300;

const char* const page = R"(<!DOCTYPE html>
<html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width"><title>%1</title>
<style>
body { max-width: 46em; margin: 2em auto; padding: 0 1em; font: 1.05em/1.5 Georgia, serif; color: #26221c; background: #f7f2e8 }
img { max-width: 100%; height: auto; border: 1px solid #d9cfbe } a { color: #17695f } pre { overflow-x: auto }
</style></head><body>
%2
</body></html>
)";

QString text_of(const QString& path) {
  QFile file(path);
  return file.open(QIODevice::ReadOnly) ? QString::fromUtf8(file.readAll()) : QString();
}

bool write(const QString& path, const QString& text) {
  QFile file(path);
  return file.open(QIODevice::WriteOnly) && file.write(text.toUtf8()) >= 0;
}

// "Weigh room" is "#weigh-room", as in the window.
QString with_places(QString html) {
  static const QRegularExpression heading(R"(<h([1-6])[^>]*>(.*?)</h\1>)");
  static const QRegularExpression marks("<[^>]*>");
  qsizetype from = 0;
  for (auto match = heading.match(html); match.hasMatch(); match = heading.match(html, from)) {
    const QString words = match.captured(2).remove(marks);
    const QString plain =
        QStringLiteral("<h%1 id=\"%2\">%3</h%1>").arg(match.captured(1), words.toLower().replace(' ', '-'), words);
    html.replace(match.capturedStart(), match.capturedLength(), plain);
    from = match.capturedStart() + plain.size();
  }
  return html;
}

QString body_of(const QTextDocument& document) {
  static const QRegularExpression style(R"( style="[^"]*")");
  QString html = document.toHtml().section(QStringLiteral("<body"), 1).section('>', 1).section(QStringLiteral("</body>"), 0, 0);
  return with_places(html.remove(style));
}

// The names of pictures, in the order of the guide.
QStringList pictures_in(const QString& markdown) {
  static const QRegularExpression picture(R"(!\[[^\]]*\]\((pictures/[^)]+)\))");
  QStringList names;
  for (auto each = picture.globalMatch(markdown); each.hasNext();) names << each.next().captured(1);
  return names;
}

// Every picture as wide as the page.
void fit_pictures(QTextDocument& document) {
  for (QTextBlock block = document.begin(); block.isValid(); block = block.next())
    for (auto it = block.begin(); !it.atEnd(); ++it) {
      QTextImageFormat format = it.fragment().charFormat().toImageFormat();
      if (!format.isValid()) continue;
      format.setWidth(text_width);
      QTextCursor cursor(&document);
      cursor.setPosition(it.fragment().position());
      cursor.setPosition(it.fragment().position() + it.fragment().length(), QTextCursor::KeepAnchor);
      cursor.setCharFormat(format);
    }
}

bool write_pdf(QTextDocument& document, const QString& path, const QString& title) {
  QPdfWriter writer(path);
  writer.setTitle(title);
  writer.setPageSize(QPageSize(QPageSize::A4));
  writer.setPageMargins(QMarginsF());
  writer.setResolution(dots_per_inch);
  fit_pictures(document);
  document.print(&writer);
  return QFile(path).size() > 0;
}

}  // namespace

QStringList make_pages(const QString& docs, const QString& folder) {
  const QString markdown = text_of(QDir(docs).filePath("guide.md"));
  if (markdown.isEmpty()) return {QDir(docs).filePath("guide.md")};
  QDir().mkpath(QDir(folder).filePath("pictures"));
  QStringList failed;
  for (const QString& name : pictures_in(markdown)) {
    const QString to = QDir(folder).filePath(name);
    QFile::remove(to);
    if (!QFile::copy(QDir(docs).filePath(name), to)) failed << name;
  }
  QTextDocument document;
  QFont font = ui::face(ui::TextSize::body);
  font.setPointSizeF(body_points);
  document.setDefaultFont(font);
  document.setMarkdown(markdown, QTextDocument::MarkdownDialectGitHub);
  for (const QString& name : pictures_in(markdown))
    document.addResource(QTextDocument::ImageResource, QUrl(name), QImage(QDir(docs).filePath(name)));
  const QString title = QStringLiteral("Prillbook: the guide");
  if (!write(QDir(folder).filePath("guide.html"), QString::fromLatin1(page).arg(title, body_of(document))))
    failed << "guide.html";
  if (!write_pdf(document, QDir(folder).filePath("guide.pdf"), title)) failed << "guide.pdf";
  return failed;
}

}  // namespace prillbook::guide
