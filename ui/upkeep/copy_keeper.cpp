// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/upkeep/copy_keeper.h"

#include <QtCore/QCryptographicHash>
#include <QtCore/QFileInfo>
#include <QtCore/QSettings>
#include <QtCore/QThread>

#include "ui/kit/sentences.h"

namespace prillbook::ui {
namespace {

QString settings_group(const QString& notebook) {
  const QByteArray name = QCryptographicHash::hash(notebook.toUtf8(), QCryptographicHash::Sha256).toHex().left(24);
  return QStringLiteral("copies/%1/").arg(QLatin1String(name));
}

QString fault_words(const Error& error) {
  switch (error.code) {
    case ErrorCode::not_found: return CopyKeeper::tr("the folder is not there");
    case ErrorCode::disk_full: return CopyKeeper::tr("the disk is full, or writing to it failed");
    case ErrorCode::read_only: return CopyKeeper::tr("the folder can’t be written");
    case ErrorCode::damaged: return CopyKeeper::tr("the notebook is damaged; Lab set-up, Copies, saves what reads");
    case ErrorCode::locked: return CopyKeeper::tr("another program keeps writing to the notebook");
    default: return sentence(error);
  }
}

}  // namespace

upkeep::CopyPlaces kept_copy_places(const QString& notebook) {
  const QSettings settings;
  const QString group = settings_group(notebook);
  return {to_core(settings.value(group + "first").toString()), to_core(settings.value(group + "second").toString())};
}

void keep_copy_places(const QString& notebook, const upkeep::CopyPlaces& places) {
  QSettings settings;
  const QString group = settings_group(notebook);
  settings.setValue(group + "first", to_qt(places.first));
  settings.setValue(group + "second", to_qt(places.second));
}

// What one round beside the window came to.
struct CopyKeeper::Round {
  Result<upkeep::TakenCopy> taken;
  std::vector<upkeep::ConflictCopy> conflicts;
};

CopyKeeper::CopyKeeper(QString notebook, Clock& clock, QObject* parent)
    : QObject(parent), notebook_(std::move(notebook)), clock_(clock), places_(kept_copy_places(notebook_)) {
  timer_.setSingleShot(true);
  connect(&timer_, &QTimer::timeout, this, &CopyKeeper::look);
}

CopyKeeper::~CopyKeeper() {
  if (!worker_) return;
  cancellation_->request();
  worker_->wait();
  delete worker_;
}

void CopyKeeper::set_places(const upkeep::CopyPlaces& places) {
  places_ = places;
  said_.clear();
  keep_copy_places(notebook_, places);
  emit changed();
}

void CopyKeeper::begin() { timer_.start(first_delay_ms); }

void CopyKeeper::look() {
  if (!last_ || upkeep::copy_is_due(to_core(notebook_), places_, clock_.now())) take_now();
  timer_.start(look_every_ms);
}

void CopyKeeper::take_now() {
  if (worker_) return;
  cancellation_ = std::make_shared<Cancellation>();
  auto outcome = std::make_shared<std::optional<Round>>();
  worker_ = QThread::create([outcome, stop = cancellation_, notebook = to_core(notebook_), places = places_, now = clock_.now()] {
    store::BackupOptions options;
    options.cancellation = stop.get();
    outcome->emplace(Round{upkeep::take_copy(notebook, places, now, options), upkeep::conflict_copies(notebook)});
  });
  connect(worker_, &QThread::finished, this, [this, outcome] {
    worker_->deleteLater();
    worker_ = nullptr;
    end(**outcome);
  });
  worker_->start(QThread::LowPriority);
  emit changed();
}

void CopyKeeper::end(const Round& round) {
  const Result<upkeep::TakenCopy>& taken = round.taken;
  last_ = taken;
  emit changed();
  if (!taken)
    say_once(tr("No copy of the notebook was taken: %1.").arg(fault_words(taken.error())));
  else if (taken->second_fault)
    say_once(tr("The second copy is missing: %1 (%2).").arg(fault_words(*taken->second_fault), to_qt(places_.second)));
  for (const upkeep::ConflictCopy& conflict : round.conflicts)
    say_once(tr("Beside the notebook lies %1: the same notebook with %2 entries that are not in this one. Look at both before "
                "you go on.")
                 .arg(QFileInfo(to_qt(conflict.path)).fileName())
                 .arg(conflict.gestures));
}

void CopyKeeper::say_once(const QString& words) {
  if (said_.contains(words)) return;
  said_ << words;
  emit said(words);
}

}  // namespace prillbook::ui
