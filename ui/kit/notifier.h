// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QtCore/QObject>

#include "core/history/journal.h"

namespace prillbook::ui {

// Turns Journal::listen into a signal; one for each open notebook. Where it is gone before the journal, nothing is told.
class Notifier : public QObject {
  Q_OBJECT
 public:
  explicit Notifier(history::Journal& journal, QObject* parent = nullptr);

 signals:
  // After the commit, on the thread of the journal.
  void written(const prillbook::history::Written& written);
};

}  // namespace prillbook::ui
