// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/summary/beside.h"

#include <QtCore/QThread>
#include <utility>

namespace prillbook::ui {
namespace {

constexpr int look_at_it_every_ms = 100;

}  // namespace

Beside::Beside(QObject* parent) : QObject(parent) {
  connect(&look_, &QTimer::timeout, this, [this] {
    if (job_) emit progressed(job_->percent.load(std::memory_order_relaxed));
  });
}

Beside::~Beside() {
  if (!worker_) return;
  worker_->disconnect(this);
  job_->stop.request();
  worker_->wait();
  delete worker_;
}

void Beside::begin(Work work) {
  next_ = std::move(work);
  if (worker_) return job_->stop.request();
  start();
}

void Beside::stop() {
  next_ = nullptr;
  if (job_) job_->stop.request();
}

void Beside::drop() {
  stop();
  dropped_ = worker_ != nullptr;
}

void Beside::start() {
  dropped_ = false;
  job_ = std::make_shared<Job>();
  worker_ = QThread::create([job = job_, work = std::exchange(next_, nullptr)] {
    const auto tell = [&job](long done, long total) {
      if (total > 0) job->percent.store(int(100 * done / total), std::memory_order_relaxed);
    };
    job->give = work({&job->stop, tell});
  });
  connect(worker_, &QThread::finished, this, &Beside::end);
  worker_->start();
  look_.start(look_at_it_every_ms);
}

void Beside::end() {
  look_.stop();
  worker_->deleteLater();
  worker_ = nullptr;
  const auto job = std::exchange(job_, nullptr);
  if (next_) return start();
  if (!dropped_ && job->give) job->give();
  if (!worker_) emit ended();
}

}  // namespace prillbook::ui
