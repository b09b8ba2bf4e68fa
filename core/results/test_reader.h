// SPDX-License-Identifier: GPL-3.0-or-later
// What single tests say, read one by one without the rest of their samples: for controls, of which a stock holds hundreds.
#pragma once

#include <optional>
#include <string>

#include "core/controls/roles.h"
#include "core/results/sample_record.h"
#include "core/results/sample_result.h"

namespace prillbook::results {

struct SingleTest {
  std::string label;  // "26-0012/3"
  SampleId sample;
  PortionId portion;
  ChargeId charge;  // one of the two
  PanTestId pan_test;
  controls::Role role = controls::Role::ordinary;
  std::int64_t duplicate_of = 0;  // of the same kind
  std::optional<Instant> when;    // fused, panned
  weighing::Bead bead;
  std::optional<std::string> left_out;  // spoiled or excluded: why
  std::optional<GradeResult> grade;     // absent while something is not weighed, or its figures contradict each other

  const MeasuredGrade* gold() const { return grade && grade->gold && !left_out ? &*grade->gold : nullptr; }
};

class TestReader {
 public:
  // What belongs to the lab is read once. Errors: damaged.
  static Result<TestReader> open(store::Connection& connection);

  // Errors: not_found, damaged.
  Result<SingleTest> read(ChargeId id);
  Result<SingleTest> read(PanTestId id);

  const lab::Settings& settings() const { return record_.settings; }
  DecimalMark mark() const { return record_.settings.decimal_mark; }
  store::Connection& connection() { return *connection_; }

 private:
  explicit TestReader(store::Connection& connection) : connection_(&connection) {}
  Result<void> take_sample_of(PortionId portion);
  void fill(SingleTest& test, const std::optional<std::string>& spoiled, const std::optional<std::string>& excluded);

  store::Connection* connection_;
  SampleRecord record_;  // holds the lab's own, and of one sample what the test in hand needs
};

}  // namespace prillbook::results
