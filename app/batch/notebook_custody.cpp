// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/batch/notebook_verbs.h"
#include "core/summary/custody_report.h"

namespace prillbook::batch {

Result<Json> notebook_custody(const CustodyWish& wish, World& world) {
  if (wish.samples.empty() == wish.consignment.empty())
    return refusal(wish.consignment.empty() ? ErrorCode::missing_key : ErrorCode::conflict, "--sample",
                   "say whose record: --sample or --consignment, not both");
  if (wish.out.empty()) return refusal(ErrorCode::missing_key, "--out", "say which PDF to write: --out");
  if (!world.write_pdf) return refusal(ErrorCode::conflict, "--out", "this program can not paint");
  PRILLBOOK_ASSIGN(const auto connection, store::Connection::open_to_read(wish.file));
  std::vector<SampleId> ids;
  for (const std::string& number : wish.samples) {
    PRILLBOOK_ASSIGN(const SampleId id, custody::sample_by_number(*connection, number));
    ids.push_back(id);
  }
  summary::Report report;
  if (!wish.consignment.empty()) {
    PRILLBOOK_ASSIGN(const ConsignmentId id, custody::consignment_by_number(*connection, wish.consignment));
    PRILLBOOK_ASSIGN(report, summary::custody_report_of(*connection, id, world.clock.now()));
  } else {
    PRILLBOOK_ASSIGN(report, summary::custody_report_of(*connection, ids, world.clock.now()));
  }
  PRILLBOOK_TRY(world.write_pdf(report, wish.out));
  return Json{{"pdf", wish.out}};
}

}  // namespace prillbook::batch
