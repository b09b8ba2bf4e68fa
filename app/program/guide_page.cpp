// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/program/guide_page.h"

#include <QtCore/QFile>
#include <QtGui/QTextBlock>
#include <QtGui/QTextDocument>

#include "ui/kit/theme.h"

namespace prillbook::program {
namespace {

QString text_of(const QString& path) {
  QFile file(path);
  return file.open(QIODevice::ReadOnly) ? QString::fromUtf8(file.readAll()) : QString();
}

// The window shows the real thing beside the guide; the pictures are for readers elsewhere.
QString without_pictures(const QString& markdown) {
  QStringList lines = markdown.split('\n');
  lines.removeIf([](const QString& line) { return line.startsWith(QLatin1String("![")); });
  return lines.join('\n');
}

// "Weigh room" is the page "weigh-room".
QString page_name(const QString& heading) { return heading.toLower().replace(' ', '-'); }

}  // namespace

GuidePage::GuidePage(QWidget* parent) : QTextBrowser(parent) {
  setAccessibleName(tr("Guide"));
  setOpenLinks(false);
  setFrameShape(QFrame::NoFrame);
  document()->setDocumentMargin(4 * ui::rhythm);
}

void GuidePage::open_at(const QString& page) {
  const bool cautions = page.startsWith("safety");
  const QString path = cautions ? ":/prillbook/docs/safety.md" : ":/prillbook/docs/guide.md";
  if (shown_ != path) setMarkdown(without_pictures(text_of(path)));
  shown_ = path;
  const QString wanted = page.section('/', -1);
  for (QTextBlock block = document()->begin(); block.isValid(); block = block.next()) {
    if (block.blockFormat().headingLevel() == 0 || page_name(block.text()) != wanted) continue;
    moveCursor(QTextCursor::End);  // so that the heading comes to the top
    setTextCursor(QTextCursor(block));
    ensureCursorVisible();
    return;
  }
  moveCursor(QTextCursor::Start);
}

}  // namespace prillbook::program
