// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/findings/page_look.h"

namespace prillbook::findings {

PageLook::PageLook(results::MachineBooks& books, results::SampleRecord& record)
    : books_(books), record_(record), reader_(books.connection()), quality_(reader_.source()) {}

Result<void> PageLook::begin(std::span<const SampleId> samples) {
  store::Connection& connection = books_.connection();
  PRILLBOOK_TRY(reader_.begin(samples));
  PRILLBOOK_TRY(quality_.begin(reader_.charges()));
  PRILLBOOK_ASSIGN(answers_, Answers::read(connection, samples));
  PRILLBOOK_ASSIGN(issued_, issue::issued_among(connection, samples));
  return {};
}

Result<std::vector<issue::ChangedReading>> PageLook::changed_since_issue(SampleId sample) {
  if (!issued_.contains(sample)) return std::vector<issue::ChangedReading>();
  return issue::changed_since_issue(books_.connection(), record_);
}

Result<PageLook::Seen> PageLook::at(SampleId sample, const std::optional<Instant>& now) {
  PRILLBOOK_TRY(reader_.read(sample, record_));
  const results::SampleResult result = results::compute(record_);
  books_.know(sample, results::likely_grade(record_, result));
  PRILLBOOK_ASSIGN(const auto machines, results::machine_risks(books_, record_, result));
  PRILLBOOK_ASSIGN(const auto issued, changed_since_issue(sample));
  PRILLBOOK_ASSIGN(const auto quality, quality_.beside(record_));
  Seen seen{answers_.beside(look({record_, result, &machines, &issued, &quality}, now)), {}};
  seen.past = answers_.past(sample, seen.findings);
  return seen;
}

}  // namespace prillbook::findings
