// SPDX-License-Identifier: GPL-3.0-or-later
// Looks at many samples one after another; what they share, and what can be asked for all of them at once, is read once.
#pragma once

#include <set>
#include <span>

#include "core/findings/answers.h"
#include "core/results/page_reader.h"

namespace prillbook::findings {

// Made, used and dropped inside one Connection::snapshot.
class PageLook {
 public:
  // What it found, with the answers that stand, and the answers that stand no more.
  struct Seen {
    std::vector<OpenOrAnswered> findings;
    std::vector<PastAnswer> past;
  };

  // `record` holds what results::load_lab() gave; the samples are read into it.
  PageLook(results::MachineBooks& books, results::SampleRecord& record);

  // Errors: the faults of the file.
  Result<void> begin(std::span<const SampleId> samples);
  bool stands(SampleId sample) const { return reader_.stands(sample); }  // not struck out
  // Errors: not_found, damaged.
  Result<Seen> at(SampleId sample, const std::optional<Instant>& now);

 private:
  Result<std::vector<issue::ChangedReading>> changed_since_issue(SampleId sample);

  results::MachineBooks& books_;
  results::SampleRecord& record_;
  results::PageReader reader_;
  results::QualityReader quality_;
  Answers answers_;
  std::set<SampleId> issued_;
};

}  // namespace prillbook::findings
