// SPDX-License-Identifier: GPL-3.0-or-later
// What is in sight in a window: fields, folds, lists and bars of news, found by what they say.
#pragma once

#include <QtWidgets/QToolButton>
#include <algorithm>

#include "tests/support/window_hand.h"
#include "ui/kit/messages.h"
#include "ui/kit/press_button.h"
#include "ui/kit/waiting_list.h"

namespace prillbook::testing_support {

template <class FieldType = ui::LineField>
FieldType* in_sight_with(QWidget& window, const QString& label) {
  for (FieldType* found : window.findChildren<FieldType*>())
    if (found->label() == label && found->isVisible()) return found;
  return nullptr;
}

// The empty row of a table that a new record is typed into.
inline ui::LineField* empty_in_sight(QWidget& window, const QString& label) {
  ui::LineField* last = nullptr;
  for (auto* found : window.findChildren<ui::LineField*>())
    if (found->label() == label && found->isVisible() && found->typed().isEmpty()) last = found;
  return last;
}

template <class Widget>
Widget* named_in_sight(QWidget& window, const QString& accessible_name) {
  for (Widget* found : window.findChildren<Widget*>())
    if (found->accessibleName() == accessible_name && found->isVisible()) return found;
  return nullptr;
}

inline ui::LineField* line_in_hand() {
  for (QWidget* at = at_hand(); at; at = at->parentWidget())
    if (auto* found = qobject_cast<ui::LineField*>(at)) return found;
  return nullptr;
}

inline void unfold(QWidget& window, const QString& words) {
  for (auto* fold : window.findChildren<ui::Fold*>())
    if (fold->button()->text() == words && fold->isVisible()) fold->set_open(true);
  settle();
}

// Takes the row that says this; false where there is none among those read. A narrow window folds its lists away.
inline bool take_row(QWidget& window, const QString& list, const QString& words) {
  const auto lists = window.findChildren<ui::WaitingList*>();
  const auto found = std::find_if(lists.begin(), lists.end(), [&](auto* one) { return one->accessibleName() == list; });
  if (found == lists.end()) return false;
  ui::WaitingList* rows = *found;
  for (int at = 0; at < rows->rows().rowCount(); ++at) {
    const QModelIndex index = rows->rows().index(at);
    const ui::WaitingRow* row = rows->rows().row(index);
    if (!row || !QStringList{row->number, row->title, row->words}.join(' ').contains(words)) continue;
    rows->setFocus();
    rows->setCurrentIndex(index);
    settle();
    return true;
  }
  return false;
}

// What any bar of news in sight says.
inline QStringList news_in_sight(const QWidget& window) {
  QStringList words;
  for (const auto* bar : window.findChildren<ui::MessageBar*>())
    if (bar->isVisible() && !bar->words().isEmpty()) words << bar->words();
  return words;
}

}  // namespace prillbook::testing_support
