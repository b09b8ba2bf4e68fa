// SPDX-License-Identifier: GPL-3.0-or-later
#include <QtCore/QString>
#include <utility>

#include "ui/kit/theme.h"

namespace prillbook::ui {
namespace {

// No frames, no boxes in boxes: fields are ruled lines, lists lie on the paper, only what can be pressed has an edge.
const char* const sheet = R"(
QMainWindow, QDialog, QMessageBox { background: @ground; }
QToolTip { background: @shaded; color: @ink; border: 1px solid @rule; padding: 4px 8px; }
QAbstractScrollArea { background: transparent; border: none; }

QLabel[tone="quiet"] { color: @quiet; }
QLabel[tone="signal"] { color: @signal; }
QLabel[tone="accent"] { color: @accent; }

QLineEdit { background: transparent; border: none; border-bottom: 1px solid @line; border-radius: 0;
  padding: 2px 0 3px 0; selection-background-color: @accent; selection-color: @on_accent; }
QLineEdit:focus { border-bottom: 2px solid @accent; padding-bottom: 2px; }
QLineEdit[refused="true"] { border-bottom: 2px solid @signal; padding-bottom: 2px; }
QLineEdit:read-only { border-bottom: 1px solid @rule; }

QPushButton { background: transparent; color: @accent; border: 1px solid @accent; border-radius: 4px; padding: 5px 16px; }
QPushButton:hover { background: @shaded; }
QPushButton:focus { border: 2px solid @accent; padding: 4px 15px; }
QPushButton[main="true"], QPushButton:default { background: @accent; color: @on_accent; }
QPushButton[main="true"]:focus, QPushButton:default:focus { border: 2px solid @ink; }
QPushButton:disabled { color: @quiet; border-color: @rule; background: transparent; }

QToolButton { background: transparent; color: @accent; border: none; border-radius: 4px; padding: 4px 8px; }
QToolButton:hover { background: @shaded; }
QToolButton:focus { border-bottom: 2px solid @accent; padding-bottom: 2px; border-radius: 0; }
QToolButton:disabled { color: @quiet; }
QToolButton::menu-indicator { image: none; }

QCheckBox { spacing: 10px; color: @ink; }
QCheckBox::indicator { width: 14px; height: 14px; border: 1px solid @line; border-radius: 2px; background: transparent; }
QCheckBox::indicator:focus { border: 2px solid @accent; width: 12px; height: 12px; }
QCheckBox::indicator:checked { image: url(:/prillbook/icons/tick_@shade.svg); }
QCheckBox:focus { color: @accent; }

QComboBox { background: transparent; color: @ink; border: none; border-bottom: 1px solid @line; border-radius: 0; padding: 2px 0 3px 0; }
QComboBox:focus { border-bottom: 2px solid @accent; padding-bottom: 2px; }
QComboBox:disabled { color: @quiet; }
QComboBox QAbstractItemView { background: @ground; color: @ink; border: 1px solid @rule; selection-background-color: @shaded;
  selection-color: @accent; outline: none; }

QTableView { background: transparent; border: none; outline: none; }
QTableView::item { border-bottom: 1px solid @rule; padding: 0 8px; }
QTableView::item:selected { background: @shaded; color: @ink; border-bottom: 2px solid @accent; }
QTableView QLineEdit { background: @ground; padding: 0 8px; }
QHeaderView { background: transparent; border: none; }
QHeaderView::section { background: transparent; color: @quiet; border: none; border-bottom: 1px solid @line; padding: 4px 8px; }
QHeaderView::section:vertical { border-bottom: 1px solid @rule; }
QTableCornerButton::section { background: transparent; border: none; border-bottom: 1px solid @line; }

QMenu { background: @ground; color: @ink; border: 1px solid @rule; padding: 8px 0; }
QMenu::item { padding: 6px 24px; }
QMenu::item:selected { background: @shaded; color: @accent; }
QMenu::separator { height: 1px; background: @rule; margin: 8px 0; }

QListView { outline: none; color: @ink; }
QListWidget::item { padding: 3px 0; }
QListWidget::item:selected { background: @shaded; color: @ink; }
QListView::indicator { width: 14px; height: 14px; border: 1px solid @line; border-radius: 2px; background: transparent; }
QListView::indicator:checked { image: url(:/prillbook/icons/tick_@shade.svg); }
QListView[floating="true"] { background: @ground; border: 1px solid @rule; border-top: none; }
QListView[floating="true"]::item { padding: 5px 8px 5px 21px; border-left: 3px solid @ground; }
QListView[floating="true"]::item:selected { background: @shaded; color: @ink; border-left: 3px solid @accent; }

QScrollBar:vertical { background: transparent; width: 10px; margin: 0; }
QScrollBar:horizontal { background: transparent; height: 10px; margin: 0; }
QScrollBar::handle { background: @rule; border-radius: 5px; min-height: 40px; min-width: 40px; }
QScrollBar::handle:hover { background: @line; }
QScrollBar::add-line, QScrollBar::sub-line { width: 0; height: 0; }
QScrollBar::add-page, QScrollBar::sub-page { background: transparent; }
)";

}  // namespace

QString style_sheet(const Inks& inks) {
  QString text = QString::fromLatin1(sheet);
  const std::pair<const char*, QColor> colours[] = {
      {"@on_accent", inks.on_accent}, {"@ground", inks.ground}, {"@shaded", inks.shaded}, {"@ink", inks.ink},
      {"@quiet", inks.quiet},         {"@rule", inks.rule},     {"@line", inks.line},     {"@accent", inks.accent},
      {"@signal", inks.signal},
  };
  text.replace(QLatin1String("@shade."), QLatin1String(inks.dark ? "dark." : "light."));
  for (const auto& [name, colour] : colours) text.replace(QLatin1String(name), colour.name());
  return text;
}

}  // namespace prillbook::ui
