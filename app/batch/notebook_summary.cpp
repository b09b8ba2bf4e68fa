// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <charconv>

#include "app/batch/notebook_verbs.h"
#include "core/exchange/csv.h"
#include "core/exchange/summary_json.h"
#include "core/exchange/xlsx.h"
#include "core/findings/finding.h"
#include "core/history/journal.h"
#include "core/store/part_file.h"
#include "core/summary/gather.h"
#include "core/wording/language.h"

namespace prillbook::batch {

Result<ClientId> find_client(store::Connection& connection, const std::string& name) {
  const auto by_name = lab::client_by_name(connection, name);
  if (by_name) return by_name->id;
  RecordId id = 0;
  const auto parsed = std::from_chars(name.data(), name.data() + name.size(), id);
  if (by_name.error().code != ErrorCode::not_found || parsed.ec != std::errc{} || parsed.ptr != name.data() + name.size())
    return by_name.error();
  PRILLBOOK_ASSIGN(const lab::Client by_id, lab::client(connection, ClientId{id}));
  return by_id.id;
}

Result<std::vector<SampleId>> wished_samples(store::Connection& connection, const SummaryWish& wish) {
  if (int(!wish.client.empty()) + int(!wish.samples.empty()) + int(!wish.consignment.empty()) > 1)
    return Error{ErrorCode::conflict, "--sample", "give a client, a consignment or samples, not two of them", {}};
  if (!wish.consignment.empty()) {
    PRILLBOOK_ASSIGN(const ConsignmentId id, custody::consignment_by_number(connection, wish.consignment));
    PRILLBOOK_ASSIGN(const auto samples, custody::samples_of(connection, id));
    std::vector<SampleId> ids;
    for (const custody::Sample& sample : samples) ids.push_back(sample.id);
    return ids;
  }
  if (!wish.client.empty()) {
    PRILLBOOK_ASSIGN(const ClientId client, find_client(connection, wish.client));
    return custody::samples_of_client(connection, client);
  }
  if (wish.samples.empty()) return Error{ErrorCode::missing_key, "--client", "say whose summary: --client or --sample", {}};
  std::vector<SampleId> ids;
  for (const std::string& number : wish.samples) {
    PRILLBOOK_ASSIGN(const SampleId id, custody::sample_by_number(connection, number));
    ids.push_back(id);
  }
  return ids;
}

namespace {

Result<void> write_pages(const summary::Report& report, const SummaryWish& wish, World& world) {
  const bool letter = wish.paper == "letter";
  if (letter ? !world.paint_pdf : !world.write_pdf) return refusal(ErrorCode::conflict, "--pdf", "this program can not paint");
  if (!letter) return world.write_pdf(report, wish.pdf);
  PRILLBOOK_ASSIGN(const std::string bytes, world.paint_pdf(report, true));
  return store::write_whole(wish.pdf, bytes);
}

}  // namespace

Result<Json> notebook_summary(const SummaryWish& wish, World& world) {
  if (wish.pdf.empty() && wish.xlsx.empty() && wish.csv.empty() && wish.json.empty())
    return Error{ErrorCode::missing_key, "--pdf", "say what to write: --pdf, --xlsx, --csv or --json", {}};
  if (wish.paper != "a4" && wish.paper != "letter") return refusal(ErrorCode::out_of_range, "--paper", "paper is a4 or letter");
  if (!wish.language.empty() && !wording::language_of(wish.language))
    return refusal(ErrorCode::out_of_range, "--language", fmt::format("'{}' is no language of ours", wish.language));
  const auto language = wish.language.empty() ? std::nullopt : std::optional(wish.language);
  PRILLBOOK_ASSIGN(const auto connection, store::Connection::open_to_read(wish.file));
  PRILLBOOK_ASSIGN(const auto ids, wished_samples(*connection, wish));
  PRILLBOOK_ASSIGN(const summary::Report report, summary::report_of(*connection, ids, world.clock.now(), language));
  Json object{{"samples", ids.size()}};
  if (!wish.pdf.empty()) {
    PRILLBOOK_TRY(write_pages(report, wish, world));
    object["pdf"] = wish.pdf;
  }
  if (!wish.xlsx.empty()) {
    PRILLBOOK_TRY(exchange::write_xlsx(report, wish.xlsx));
    object["xlsx"] = wish.xlsx;
  }
  if (!wish.csv.empty()) {
    PRILLBOOK_TRY(exchange::write_csv(report, wish.csv));
    object["csv"] = wish.csv;
  }
  if (!wish.json.empty()) {
    PRILLBOOK_TRY(exchange::write_summary_json(report, wish.json));
    object["json"] = wish.json;
  }
  return object;
}

}  // namespace prillbook::batch
