// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/custody/log_list.h"

#include "core/custody/statements.h"
#include "core/history/fields.h"
#include "core/lab/numbering.h"
#include "core/lab/settings.h"

namespace prillbook::custody {
namespace {

std::vector<history::Setting> settings_of(const NewSample& sample, ConsignmentId consignment, const std::string& number) {
  namespace f = history::fields::sample;
  using readings::cell_of;
  std::vector<history::Setting> settings;
  settings.reserve(12);
  const auto put = [&](const history::Field& field, history::Value value) {
    if (!store::is_null(value)) settings.push_back({field, std::move(value)});
  };
  put(f::number, number);
  put(f::consignment, consignment.value);
  put(f::mark, cell_of(std::optional(sample.mark)));
  put(f::kind, cell_of(sample.kind));
  put(f::place, cell_of(sample.place));
  put(f::expected, cell_of(sample.expected));
  put(f::condition, cell_of(sample.condition));
  put(f::mass_declared, cell_of(sample.mass_declared));
  put(f::mass_received, cell_of(sample.mass_received));
  put(f::moisture, cell_of(sample.moisture));
  put(f::swept_from, cell_of(sample.swept_from));
  put(f::remarks, cell_of(sample.remarks));
  return settings;
}

}  // namespace

Result<std::vector<SampleId>> log_samples(history::ChangeSet& set, ConsignmentId consignment_id,
                                          std::span<const NewSample> samples) {
  PRILLBOOK_ASSIGN(const lab::Settings settings, lab::settings(set.connection()));
  PRILLBOOK_ASSIGN(const Consignment came_with, consignment(set.connection(), consignment_id));
  const lab::NumberSeries series = lab::number_series(settings.sample_number_pattern, came_with.arrived);
  std::string number;
  PRILLBOOK_TRY(set.connection().rows(sql::last_sample_number, {std::string_view(series.prefix)}, [&](const store::Row& row) {
    number = row.text(0);
    return false;
  }));
  std::vector<SampleId> ids;
  ids.reserve(samples.size());
  for (const NewSample& sample : samples) {
    number = lab::next_number(series, number);
    PRILLBOOK_ASSIGN(const RecordId id, set.make(history::Entity::sample, settings_of(sample, consignment_id, number)));
    ids.push_back(SampleId{id});
  }
  return ids;
}

}  // namespace prillbook::custody
