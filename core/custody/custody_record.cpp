// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/custody/custody_record.h"

#include "core/base/text.h"
#include "core/custody/statements.h"

namespace prillbook::custody {

namespace {

std::string comparable(std::string_view mark) { return lower_ascii(trimmed(mark)); }

}  // namespace

Result<ConsignmentRecord> load_consignment_record(history::Source source, ConsignmentId id, std::span<const lab::Person> people) {
  ConsignmentRecord shared;
  PRILLBOOK_ASSIGN(shared.consignment, consignment(source, id));
  PRILLBOOK_ASSIGN(shared.client, lab::client(source, shared.consignment.client));
  PRILLBOOK_ASSIGN(shared.chain, common_chain(source, shared.consignment, shared.client, people));
  shared.holders = Holders(people);
  PRILLBOOK_ASSIGN(shared.pieces, pieces_of(source, id));
  PRILLBOOK_TRY(source.connection().rows(sql::marks_of_consignment, {id.value}, [&](const store::Row& row) {
    shared.marks[comparable(row.text(2))].push_back({SampleId{row.integer(0)}, row.text(1)});
    return true;
  }));
  return shared;
}

Result<CustodyRecord> load_custody_record(history::Source source, const Sample& sample, const ConsignmentRecord& shared) {
  CustodyRecord record;
  PRILLBOOK_ASSIGN(record.chain, chain_of(source, sample, shared.chain));
  record.holders = shared.holders;
  record.pieces = shared.pieces;
  PRILLBOOK_ASSIGN(record.own_metal, own_metal_of(source, sample.id));
  PRILLBOOK_ASSIGN(record.told, told_figures_of(source, sample.id));
  if (const auto marked = shared.marks.find(comparable(sample.mark)); marked != shared.marks.end())
    for (const ConsignmentRecord::Marked& other : marked->second)
      if (other.sample != sample.id) record.same_mark.push_back(other.number);
  return record;
}

}  // namespace prillbook::custody
