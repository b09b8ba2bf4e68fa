// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/compare/draws_panel.h"

#include <QtCore/QThread>
#include <QtWidgets/QLabel>
#include <QtWidgets/QVBoxLayout>

#include "core/summary/draw_words.h"
#include "ui/kit/press_button.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"

namespace prillbook::ui {
namespace {

constexpr int look_every_ms = 100;

// The same figures were drawn from.
bool same(const std::optional<Comparison>& one, const std::optional<Comparison>& other) {
  if (!one || !other) return !one && !other;
  const auto parts = [](const Comparison& comparison) {
    const GoldSides& sides = comparison.gold_sides;
    return std::tuple(sides.pan, sides.fire, combined_u(sides.pan_parts), combined_u(sides.fire_parts));
  };
  return parts(*one) == parts(*other);
}

}  // namespace

DrawsPanel::DrawsPanel(DecimalMark mark, QWidget* parent)
    : QWidget(parent), mark_(mark), button_(new PressButton(tr("Draw a million times"))), news_(new QLabel) {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(rhythm / 2);
  news_->setWordWrap(true);
  news_->setFont(face(TextSize::small));
  news_->setTextFormat(Qt::PlainText);
  column->addWidget(button_, 0, Qt::AlignLeft);
  column->addWidget(news_);
  connect(button_, &QPushButton::clicked, this, &DrawsPanel::draw_or_stop);
  connect(&look_, &QTimer::timeout, this, &DrawsPanel::say_progress);
}

DrawsPanel::~DrawsPanel() {
  if (!worker_) return;
  worker_->disconnect(this);
  job_->stop.request();
  worker_->wait();
  delete worker_;
}

void DrawsPanel::set_comparison(const std::optional<Comparison>& comparison, std::uint64_t seed) {
  if (same(comparison, comparison_) && seed == seed_) return;
  if (job_) job_->stop.request();
  comparison_ = comparison;
  seed_ = seed;
  news_->clear();
  setVisible(comparison_ && !comparison_->gold_sides.pan_parts.empty() && !comparison_->gold_sides.fire_parts.empty());
}

void DrawsPanel::draw_or_stop() {
  if (worker_) return job_->stop.request();
  if (!comparison_) return;
  job_ = std::make_shared<Job>();
  worker_ = QThread::create([job = job_, comparison = *comparison_, seed = seed_, draws = draws_] {
    const auto tell = [&job](long done, long) { job->done.store(done, std::memory_order_relaxed); };
    job->result = draw_comparison(comparison, {draws, seed, &job->stop, tell});
  });
  connect(worker_, &QThread::finished, this, &DrawsPanel::end);
  worker_->start();
  button_->setText(tr("Stop"));
  look_.start(look_every_ms);
  say_progress();
}

void DrawsPanel::say_progress() {
  if (worker_) news_->setText(tr("%1 % drawn").arg(100 * job_->done.load(std::memory_order_relaxed) / draws_));
}

void DrawsPanel::end() {
  look_.stop();
  worker_->deleteLater();
  worker_ = nullptr;
  button_->setText(tr("Draw a million times"));
  const Result<DrawnComparison>& result = *job_->result;
  if (result.ok())
    news_->setText(job_->stop.requested() ? QString() : words_of(*result));
  else
    news_->setText(result.error().code == ErrorCode::cancelled ? tr("Stopped.") : sentence(result.error()));
  emit drawn();
}

QString DrawsPanel::words_of(const DrawnComparison& result) const {
  QStringList lines;
  for (const std::string& one : summary::draw_words(result, mark_)) lines << to_qt(one);
  return lines.join(QLatin1Char('\n'));
}

}  // namespace prillbook::ui
