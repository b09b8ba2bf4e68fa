// SPDX-License-Identifier: GPL-3.0-or-later
// Long work tells where it is and can be stopped.
#pragma once

#include <atomic>
#include <functional>

namespace prillbook {

class Cancellation {
 public:
  void request() { requested_.store(true, std::memory_order_relaxed); }
  bool requested() const { return requested_.load(std::memory_order_relaxed); }

 private:
  std::atomic<bool> requested_{false};
};

// Called with done and total; total 0 means unknown.
using Progress = std::function<void(long done, long total)>;

}  // namespace prillbook
