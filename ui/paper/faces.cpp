// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/paper/faces.h"

#include <QtGui/QFontDatabase>

// Outside every namespace, as Q_INIT_RESOURCE demands.
static void load_resources() { Q_INIT_RESOURCE(prillbook); }

namespace prillbook::paper {
namespace {

QString loaded(const QString& file) {
  const int id = QFontDatabase::addApplicationFont(QStringLiteral(":/prillbook/fonts/%1.ttf").arg(file));
  const QStringList families = id < 0 ? QStringList{} : QFontDatabase::applicationFontFamilies(id);
  return families.isEmpty() ? QStringLiteral("serif") : families.first();
}

const QString& own_family() {
  static const QString family = [] {
    load_resources();
    loaded(QStringLiteral("GentiumBookPlus-Bold"));
    return loaded(QStringLiteral("GentiumBookPlus-Regular"));
  }();
  return family;
}

int tenths_of_a_point(Size size) {
  switch (size) {
    case Size::small: return 88;
    case Size::body: return 106;
    case Size::large: return 150;
  }
  return 106;
}

}  // namespace

Faces::Faces(const Paper& paper) : family(paper.family.isEmpty() ? own_family() : paper.family) {}

QFont Faces::face(Size size, bool bold) const {
  QFont font(family);
  font.setPixelSize(tenths_of_a_point(size));
  font.setBold(bold);
  font.setHintingPreference(QFont::PreferNoHinting);
  // A trace of letter spacing keeps Qt from joining f and i to one glyph, which could not be found as text.
  font.setLetterSpacing(QFont::AbsoluteSpacing, 1.0 / 32);
  return font;
}

double line_height(Size size) { return tenths_of_a_point(size) * 1.32; }

}  // namespace prillbook::paper
