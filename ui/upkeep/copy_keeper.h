// SPDX-License-Identifier: GPL-3.0-or-later
// Takes the notebook's copies while the window is open: soon after opening and then once a day, beside the window, on a
// connection of its own. What goes wrong is said once, softly; so is another version of the notebook that lies beside it.
#pragma once

#include <QtCore/QObject>
#include <QtCore/QString>
#include <QtCore/QStringList>
#include <QtCore/QTimer>
#include <memory>
#include <optional>

#include "core/base/clock.h"
#include "core/base/progress.h"
#include "core/upkeep/conflict.h"
#include "core/upkeep/copies.h"

class QThread;

namespace prillbook::ui {

// Where copies of this notebook go; kept for this computer, since a folder is one of this computer.
upkeep::CopyPlaces kept_copy_places(const QString& notebook);
void keep_copy_places(const QString& notebook, const upkeep::CopyPlaces& places);

class CopyKeeper : public QObject {
  Q_OBJECT
 public:
  // `clock` outlives the keeper. Nothing happens before begin().
  CopyKeeper(QString notebook, Clock& clock, QObject* parent = nullptr);
  ~CopyKeeper() override;  // a copy in the making is stopped and leaves nothing

  const QString& notebook() const { return notebook_; }
  const upkeep::CopyPlaces& places() const { return places_; }
  void set_places(const upkeep::CopyPlaces& places);

  // A copy now, where something is new, and then whenever one is due. The first waits until the window stands.
  void begin();
  void take_now();
  bool taking() const { return worker_ != nullptr; }
  // Of this session; nothing before the first.
  const std::optional<Result<upkeep::TakenCopy>>& last() const { return last_; }

  static constexpr int first_delay_ms = 4000, look_every_ms = 20 * 60 * 1000;

 signals:
  void changed();                   // a copy was begun or ended
  void said(const QString& words);  // what went wrong, once
 private:
  void look();
  struct Round;
  void end(const Round& round);
  void say_once(const QString& words);

  QString notebook_;
  Clock& clock_;
  upkeep::CopyPlaces places_;
  QTimer timer_;
  QThread* worker_ = nullptr;
  std::shared_ptr<Cancellation> cancellation_;
  std::optional<Result<upkeep::TakenCopy>> last_;
  QStringList said_;
};

}  // namespace prillbook::ui
