// SPDX-License-Identifier: GPL-3.0-or-later
// A hand at the keyboard: finds fields by their label, types, presses keys. Needs a QApplication (offscreen).
#pragma once

#include <gtest/gtest.h>

#include <QtCore/QCoreApplication>
#include <QtCore/QTemporaryDir>
#include <QtTest/QTest>
#include <QtWidgets/QAbstractButton>
#include <QtWidgets/QApplication>
#include <QtWidgets/QLineEdit>

#include "tests/support/records.h"
#include "ui/kit/fields.h"
#include "ui/kit/press_button.h"
#include "ui/kit/session.h"

namespace prillbook::testing_support {

// One application for all tests of a binary.
inline void need_application() {
  if (QApplication::instance()) return;
  qputenv("QT_QPA_PLATFORM", "offscreen");
  static int count = 1;
  static char name[] = "test";
  static char* words[] = {name, nullptr};
  // Never deleted: at the end of the process Qt's own statics may be gone already.
  static auto* const application = new QApplication(count, words);
  (void)application;
}

// First base of a fixture with widgets: there before its members.
struct WithApplication {
  WithApplication() { need_application(); }
};

class NoPrompter : public ui::Prompter {
 public:
  void decide(const ui::Decision&, std::function<void(int)>) override {}
  void choose_file(const ui::FileWish&, std::function<void(const QString&)> chosen) override {
    if (!path.isEmpty()) chosen(path);
  }
  QString path;  // given for every wish; empty: nobody chooses
};

// Hands out the session of a notebook; make it before the widgets.
struct Desk {
  explicit Desk(store::Connection& connection, history::Journal& journal)
      : notifier(journal), drafts("test", folder.path()), session{connection, journal, notifier, prompter, drafts, {}} {}
  QTemporaryDir folder;
  ui::Notifier notifier;
  NoPrompter prompter;
  ui::Drafts drafts;
  ui::Session session;
};

inline void settle() { QCoreApplication::processEvents(); }

// The field in sight with this label; where there are several, the one at this place among them.
template <class FieldType = ui::Field>
FieldType* field(QWidget& root, const QString& label, int place = 0) {
  for (FieldType* found : root.findChildren<FieldType*>())
    if (found->label() == label && found->isVisible() && place-- == 0) return found;
  ADD_FAILURE() << "no field in sight: " << label.toStdString();
  return nullptr;
}

inline bool in_sight(QWidget& root, const QString& label) {
  for (const ui::Field* found : root.findChildren<ui::Field*>())
    if (found->label() == label && found->isVisible()) return true;
  return false;
}

inline QAbstractButton* button(QWidget& root, const QString& words) {
  for (QAbstractButton* found : root.findChildren<QAbstractButton*>())
    if (found->text() == words && found->isVisible()) return found;
  return nullptr;
}

inline QWidget*& window_in_hand() {
  static QWidget* window = nullptr;
  return window;
}

// Offscreen a list of offers becomes the active window, as on no desktop, and stays it when hidden: the focus could not
// move on in the window beneath until that is active again.
inline void put_offers_away() {
  QWidget* offers = QApplication::activePopupWidget();
  const QWidget* active = QApplication::activeWindow();
  if (!offers && (!active || active->windowType() != Qt::Popup)) return;
  QWidget* at = QApplication::focusWidget();
  if (offers) {
    settle();
    offers->hide();
  }
  if (!at) return;
  at->window()->activateWindow();
  (void)QTest::qWaitForWindowActive(at->window(), 500);
  at->setFocus();
}

// What has the focus once a list of offers has been put away.
inline QWidget* at_hand() {
  put_offers_away();
  if (!QApplication::focusWidget() && window_in_hand()) {
    window_in_hand()->activateWindow();
    settle();
  }
  if (QWidget* at = QApplication::focusWidget()) return at;
  return window_in_hand() ? window_in_hand()->focusWidget() : nullptr;
}

inline void press(Qt::Key key, Qt::KeyboardModifiers modifiers = Qt::NoModifier) {
  QWidget* at = at_hand();
  ASSERT_NE(at, nullptr) << "nothing has the focus";
  QTest::keyClick(at, key, modifiers);
  settle();
}

// Types where the focus is.
inline void type(const QString& text) {
  QWidget* at = at_hand();
  ASSERT_NE(at, nullptr) << "nothing has the focus";
  QTest::keyClicks(at, text);
}

inline void type_and_enter(const QString& text) {
  type(text);
  press(Qt::Key_Return);
}

// Goes to a field, replaces what it shows and presses Enter.
inline void enter_in(QWidget& root, const QString& label, const QString& text, int place = 0) {
  auto* line = field<ui::LineField>(root, label, place);
  ASSERT_NE(line, nullptr);
  line->line()->setFocus();
  line->line()->selectAll();
  type_and_enter(text);
}

// By the key that presses it: Enter on our own buttons, Space on any.
inline void press_button(QWidget& root, const QString& words) {
  QAbstractButton* found = button(root, words);
  if (!found) return;
  found->setFocus();
  press(qobject_cast<ui::PressButton*>(found) ? Qt::Key_Return : Qt::Key_Space);
}

// The label of the field that has the focus; a button's words.
inline QString focused() {
  for (QWidget* at = at_hand(); at; at = at->parentWidget()) {
    if (const auto* found = qobject_cast<ui::Field*>(at)) return found->label();
    if (const auto* found = qobject_cast<QAbstractButton*>(at)) return found->text();
  }
  return {};
}

inline void show(QWidget& widget, int width = 1090, int height = 720) {
  window_in_hand() = &widget;
  widget.resize(width, height);
  widget.show();
  if (QWidget* offers = QApplication::activePopupWidget()) offers->hide();
  bool active = false;
  for (int tries = 0; tries < 10 && !active; ++tries) {
    widget.activateWindow();
    active = QTest::qWaitForWindowActive(&widget, 500);
  }
  ASSERT_TRUE(active);
}

}  // namespace prillbook::testing_support
