// SPDX-License-Identifier: GPL-3.0-or-later
// Work on a thread of its own, so that the window is never held up. It tells how far it is and can be stopped; newer work
// drops the older.
#pragma once

#include <QtCore/QObject>
#include <QtCore/QTimer>
#include <atomic>
#include <functional>
#include <memory>

#include "core/base/watch.h"

class QThread;

namespace prillbook::ui {

class Beside : public QObject {
  Q_OBJECT
 public:
  // Done beside; what it gives back is done in the window afterwards, unless newer work came. It looks at `watch` now and
  // then, and touches neither notebook nor widgets.
  using Work = std::function<std::function<void()>(const Watch& watch)>;

  explicit Beside(QObject* parent = nullptr);
  ~Beside() override;  // stops, and waits for that

  void begin(Work work);
  void stop();  // the work ends soon; what it gives back is done still
  void drop();  // as stop, and what it gives back is not done
  bool busy() const { return worker_ != nullptr; }

 signals:
  void progressed(int percent);
  void ended();

 private:
  struct Job {
    Cancellation stop;
    std::atomic<int> percent{0};
    std::function<void()> give;
  };
  void start();
  void end();

  std::shared_ptr<Job> job_;
  Work next_;
  bool dropped_ = false;
  QThread* worker_ = nullptr;
  QTimer look_;
};

}  // namespace prillbook::ui
