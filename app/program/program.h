// SPDX-License-Identifier: GPL-3.0-or-later
// Which notebook is open: the one named on the command line, else the last one, else what the person chooses.
#pragma once

#include <QtCore/QObject>
#include <memory>

#include "app/program/desk.h"
#include "core/upkeep/salvage.h"

namespace prillbook::program {

class Program : public QObject {
  Q_OBJECT
 public:
  explicit Program(Clock& clock) : clock_(clock) {}

  // `path` empty: the last notebook, or a choice.
  void start(const QString& path);

 private:
  void choose();
  void open(const QString& path, store::Access access = store::Access::read_write,
            store::TakeOver take_over = store::TakeOver::from_this_machine);
  void make(const QString& path);
  void open_demonstration();
  void restore(const QString& copy);
  void leave_desk();
  void salvage(const QString& path);
  void tell_salvaged(const QString& to, const Result<upkeep::Salvaged>& saved);
  void tell_refusal(const QString& path, const Error& error);
  ui::Prompter& prompter();

  Clock& clock_;
  ui::DialogPrompter alone_{nullptr};  // while no window is open
  std::unique_ptr<Desk> desk_;
};

}  // namespace prillbook::program
