// SPDX-License-Identifier: GPL-3.0-or-later
// The thread of a sample: everything that happened to it, newest at the bottom.
#pragma once

#include <QtWidgets/QScrollArea>
#include <optional>
#include <utility>
#include <vector>

#include "core/base/clock.h"
#include "ui/kit/figures.h"
#include "ui/kit/messages.h"

class QVBoxLayout;

namespace prillbook::ui {

struct ThreadAction {
  QString id;
  QString words;  // "open", "take back"
};

struct ThreadEntry {
  std::int64_t id = 0;
  Instant when;
  QString what;                                     // "Pan bead weighed"
  QString who;                                      // initials
  QString words;                                    // a second line: remarks, reason; may be empty
  std::vector<std::pair<QString, Figure>> figures;  // "pan bead", 0.022 g
  std::optional<std::pair<Severity, QString>> finding;
  std::vector<ThreadAction> actions;
};

class Thread : public QScrollArea {
  Q_OBJECT
 public:
  explicit Thread(QWidget* parent = nullptr);
  // Oldest first; the view stays at the end where it was at the end.
  void set_entries(const std::vector<ThreadEntry>& entries);
  void set_empty_words(const QString& words);
  int count() const;

 signals:
  void action_wanted(std::int64_t entry, const QString& action);

 private:
  QWidget* sheet_;
  QVBoxLayout* layout_;
  QString empty_words_;
  bool at_end_ = true;
};

}  // namespace prillbook::ui
