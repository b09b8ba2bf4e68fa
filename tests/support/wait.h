// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QtCore/QCoreApplication>
#include <QtCore/QElapsedTimer>
#include <QtCore/QThread>
#include <functional>

namespace prillbook::testing_support {

// Runs the window until `done`; false where that takes longer than half a minute.
inline bool wait_until(const std::function<bool()>& done) {
  QElapsedTimer since;
  since.start();
  while (!done() && since.elapsed() < 30'000) {
    QCoreApplication::processEvents();
    QThread::msleep(1);
  }
  return done();
}

}  // namespace prillbook::testing_support
