// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/summary/report_run.h"

#include <utility>

namespace prillbook::ui {

ReportRun::ReportRun(store::Connection& connection, Clock& clock, QObject* parent)
    : QObject(parent), connection_(connection), clock_(clock) {
  connect(&step_, &QTimer::timeout, this, &ReportRun::gather_one);
  connect(&beside_, &Beside::progressed, this, [this](int percent) { emit progressed(50 + percent / 2); });
  connect(&beside_, &Beside::ended, this, &ReportRun::ended);
}

ReportRun::~ReportRun() = default;

void ReportRun::begin(Plan plan) {
  beside_.drop();
  plan_ = std::move(plan);
  gathering_ = std::make_unique<summary::Gathering>(connection_, plan_.summary);
  step_.start(0);
}

void ReportRun::stop() {
  if (gathering_) return refuse(refusal(ErrorCode::cancelled, "summary", "stopped"));
  beside_.stop();
}

void ReportRun::gather_one() {
  const auto all = gathering_->step();
  if (!all.ok()) return refuse(all.error());
  if (gathering_->total() > 0) emit progressed(int(50 * gathering_->done() / gathering_->total()));
  if (*all) make();
}

void ReportRun::make() {
  step_.stop();
  const auto gathering = std::exchange(gathering_, nullptr);
  auto numbered = gathering->finish(clock_.now());
  if (!numbered.ok()) return refuse(numbered.error());
  if (plan_.gathered)
    if (const auto fit = plan_.gathered(*numbered, gathering->samples()); !fit.ok()) return refuse(fit.error());
  auto whole = std::make_shared<const summary::Numbered>(*std::move(numbered));
  beside_.begin([whole, work = plan_.make](const Watch& watch) { return work(*whole, watch); });
}

void ReportRun::refuse(const Error& error) {
  step_.stop();
  gathering_.reset();
  const auto refused = plan_.refused;
  if (refused) refused(error);
  if (!busy()) emit ended();
}

}  // namespace prillbook::ui
