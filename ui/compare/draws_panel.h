// SPDX-License-Identifier: GPL-3.0-or-later
// Pan against fire by draws, on request: on a worker, with progress, and stoppable.
#pragma once

#include <QtCore/QTimer>
#include <QtWidgets/QWidget>
#include <atomic>
#include <memory>

#include "core/assay/compare_draws.h"
#include "core/base/number.h"

class QLabel;
class QThread;

namespace prillbook::ui {

class PressButton;

class DrawsPanel : public QWidget {
  Q_OBJECT
 public:
  explicit DrawsPanel(DecimalMark mark, QWidget* parent = nullptr);
  ~DrawsPanel() override;

  // Another comparison takes its figures away; the same one keeps them. The seed stays with the sample.
  void set_comparison(const std::optional<Comparison>& comparison, std::uint64_t seed);
  void draw_or_stop();
  bool drawing() const { return worker_ != nullptr; }
  void set_draws(std::int64_t draws) { draws_ = draws; }

 signals:
  void drawn();

 private:
  void end();
  void say_progress();
  QString words_of(const DrawnComparison& result) const;

  // What a worker and the window share.
  struct Job {
    Cancellation stop;
    std::atomic<long> done{0};
    std::optional<Result<DrawnComparison>> result;
  };

  DecimalMark mark_;
  std::optional<Comparison> comparison_;
  std::uint64_t seed_ = 1;
  std::int64_t draws_ = 1'000'000;
  std::shared_ptr<Job> job_;
  QThread* worker_ = nullptr;
  QTimer look_;
  PressButton* button_;
  QLabel* news_;
};

}  // namespace prillbook::ui
