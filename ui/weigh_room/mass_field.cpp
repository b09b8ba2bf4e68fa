// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/weigh_room/mass_field.h"

#include <QtGui/QFontMetrics>
#include <QtGui/QKeyEvent>
#include <QtWidgets/QLineEdit>

#include "ui/kit/theme.h"

namespace prillbook::ui {

void MassField::set_large(bool large) {
  constexpr int large_px = 128;
  if (large == large_) return;
  large_ = large;
  // The style sheet of the window comes before a font that is set: it has to say the size as well.
  line()->setStyleSheet(large ? QStringLiteral("font-size: %1px").arg(large_px) : QString());
  set_huge(true);
  QFont figure = face(TextSize::weigh_room);
  if (large) figure.setPixelSize(large_px);
  line()->setFont(figure);
  line()->setFixedHeight(QFontMetrics(figure).height() - (large ? 0 : rhythm));
  if (large) line()->setMaximumWidth(QWIDGETSIZE_MAX);
}

void MassField::ask_none_seen() {
  asking_none_ = true;
  show_note(tr("No bead was seen after a search? Enter says so; any other key goes back."));
}

bool MassField::eventFilter(QObject* watched, QEvent* event) {
  if (asking_none_ && event->type() == QEvent::ShortcutOverride && static_cast<QKeyEvent*>(event)->key() == Qt::Key_Escape) {
    event->accept();
    return true;
  }
  if (watched != line() || event->type() != QEvent::KeyPress || line()->isReadOnly())
    return ReadingField::eventFilter(watched, event);
  const auto& key = *static_cast<QKeyEvent*>(event);
  if (own_key(key)) return true;
  const bool tab = key.key() == Qt::Key_Tab || key.key() == Qt::Key_Backtab;
  staying_ = !tab;
  const bool eaten = ReadingField::eventFilter(watched, event);
  staying_ = false;
  return eaten;
}

// LineField steps on after Enter; here Enter stays.
bool MassField::focusNextPrevChild(bool next) { return staying_ || ReadingField::focusNextPrevChild(next); }

bool MassField::own_key(const QKeyEvent& key) {
  if (key.modifiers() & (Qt::ControlModifier | Qt::AltModifier)) return false;
  const bool enter = key.key() == Qt::Key_Return || key.key() == Qt::Key_Enter;
  if (asking_none_) {
    asking_none_ = false;
    clear_messages();
    if (enter) emit none_seen();
    return enter || key.key() == Qt::Key_Escape || key.key() == Qt::Key_Backspace;
  }
  if (key.key() == Qt::Key_Up) return emit correction_wanted(), true;
  if (key.text() == QLatin1String("+") && question_text().isEmpty()) return emit again_wanted(), true;
  if (!typed().isEmpty()) return false;
  switch (key.key()) {
    case Qt::Key_N: return ask_none_seen(), true;
    case Qt::Key_L: return emit large_wanted(), true;
    case Qt::Key_T: return emit cup_wanted(), true;
    case Qt::Key_S: return emit spoiled_wanted(), true;
    case Qt::Key_Backspace: return emit before_wanted(), true;
    case Qt::Key_Down: return emit next_wanted(), true;
    default: break;
  }
  if (enter) emit shown_wanted();
  return enter;
}

}  // namespace prillbook::ui
