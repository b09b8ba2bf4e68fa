// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/custody/log_list.h"

#include "core/custody/statements.h"
#include "core/history/fields.h"
#include "core/lab/numbering.h"
#include "core/lab/settings.h"

namespace prillbook::custody {
namespace {

namespace listed_fields = history::fields::sample;

}  // namespace

Result<std::vector<SampleId>> log_samples(history::ChangeSet& set, ConsignmentId consignment_id,
                                          std::span<const NewSample> samples) {
  using readings::cell_of;
  namespace sample_field = listed_fields;
  PRILLBOOK_ASSIGN(const lab::Settings settings, lab::settings(set.connection()));
  PRILLBOOK_ASSIGN(const Consignment came_with, consignment(set.connection(), consignment_id));
  const std::string& pattern = settings.sample_number_pattern;
  const std::string prefix = lab::number_prefix(pattern, came_with.arrived);
  std::string number;
  PRILLBOOK_TRY(set.connection().rows(sql::last_sample_number, {std::string_view(prefix)}, [&](const store::Row& row) {
    number = row.text(0);
    return false;
  }));
  std::vector<SampleId> ids;
  ids.reserve(samples.size());
  for (const NewSample& sample : samples) {
    number = lab::next_number(pattern, came_with.arrived, number);
    PRILLBOOK_ASSIGN(const RecordId id, set.make(history::Entity::sample,
                                                 {{sample_field::number, number},
                                                  {sample_field::consignment, cell_of(consignment_id)},
                                                  {sample_field::mark, cell_of(std::optional(sample.mark))},
                                                  {sample_field::kind, cell_of(sample.kind)},
                                                  {sample_field::place, cell_of(sample.place)},
                                                  {sample_field::expected, cell_of(sample.expected)},
                                                  {sample_field::condition, cell_of(sample.condition)},
                                                  {sample_field::mass_declared, cell_of(sample.mass_declared)},
                                                  {sample_field::mass_received, cell_of(sample.mass_received)},
                                                  {sample_field::moisture, cell_of(sample.moisture)},
                                                  {sample_field::remarks, cell_of(sample.remarks)}}));
    ids.push_back(SampleId{id});
  }
  return ids;
}

}  // namespace prillbook::custody
