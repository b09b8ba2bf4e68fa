// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/window/scanner.h"

#include <QtCore/QCoreApplication>
#include <QtCore/QScopedValueRollback>
#include <QtWidgets/QApplication>
#include <utility>

namespace prillbook::ui {
namespace {

bool is_only_modifier(int key) {
  return key == Qt::Key_Shift || key == Qt::Key_CapsLock || key == Qt::Key_AltGr || key == Qt::Key_Control ||
         key == Qt::Key_Alt || key == Qt::Key_Meta;
}

bool ends_a_code(int key) { return key == Qt::Key_Return || key == Qt::Key_Enter || key == Qt::Key_Tab; }

}  // namespace

Scanner::Scanner(QString prefix, QObject* parent) : QObject(parent), prefix_(std::move(prefix)) {
  elapsed_.start();
  timer_.setSingleShot(true);
  timer_.setInterval(longest_pause_ms);
  connect(&timer_, &QTimer::timeout, this, &Scanner::let_go);
  QCoreApplication::instance()->installEventFilter(this);
}

Scanner::~Scanner() = default;

bool Scanner::is_whole_prefix(const QString& text) const { return text.startsWith(prefix_, Qt::CaseInsensitive); }

bool Scanner::may_begin(const QString& text) const {
  return text.size() < prefix_.size() ? prefix_.startsWith(text, Qt::CaseInsensitive)
                                      : is_whole_prefix(text) && text.size() <= longest_code;
}

// Keys are met on their way to the window, before any widget has seen them; each passes here once.
bool Scanner::eventFilter(QObject* watched, QEvent* event) {
  if (letting_go_ || !watched->isWindowType()) return false;
  if (event->type() == QEvent::KeyPress) return pressed(watched, static_cast<QKeyEvent*>(event));
  if (event->type() == QEvent::KeyRelease) return released(watched, static_cast<QKeyEvent*>(event));
  return false;
}

bool Scanner::pressed(QObject* window, QKeyEvent* event) {
  // When the key was struck, not when a busy window came to it.
  const qint64 struck = event->timestamp() > 0 ? qint64(event->timestamp()) : elapsed_.elapsed();
  const qint64 now = now_ms_ ? now_ms_() : struck;
  if (!held_.empty() && now - last_ > longest_pause_ms) let_go();
  if (is_only_modifier(event->key())) {
    if (!held_.empty()) hold(window, event);  // Shift before a capital
    return !held_.empty();
  }
  const bool command = event->modifiers() & (Qt::ControlModifier | Qt::AltModifier | Qt::MetaModifier);
  if (ends_a_code(event->key()) && !command && is_whole_prefix(text_) && text_.size() > prefix_.size()) {
    timer_.stop();
    for (const Held& one : held_)
      if (one.event->type() == QEvent::KeyPress) swallowed_.insert(one.event->key());
    swallowed_.insert(event->key());
    held_.clear();
    emit scanned(std::exchange(text_, QString()));
    return true;
  }
  const QString typed = event->text();
  const bool plain = !command && typed.size() == 1 && typed[0].isPrint() && !QApplication::activeModalWidget();
  if (plain && may_begin(text_ + typed)) {
    text_ += typed;
    last_ = now;
    hold(window, event);
    return true;
  }
  let_go();
  if (!plain || !may_begin(typed)) return false;
  text_ = typed;
  last_ = now;
  hold(window, event);
  return true;
}

bool Scanner::released(QObject* window, QKeyEvent* event) {
  if (held_.empty()) return swallowed_.remove(event->key());
  hold(window, event);
  return true;
}

void Scanner::hold(QObject* window, const QKeyEvent* event) {
  held_.push_back({window, std::unique_ptr<QKeyEvent>(event->clone())});
  // Three letters of the prefix are hardly a word: a busy window gets time to come to the rest.
  if (event->type() == QEvent::KeyPress) timer_.start(text_.size() < 3 ? longest_pause_ms : 4 * longest_pause_ms);
}

void Scanner::let_go() {
  timer_.stop();
  text_.clear();
  const QScopedValueRollback<bool> letting_go(letting_go_, true);
  for (Held& one : std::exchange(held_, {}))
    if (one.window) QCoreApplication::sendEvent(one.window, one.event.get());
}

}  // namespace prillbook::ui
