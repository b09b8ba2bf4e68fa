// SPDX-License-Identifier: GPL-3.0-or-later
// What went through the machines and what is known of its gold, read once for many samples.
#pragma once

#include <map>
#include <optional>
#include <vector>

#include "core/results/machine_risk.h"

namespace prillbook::results {

class MachineBooks {
 public:
  // Both outlive the books.
  MachineBooks(store::Connection& connection, const lab::Settings& settings) : connection_(connection), settings_(settings) {}

  struct Book {
    milling::Machine machine;
    std::vector<milling::Step> uses;             // oldest first
    std::vector<milling::Cleaning> cleanings;    // oldest first
    std::optional<std::vector<HoldUp>> flushes;  // hold-ups learned; absent until asked for
  };
  // The book stays where it is until it is forgotten. Errors: not_found, damaged.
  Result<Book*> of(MachineId machine);
  Result<LikelyGrade> grade(SampleId sample);
  void know(SampleId sample, const LikelyGrade& grade) { grades_.insert_or_assign(sample.value, grade); }

  store::Connection& connection() { return connection_; }
  const lab::Settings& settings() const { return settings_; }
  void forget_grade(SampleId sample) { grades_.erase(sample.value); }
  void forget_machines() { books_.clear(); }
  void forget_all() { books_.clear(), grades_.clear(); }

 private:
  store::Connection& connection_;
  const lab::Settings& settings_;
  std::map<RecordId, Book> books_;
  std::map<RecordId, LikelyGrade> grades_;
};

// As machine_risks() of a connection, with books that are shared. Errors: not_found, damaged.
Result<std::vector<MachineRisk>> machine_risks(MachineBooks& books, const SampleRecord& record, const SampleResult& result);

}  // namespace prillbook::results
