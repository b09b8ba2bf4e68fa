// SPDX-License-Identifier: GPL-3.0-or-later
// Paper and ink: the colours, type sizes and rhythm that every widget draws with. Widgets ask inks() while painting
// and repaint on QEvent::PaletteChange; they never name a colour or a font of their own.
#pragma once

#include <QtCore/QObject>
#include <QtGui/QColor>
#include <QtGui/QFont>

class QApplication;
class QWidget;

namespace prillbook::ui {

// One set of inks. Every pair of a text ink and `ground` has a contrast of at least 4.5:1, `line` at least 3:1
// (WCAG 2.1, success criteria 1.4.3 and 1.4.11); tests/ui_kit/contrast_test measures it.
struct Inks {
  QColor ground;     // the paper
  QColor shaded;     // paper a little darker: the way, the row in hand
  QColor ink;        // text and figures
  QColor quiet;      // labels, units, hints
  QColor rule;       // hairlines that only separate; carries no meaning
  QColor line;       // the ruled line of a field: shows where to write
  QColor accent;     // verdigris: what can be acted on
  QColor on_accent;  // text on a patch of accent
  QColor signal;     // cinnabar: what stops
  QColor gold;       // fill of a gold mark; a word stands beside it
  QColor silver;     // outline of a silver mark
  QColor gap;        // shading between two intervals
  bool dark = false;
};

const Inks& light_inks();
const Inks& dark_inks();

// Contrast ratio of two opaque colours, 1 to 21. Source: WCAG 2.1, "relative luminance" and "contrast ratio".
double contrast(const QColor& one, const QColor& other);

enum class Shade { follow_system, light, dark };

enum class TextSize { small, body, large, weigh_room };  // 15, 18, 26 and 76 px
enum class Weight { light, book, bold };                 // light: units and asides

// Our own bundled face; all its figures have one width. Falls back to the system's where the resource is missing.
QFont face(TextSize size, Weight weight = Weight::book);

// Everything stands on a grid of 8 px.
inline constexpr int rhythm = 8;

// Installs style, palette, font and style sheet on the application and keeps them in step with the system's light or
// dark. Made once by main, after QApplication. main must also call std::setlocale(LC_NUMERIC, "C") after QApplication
// has been made: Qt sets the C locale from the environment, and libraries that print numbers would then write commas.
class Theme : public QObject {
  Q_OBJECT
 public:
  explicit Theme(QApplication& application, Shade shade = Shade::follow_system);
  ~Theme() override;

  void set_shade(Shade shade);
  Shade shade() const { return shade_; }

 signals:
  void changed();

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  void apply();

  QApplication& application_;
  Shade shade_;
  bool applying_ = false;
};

// The inks in use; light where no Theme was made.
const Inks& inks();

// Has the style sheet look again at the properties "tone", "refused" and "main" of a widget.
void restyle(QWidget* widget);

// The style sheet of a set of inks.
QString style_sheet(const Inks& inks);

}  // namespace prillbook::ui
