// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/kit/theme.h"

#include <QtCore/QEvent>
#include <QtGui/QFontDatabase>
#include <QtGui/QFontMetrics>
#include <QtGui/QPalette>
#include <QtWidgets/QApplication>
#include <QtWidgets/QComboBox>
#include <QtWidgets/QStyle>
#include <QtWidgets/QStyleFactory>
#include <algorithm>
#include <cmath>

// Outside every namespace, as Q_INIT_RESOURCE demands.
static void load_resources() { Q_INIT_RESOURCE(prillbook); }

namespace prillbook::ui {
namespace {

const Inks* inks_now = nullptr;

// The gamma step of one sRGB channel, WCAG 2.1 "relative luminance".
double linear(double channel) { return channel <= 0.03928 ? channel / 12.92 : std::pow((channel + 0.055) / 1.055, 2.4); }

double luminance(const QColor& colour) {
  return 0.2126 * linear(double(colour.redF())) + 0.7152 * linear(double(colour.greenF())) +
         0.0722 * linear(double(colour.blueF()));
}

struct Faces {
  QString light, book;

  Faces() {
    load_resources();
    light = loaded(QStringLiteral("GentiumPlus-Regular"));
    book = loaded(QStringLiteral("GentiumBookPlus-Regular"));
    loaded(QStringLiteral("GentiumBookPlus-Bold"));
  }

  static QString loaded(const QString& file) {
    const int id = QFontDatabase::addApplicationFont(QStringLiteral(":/prillbook/fonts/%1.ttf").arg(file));
    const QStringList families = id < 0 ? QStringList{} : QFontDatabase::applicationFontFamilies(id);
    return families.isEmpty() ? QStringLiteral("serif") : families.first();
  }
};

int pixels(TextSize size) {
  switch (size) {
    case TextSize::small: return 15;
    case TextSize::body: return 18;
    case TextSize::large: return 26;
    case TextSize::weigh_room: return 76;
  }
  return 18;
}

QPalette palette_of(const Inks& inks) {
  QPalette palette;
  palette.setColor(QPalette::Window, inks.ground);
  palette.setColor(QPalette::Base, inks.ground);
  palette.setColor(QPalette::AlternateBase, inks.shaded);
  palette.setColor(QPalette::Button, inks.ground);
  palette.setColor(QPalette::ToolTipBase, inks.shaded);
  for (const auto role :
       {QPalette::WindowText, QPalette::Text, QPalette::ButtonText, QPalette::ToolTipText, QPalette::BrightText})
    palette.setColor(role, inks.ink);
  for (const auto role : {QPalette::WindowText, QPalette::Text, QPalette::ButtonText})
    palette.setColor(QPalette::Disabled, role, inks.quiet);
  palette.setColor(QPalette::PlaceholderText, inks.quiet);
  palette.setColor(QPalette::Highlight, inks.accent);
  palette.setColor(QPalette::HighlightedText, inks.on_accent);
  palette.setColor(QPalette::Link, inks.accent);
  palette.setColor(QPalette::Light, inks.shaded);
  palette.setColor(QPalette::Mid, inks.rule);
  palette.setColor(QPalette::Dark, inks.line);
  palette.setColor(QPalette::Shadow, inks.rule);
  return palette;
}

}  // namespace

const Inks& light_inks() {
  static const Inks inks{QColor(0xF7F2E8),
                         QColor(0xEDE6D8),
                         QColor(0x26221C),
                         QColor(0x655C4E),
                         QColor(0xD9CFBE),
                         QColor(0x857A69),
                         QColor(0x17695F),
                         QColor(0xFBF8F1),
                         QColor(0xA83218),
                         QColor(0xC9962F),
                         QColor(0x6C7479),
                         QColor(0xE4D9BF),
                         false};
  return inks;
}

const Inks& dark_inks() {
  static const Inks inks{QColor(0x1C1915),
                         QColor(0x27231D),
                         QColor(0xECE4D5),
                         QColor(0xB0A592),
                         QColor(0x3B352C),
                         QColor(0x83796A),
                         QColor(0x74C2B2),
                         QColor(0x14211E),
                         QColor(0xF28A70),
                         QColor(0xD9AC4E),
                         QColor(0xAAB2B7),
                         QColor(0x3D3626),
                         true};
  return inks;
}

double contrast(const QColor& one, const QColor& other) {
  const double a = luminance(one), b = luminance(other);
  return (std::max(a, b) + 0.05) / (std::min(a, b) + 0.05);
}

const Inks& inks() { return inks_now ? *inks_now : light_inks(); }

QFont face(TextSize size, Weight weight) {
  static const Faces faces;
  QFont font(weight == Weight::light ? faces.light : faces.book);
  font.setPixelSize(pixels(size));
  font.setBold(weight == Weight::bold);
  font.setHintingPreference(QFont::PreferVerticalHinting);
  return font;
}

void restyle(QWidget* widget) {
  widget->style()->unpolish(widget);
  widget->style()->polish(widget);
}

Theme::Theme(QApplication& application, Shade shade) : application_(application), shade_(shade) {
  application_.setStyle(QStyleFactory::create(QStringLiteral("Fusion")));
  application_.setFont(face(TextSize::body));
  apply();
  application_.installEventFilter(this);
}

Theme::~Theme() { inks_now = nullptr; }

void Theme::set_shade(Shade shade) {
  shade_ = shade;
  apply();
}

void Theme::apply() {
  applying_ = true;
  bool dark = shade_ == Shade::dark;
  if (shade_ == Shade::follow_system) {
    application_.setPalette(QPalette());  // the system's own
    dark = application_.palette().color(QPalette::Window).lightness() < 128;
  }
  inks_now = dark ? &dark_inks() : &light_inks();
  application_.setPalette(palette_of(*inks_now));
  application_.setStyleSheet(style_sheet(*inks_now));
  applying_ = false;
  emit changed();
}

bool Theme::eventFilter(QObject* watched, QEvent* event) {
  // No wheel changes a choice that it only passes over: it turns the page beneath.
  if (event->type() == QEvent::Wheel && qobject_cast<QComboBox*>(watched)) {
    event->ignore();
    return true;
  }
  if (event->type() == QEvent::ThemeChange && !applying_ && shade_ == Shade::follow_system) apply();
  return QObject::eventFilter(watched, event);
}

}  // namespace prillbook::ui
