// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/number.h"
#include "core/history/journal.h"
#include "core/store/connection.h"
#include "ui/kit/drafts.h"
#include "ui/kit/notifier.h"
#include "ui/kit/prompter.h"

namespace prillbook::ui {

// How this lab writes.
struct Writing {
  DecimalMark mark = DecimalMark::point;
};

// One open notebook and what a station needs to work on it. Made by main; outlives every station.
struct Session {
  store::Connection& connection;
  history::Journal& journal;  // its clock() is the clock of the window
  Notifier& notifier;
  Prompter& prompter;
  Drafts& drafts;
  Writing writing;

  bool read_only() const { return connection.access() == store::Access::read_only; }
};

}  // namespace prillbook::ui
