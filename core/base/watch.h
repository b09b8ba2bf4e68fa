// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/progress.h"

namespace prillbook {

// Who waits for a long piece of work: it can be told how far that is, and can stop it.
struct Watch {
  const Cancellation* stop = nullptr;
  Progress progress = {};

  bool stopped() const { return stop && stop->requested(); }
  void tell(std::size_t done, std::size_t total) const {
    if (progress) progress(long(done), long(total));
  }
};

}  // namespace prillbook
