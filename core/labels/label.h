// SPDX-License-Identifier: GPL-3.0-or-later
// What a label says: gathered from the records, in words; nothing is painted here.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/base/id.h"
#include "core/base/result.h"
#include "core/store/connection.h"

namespace prillbook::labels {

enum class LabelKind {
  bag,         // a sample as it came
  portion,     // a part that goes on its way
  charge,      // a crucible, from the furnace to the balance
  reject,      // what is kept or thrown away
  lead_waste,  // spent cupels, slag and pots
};

struct Label {
  LabelKind kind = LabelKind::bag;
  std::string code;                  // empty: none
  std::string number;                // "26-0003/2"
  std::string mark;                  // the client's
  std::string client;                // bags and what is kept
  std::string what;                  // "pan", "charge", "reject"
  std::string mass;                  // "1.2 kg"; empty where not weighed
  std::string date;                  // "2026-05-04"
  std::vector<std::string> hazards;  // "lead", "mercury": printed large
  std::string lab;

  friend bool operator==(const Label&, const Label&) = default;
};

std::string_view kind_name(LabelKind kind);             // "bag", "lead-waste"
Result<LabelKind> kind_by_name(std::string_view name);  // errors: out_of_range, with the name

// The substances that a remark names and that a label must name again: lead, mercury, arsenic, antimony, tellurium,
// cyanide, acid, asbestos. A word right after "no" or "without" does not count; a label that warns once too often is the lesser
// fault.
std::vector<std::string> hazards_in(std::string_view remark);

// Labels of one sample, of these kinds, in the order: bag, portions by number (each with its charge after it).
// Errors: not_found; damaged.
Result<std::vector<Label>> labels_of(store::Connection& connection, SampleId sample, const std::vector<LabelKind>& kinds);
// Of every sample of a consignment, by number.
Result<std::vector<Label>> labels_of(store::Connection& connection, ConsignmentId consignment,
                                     const std::vector<LabelKind>& kinds);
// Of one portion: itself, and its charge where it has one.
Result<std::vector<Label>> labels_of(store::Connection& connection, PortionId portion, const std::vector<LabelKind>& kinds);

}  // namespace prillbook::labels
