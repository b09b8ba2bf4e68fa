// SPDX-License-Identifier: GPL-3.0-or-later
// From the notebook to a client summary: what the window and the batch verb both call.
#pragma once

#include <span>

#include "core/summary/summary.h"

namespace prillbook::summary {

// Errors: not_found, damaged.
Result<SummarySample> gather(store::Connection& connection, SampleId id);
// Samples of one client in this order; none gives a summary that says so. Errors: as gather; conflict where they belong to
// several clients.
// `language`: a code; none: the client's, or the lab's.
Result<Report> report_of(store::Connection& connection, std::span<const SampleId> ids, const Instant& now,
                         const std::optional<std::string>& language = {});

// A numbered summary as it would be issued now.
struct Numbered {
  Report report;
  std::string held_back;           // the open finding that stops, in words; empty: it can be issued as it is
  std::vector<std::string> bases;  // of its samples: see core/issue/basis.h
};
// What report_of_summary does, a sample at a time: a window can live between the steps.
class Gathering {
 public:
  // `connection` outlives it.
  Gathering(store::Connection& connection, issue::Summary summary) : connection_(connection), summary_(std::move(summary)) {}

  std::size_t done() const { return samples_.size(); }
  std::size_t total() const { return summary_.samples.size(); }
  // True once all are there. Errors: as report_of.
  Result<bool> step();
  // Domain: all are there. Errors: not_found, damaged.
  Result<Numbered> finish(const Instant& now) const;
  std::span<const SummarySample> samples() const { return samples_; }

 private:
  store::Connection& connection_;
  issue::Summary summary_;
  std::vector<SummarySample> samples_;
};
// Errors: as report_of.
Result<Numbered> report_of_summary(store::Connection& connection, const issue::Summary& summary, const Instant& now);

}  // namespace prillbook::summary
