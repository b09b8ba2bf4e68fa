// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/kit/icons.h"

#include <QtCore/QFile>
#include <QtGui/QPainter>
#include <QtSvg/QSvgRenderer>

#include "ui/kit/theme.h"

namespace prillbook::ui {
namespace {

const char* name_of(Icon icon) {
  switch (icon) {
    case Icon::receiving: return "receiving";
    case Icon::preparation: return "preparation";
    case Icon::pan: return "pan";
    case Icon::furnace: return "furnace";
    case Icon::sieves: return "sieves";
    case Icon::weigh_room: return "weigh_room";
    case Icon::compare: return "compare";
    case Icon::summary: return "summary";
    case Icon::quality: return "quality";
    case Icon::findings: return "findings";
    case Icon::setup: return "setup";
    case Icon::find: return "find";
    case Icon::undo: return "undo";
    case Icon::redo: return "redo";
    case Icon::guide: return "guide";
    case Icon::fold: return "fold";
    case Icon::person: return "person";
    case Icon::notebook: return "notebook";
    case Icon::written: return "written";
  }
  return "findings";
}

}  // namespace

QString drawing(Icon icon) { return QStringLiteral(":/prillbook/icons/%1.svg").arg(QLatin1String(name_of(icon))); }

QPixmap pixmap(Icon icon, const QColor& ink, int size, qreal pixel_ratio) {
  QPixmap pixmap(int(size * pixel_ratio), int(size * pixel_ratio));
  pixmap.setDevicePixelRatio(pixel_ratio);
  pixmap.fill(Qt::transparent);
  QFile file(drawing(icon));
  if (!file.open(QIODevice::ReadOnly)) return pixmap;
  QSvgRenderer renderer(file.readAll().replace("currentColor", ink.name().toLatin1()));
  QPainter painter(&pixmap);
  renderer.render(&painter, QRectF(0, 0, size, size));
  return pixmap;
}

QIcon line_icon(Icon which) {
  QIcon icon;
  for (const qreal ratio : {1.0, 2.0}) {
    icon.addPixmap(pixmap(which, inks().accent, 20, ratio), QIcon::Normal);
    icon.addPixmap(pixmap(which, inks().ink, 20, ratio), QIcon::Active);
    icon.addPixmap(pixmap(which, inks().line, 20, ratio), QIcon::Disabled);
  }
  return icon;
}

}  // namespace prillbook::ui
