// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/findings/findings_watch.h"

#include "ui/kit/notifier.h"
#include "ui/kit/sentences.h"

namespace prillbook::ui {
namespace {

constexpr qint64 moment_ms = 8;          // of one look; a frame has 16
constexpr qint64 between_news_ms = 400;  // while the notebook is read

}  // namespace

FindingsWatch::FindingsWatch(Session& session) : session_(session), board_(session.connection) {
  connect(&pump_, &QTimer::timeout, this, &FindingsWatch::read_on);
  connect(&session.notifier, &Notifier::written, this, &FindingsWatch::take_in);
}

int FindingsWatch::open() const {
  if (!begun_ || !failed_.isEmpty() || board_.owed() > 0) return -1;
  return int(board_.count(findings::Standing::open));
}

void FindingsWatch::begin() {
  const Instant now = session_.journal.clock().now();
  if (begun_ && day_ == local_date(now)) return;
  const auto begun = board_.begin(now);
  failed_ = begun.ok() ? QString() : sentence(begun.error());
  begun_ = true;
  day_ = local_date(now);
  since_told_.start();
  pump_.start(0);
}

// True where something is still owed.
bool FindingsWatch::look_for_a_moment() {
  QElapsedTimer watch;
  watch.start();
  while (board_.owed() > 0 && watch.elapsed() < moment_ms) {
    const auto looked = board_.look_at(1);
    if (looked.ok()) continue;
    failed_ = sentence(looked.error());
    return false;
  }
  return board_.owed() > 0;
}

void FindingsWatch::read_on() {
  const bool more = failed_.isEmpty() && look_for_a_moment();
  if (!more) pump_.stop();
  if (more && since_told_.elapsed() < between_news_ms) return;
  since_told_.restart();
  emit changed();
}

void FindingsWatch::take_in(const history::Written& written) {
  if (!begun_) return;
  if (const auto reached = board_.changed(written.changes); !reached.ok()) failed_ = sentence(reached.error());
  if (look_for_a_moment()) pump_.start(0);
  emit changed();
}

}  // namespace prillbook::ui
