// SPDX-License-Identifier: GPL-3.0-or-later
// Pan against fire of many samples: the figures of each, what they are filtered by, and groups of them.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "core/results/sample_result.h"
#include "core/store/connection.h"

namespace prillbook::results {

struct ComparedSample {
  SampleId sample;
  std::string number, mark, client, place;
  Instant arrived;
  Grade pan, fire;
  std::optional<Grade> pan_lo, pan_hi, fire_lo, fire_hi;     // 95 %, sampling included where it was judged
  std::optional<double> recovery, recovery_lo, recovery_hi;  // fractions
  Verdict verdict = Verdict::not_determined;
  std::optional<Opening> grind;
};

// nullopt where its tests cannot be compared.
std::optional<ComparedSample> compared_sample(const SampleRecord& record, const SampleResult& result);

// Reads them a few at a time; what samples share is read once.
class ComparedList {
 public:
  explicit ComparedList(store::Connection& connection) : connection_(connection) {}
  // Samples with a bead of the pan and one of the fire, newest first, are owed a look.
  Result<void> begin();
  Result<void> read(std::size_t most);
  std::size_t owed() const { return ids_.size() - next_; }
  const std::vector<ComparedSample>& samples() const { return samples_; }

 private:
  store::Connection& connection_;
  std::vector<SampleId> ids_;
  std::size_t next_ = 0;
  SampleRecord record_;
  std::vector<ComparedSample> samples_;
};

struct ComparedWish {
  std::string client, place;  // empty: every one
  std::string period;         // "2026" or "2026-05": how the local day of arrival begins; empty: ever
};
std::vector<ComparedSample> chosen(std::span<const ComparedSample> samples, const ComparedWish& wish);

enum class GroupBy { client, place, month };
std::string group_of(const ComparedSample& sample, GroupBy by);  // empty: not said

struct ComparedGroup {
  std::string name;
  std::size_t samples = 0, left_behind = 0, above = 0;
  std::optional<double> median_recovery, least, most;  // of those that have one; fractions
};
// By name; for months the newest first.
std::vector<ComparedGroup> grouped(std::span<const ComparedSample> samples, GroupBy by);

}  // namespace prillbook::results
