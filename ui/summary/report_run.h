// SPDX-License-Identifier: GPL-3.0-or-later
// From the notebook to pages or a file without holding the window up: samples are gathered one at a time between its
// events, what is made of them is made beside. A newer plan drops the older.
#pragma once

#include <functional>
#include <memory>
#include <span>

#include "core/summary/gather.h"
#include "ui/summary/beside.h"

namespace prillbook::ui {

class ReportRun : public QObject {
  Q_OBJECT
 public:
  using Samples = std::span<const summary::SummarySample>;
  struct Plan {
    issue::Summary summary;
    // In the window, once all are gathered; where it refuses, nothing is made. May be empty.
    std::function<Result<void>(summary::Numbered& numbered, Samples samples)> gathered;
    // Beside; what it gives back is done in the window.
    std::function<std::function<void()>(const summary::Numbered& numbered, const Watch& watch)> make;
    std::function<void(const Error& error)> refused;  // `cancelled` where it was stopped before it was made
  };

  // `connection` outlives the run.
  explicit ReportRun(store::Connection& connection, Clock& clock, QObject* parent = nullptr);
  ~ReportRun() override;

  void begin(Plan plan);
  void stop();
  bool busy() const { return gathering_ || beside_.busy(); }

 signals:
  void progressed(int percent);
  void ended();

 private:
  void gather_one();
  void make();
  void refuse(const Error& error);

  store::Connection& connection_;
  Clock& clock_;
  Plan plan_;
  std::unique_ptr<summary::Gathering> gathering_;
  QTimer step_;
  Beside beside_;
};

}  // namespace prillbook::ui
