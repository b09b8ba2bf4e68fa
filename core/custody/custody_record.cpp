// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/custody/custody_record.h"

#include "core/base/text.h"
#include "core/custody/statements.h"

namespace prillbook::custody {

Result<CustodyRecord> load_custody_record(store::Connection& connection, const Sample& sample, const Consignment& consignment,
                                          std::span<const lab::Person> people) {
  CustodyRecord record;
  PRILLBOOK_ASSIGN(record.chain, chain_of(connection, sample, consignment, people));
  record.holders = Holders(people);
  PRILLBOOK_ASSIGN(record.pieces, pieces_of(connection, consignment.id));
  PRILLBOOK_ASSIGN(record.own_metal, own_metal_of(connection, sample.id));
  PRILLBOOK_ASSIGN(record.told, told_figures_of(connection, sample.id));
  const std::string mark = lower_ascii(trimmed(sample.mark));
  PRILLBOOK_TRY(connection.rows(sql::marks_beside, {consignment.id.value, sample.id.value}, [&](const store::Row& row) {
    if (lower_ascii(trimmed(row.text(1))) == mark) record.same_mark.push_back(row.text(0));
    return true;
  }));
  return record;
}

}  // namespace prillbook::custody
