// SPDX-License-Identifier: GPL-3.0-or-later
// A scanner that types like a keyboard, whatever has the focus. Keys that may be the start of a code are held back until
// that is decided: a scan goes to scanned() and nowhere else, all other keys go where they were typed, in their order.
#pragma once

#include <QtCore/QElapsedTimer>
#include <QtCore/QPointer>
#include <QtCore/QSet>
#include <QtCore/QTimer>
#include <QtGui/QKeyEvent>
#include <functional>
#include <memory>
#include <vector>

class QWindow;

namespace prillbook::ui {

class Scanner : public QObject {
  Q_OBJECT
 public:
  // Listens to every window of the application while it lives. `prefix`: how every code begins; letters count alike in
  // both cases. Enter or Tab ends a code.
  explicit Scanner(QString prefix, QObject* parent = nullptr);
  ~Scanner() override;

  // A scanner types a key every few milliseconds, a hand none faster than about 70 for as long as a code is.
  static constexpr int longest_pause_ms = 60;
  static constexpr int longest_code = 120;

  // For tests: milliseconds from any start.
  void set_clock(std::function<qint64()> now_ms) { now_ms_ = std::move(now_ms); }

 signals:
  void scanned(const QString& code);  // the text without the Enter

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  struct Held {
    QPointer<QObject> window;
    std::unique_ptr<QKeyEvent> event;
  };
  bool pressed(QObject* window, QKeyEvent* event);
  bool released(QObject* window, QKeyEvent* event);
  bool may_begin(const QString& text) const;
  bool is_whole_prefix(const QString& text) const;
  void hold(QObject* window, const QKeyEvent* event);
  void let_go();  // what is held goes where it was typed

  QString prefix_;
  std::function<qint64()> now_ms_;
  QElapsedTimer elapsed_;
  qint64 last_ = 0;
  std::vector<Held> held_;
  QString text_;
  QSet<int> swallowed_;  // keys of a finished scan that are still down
  QTimer timer_;
  bool letting_go_ = false;
};

}  // namespace prillbook::ui
