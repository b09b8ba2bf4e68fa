// SPDX-License-Identifier: GPL-3.0-or-later
// What happened to one sample, in order: made from its records and from the history of each.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/history/catalogue.h"
#include "core/results/sample_record.h"
#include "core/store/value.h"

namespace prillbook::story {

enum class EventKind {
  arrived,
  portion_cut,
  stepped,  // a step of preparation; its figures are in the record
  panned,
  fired,
  sieved,
  weighed,
  none_seen,
  fineness,  // a method or a figure was entered
  spoiled,   // `after` holds the reason
  left_out,  // `after` holds the reason
  handed_over,
  own_metal,  // returned, kept or used up
  told,       // a figure, before it was written
  corrected,  // another value in place of one that was there
};

struct Event {
  EventKind kind;
  Instant when;     // when it happened; where nobody said, when it was written
  std::string who;  // initials
  history::Entity entity;
  RecordId record = 0;
  PortionId portion;                      // none: it happened to the sample itself
  const history::Field* field = nullptr;  // spoiled, left_out, corrected
  store::Value before, after;             // cells of that field
  std::optional<std::string> why;
  std::optional<Instant> typed = {};  // where it was written more than an hour from when it happened
};

// Oldest first; what happened at one moment stands in the order in which it was written.
Result<std::vector<Event>> story_of(store::Connection& connection, const results::SampleRecord& record);

}  // namespace prillbook::story
