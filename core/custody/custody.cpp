// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/custody/custody.h"

#include <fmt/format.h>

#include "core/custody/instants.h"
#include "core/custody/log_list.h"
#include "core/custody/statements.h"
#include "core/history/fields.h"
#include "core/history/record.h"
#include "core/lab/numbering.h"
#include "core/lab/settings.h"

namespace prillbook::custody {
namespace {

namespace consignment_fields = history::fields::consignment;
namespace sample_fields = history::fields::sample;
using history::Entity;
using history::Record;
using readings::cell_of;
using readings::figure_of;

Result<Consignment> consignment_of(const Record& record) {
  PRILLBOOK_ASSIGN(const Instant arrived, parse_iso(record.text(consignment_fields::arrived)));
  return Consignment{ConsignmentId{record.id()},
                     record.text(consignment_fields::number),
                     record.reference<ClientId>(consignment_fields::client),
                     arrived,
                     record.optional_text(consignment_fields::carrier),
                     record.optional_text(consignment_fields::remarks),
                     record.optional_whole(consignment_fields::pieces_declared),
                     record.optional_whole(consignment_fields::pieces_found),
                     record.reference<PersonId>(consignment_fields::received_by),
                     record.optional_text(consignment_fields::seals),
                     record.optional_text(consignment_fields::pieces_condition),
                     record.whole(consignment_fields::whole_form) != 0};
}

Result<Sample> sample_of(const Record& record) {
  Sample sample{SampleId{record.id()},
                record.text(sample_fields::number),
                record.reference<ConsignmentId>(sample_fields::consignment),
                record.text(sample_fields::mark),
                record.optional_text(sample_fields::kind),
                record.optional_text(sample_fields::place),
                record.optional_text(sample_fields::expected),
                record.optional_text(sample_fields::condition),
                record.optional_text(sample_fields::remarks),
                {},
                {},
                {},
                record.reference<SampleId>(sample_fields::swept_from)};
  PRILLBOOK_ASSIGN(sample.mass_declared, figure_of(record, sample_fields::mass_declared));
  PRILLBOOK_ASSIGN(sample.mass_received, figure_of(record, sample_fields::mass_received));
  PRILLBOOK_ASSIGN(sample.moisture, figure_of(record, sample_fields::moisture));
  PRILLBOOK_ASSIGN(sample.gross, figure_of(record, sample_fields::gross));
  PRILLBOOK_ASSIGN(sample.tare, figure_of(record, sample_fields::tare));
  sample.moisture_wanted = record.whole(sample_fields::moisture_wanted) != 0;
  sample.tests_wanted = record.optional_text(sample_fields::tests_wanted);
  PRILLBOOK_ASSIGN(sample.due, instant_of(record, sample_fields::due));
  PRILLBOOK_ASSIGN(sample.retain_until, instant_of(record, sample_fields::retain_until));
  PRILLBOOK_ASSIGN(sample.disposed_at, instant_of(record, sample_fields::disposed_at));
  sample.price_agreed = record.optional_text(sample_fields::price_agreed);
  sample.price_paid = record.optional_text(sample_fields::price_paid);
  sample.treatment = record.optional_text(sample_fields::treatment);
  sample.treatment_reason = record.optional_text(sample_fields::treatment_reason);
  sample.disposal = record.optional_text(sample_fields::disposal);
  sample.taken_by = record.optional_text(sample_fields::taken_by);
  sample.taken_when = record.optional_text(sample_fields::taken_when);
  return sample;
}

Result<std::string> next_number(store::Connection& connection, const store::Sql& last_number, std::string_view pattern,
                                const Instant& at) {
  const std::string prefix = lab::number_prefix(pattern, at);
  std::string last;
  PRILLBOOK_TRY(connection.rows(last_number, {std::string_view(prefix)}, [&](const store::Row& row) {
    last = row.text(0);
    return false;
  }));
  return lab::next_number(pattern, at, last);
}

Result<std::vector<SampleLine>> sample_lines(store::Connection& connection, const store::Sql& statement,
                                             const store::Arguments& arguments) {
  std::vector<SampleLine> lines;
  PRILLBOOK_TRY(connection.rows(statement, arguments, [&](const store::Row& row) {
    lines.push_back({SampleId{row.integer(0)}, row.text(1), row.text(2), row.text(3), row.optional_text(4)});
    return true;
  }));
  return lines;
}

}  // namespace

Result<ConsignmentId> log_consignment(history::ChangeSet& set, const NewConsignment& consignment) {
  namespace f = consignment_fields;
  PRILLBOOK_ASSIGN(const lab::Settings settings, lab::settings(set.connection()));
  const Instant arrived = consignment.arrived.value_or(set.when());
  PRILLBOOK_ASSIGN(const std::string number,
                   next_number(set.connection(), sql::last_consignment_number, settings.consignment_number_pattern, arrived));
  PRILLBOOK_ASSIGN(const RecordId id, set.make(Entity::consignment, {{f::number, number},
                                                                     {f::client, cell_of(consignment.client)},
                                                                     {f::arrived, to_iso(arrived)},
                                                                     {f::carrier, cell_of(consignment.carrier)},
                                                                     {f::pieces_declared, cell_of(consignment.pieces_declared)},
                                                                     {f::pieces_found, cell_of(consignment.pieces_found)},
                                                                     {f::received_by, cell_of(consignment.received_by)},
                                                                     {f::remarks, cell_of(consignment.remarks)}}));
  return ConsignmentId{id};
}

Result<ConsignmentId> log_consignment(history::Journal& journal, const NewConsignment& consignment) {
  return journal.record_for<ConsignmentId>("log consignment",
                                           [&](history::ChangeSet& set) { return log_consignment(set, consignment); });
}

Result<SampleId> log_sample(history::ChangeSet& set, const NewSample& sample) {
  PRILLBOOK_ASSIGN(const auto ids, log_samples(set, sample.consignment, {&sample, 1}));
  return ids.front();
}

Result<SampleId> log_sample(history::Journal& journal, const NewSample& sample) {
  return journal.record_for<SampleId>("log sample", [&](history::ChangeSet& set) { return log_sample(set, sample); });
}

Result<Consignment> consignment(history::Source source, ConsignmentId id) {
  PRILLBOOK_ASSIGN(const Record record, history::load_record(source, Entity::consignment, id.value));
  return consignment_of(record);
}

Result<Sample> sample(history::Source source, SampleId id) {
  PRILLBOOK_ASSIGN(const Record record, history::load_record(source, Entity::sample, id.value));
  return sample_of(record);
}

Result<std::vector<Sample>> samples_of(store::Connection& connection, ConsignmentId id) {
  PRILLBOOK_ASSIGN(const auto records, history::load_referring(connection, sample_fields::consignment, id.value));
  std::vector<Sample> samples;
  for (const Record& record : records) {
    PRILLBOOK_ASSIGN(Sample sample, sample_of(record));
    samples.push_back(std::move(sample));
  }
  return samples;
}

Result<SampleId> sample_by_number(store::Connection& connection, std::string_view number) {
  PRILLBOOK_ASSIGN(const std::int64_t id, connection.integer(sql::sample_by_number, {number}));
  if (id == 0) return Error{ErrorCode::not_found, "sample", fmt::format("there is no sample {}", number), {std::string(number)}};
  return SampleId{id};
}

Result<std::vector<ConsignmentLine>> consignments(store::Connection& connection, std::int64_t limit, std::int64_t offset) {
  std::vector<ConsignmentLine> lines;
  PRILLBOOK_TRY(connection.rows(sql::consignments, {limit, offset}, [&](const store::Row& row) {
    lines.push_back({ConsignmentId{row.integer(0)}, row.text(1), row.text(2), row.text(3), row.integer(4)});
    return true;
  }));
  return lines;
}

Result<std::vector<SampleLine>> recent_samples(store::Connection& connection, std::int64_t limit, std::int64_t offset) {
  return sample_lines(connection, sql::recent_samples, {limit, offset});
}

Result<std::vector<SampleLine>> uncut_samples(store::Connection& connection, std::int64_t limit) {
  return sample_lines(connection, sql::uncut_samples, {limit});
}

Result<std::int64_t> count_uncut_samples(store::Connection& connection) { return connection.integer(sql::count_uncut_samples); }

Result<std::vector<SampleId>> samples_of_client(store::Connection& connection, ClientId client) {
  std::vector<SampleId> ids;
  PRILLBOOK_TRY(connection.rows(sql::samples_of_client, {client.value}, [&](const store::Row& row) {
    ids.push_back(SampleId{row.integer(0)});
    return true;
  }));
  return ids;
}

}  // namespace prillbook::custody
