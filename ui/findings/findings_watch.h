// SPDX-License-Identifier: GPL-3.0-or-later
// Reads the whole notebook for findings, a little at a time while the window is at rest, and follows every write. Nothing is
// read before somebody goes to the board: a scan or a hand at the balance would feel it.
#pragma once

#include <QtCore/QElapsedTimer>
#include <QtCore/QTimer>

#include "core/findings/board.h"
#include "ui/kit/session.h"

namespace prillbook::ui {

class FindingsWatch : public QObject {
  Q_OBJECT
 public:
  // `session` outlives the watch.
  explicit FindingsWatch(Session& session);

  // Begins to read; again where another day has come, since some rules speak of the day.
  void begin();
  bool begun() const { return begun_; }
  // Open findings of the notebook; below 0 while it is being read, or where it can't be.
  int open() const;
  const findings::Board& board() const { return board_; }
  const QString& failed() const { return failed_; }  // why the notebook could not be read; else empty

 signals:
  void changed();

 private:
  void take_in(const history::Written& written);
  bool look_for_a_moment();
  void read_on();

  Session& session_;
  findings::Board board_;
  bool begun_ = false;
  QString failed_;
  std::string day_;
  QTimer pump_;
  QElapsedTimer since_told_;
};

}  // namespace prillbook::ui
