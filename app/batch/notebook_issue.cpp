// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <filesystem>
#include <fstream>
#include <iterator>

#include "app/batch/files.h"
#include "app/batch/notebook_verbs.h"
#include "core/exchange/issue_summary.h"
#include "core/exchange/key_file.h"
#include "core/issue/summaries.h"
#include "core/lab/lab.h"
#include "core/store/part_file.h"
#include "core/store/writer_lock.h"
#include "core/upkeep/keep.h"

namespace prillbook::batch {
namespace {

// A notebook open to be written, for the length of one verb.
struct OpenBook {
  std::unique_ptr<store::WriterLock> lock;
  upkeep::Opened opened;
  std::unique_ptr<history::Journal> journal;
};

Result<OpenBook> open_book(const std::string& file, World& world) {
  PRILLBOOK_ASSIGN(auto lock, store::WriterLock::take(file, world.clock.now()));
  PRILLBOOK_ASSIGN(auto opened, upkeep::open_migrated(file));
  PRILLBOOK_ASSIGN(auto journal, history::Journal::open(*opened.connection, world.clock));
  return OpenBook{std::move(lock), std::move(opened), std::move(journal)};
}

std::optional<std::string> said(const std::string& text) { return text.empty() ? std::nullopt : std::optional(text); }

Json json_of(const issue::Summary& one) {
  Json object{{"number", one.number}, {"state", one.is_issued() ? "issued" : "draft"}, {"samples", one.samples.size()}};
  if (!one.is_issued()) return object;
  object["issued_at"] = to_iso(*one.issued_at);
  object["preliminary"] = one.preliminary;
  object["content_hash"] = one.content_hash;
  object["file_hash"] = one.file_hash;
  if (!one.public_key.empty()) object["public_key"] = one.public_key;
  return object;
}

}  // namespace

Result<Json> notebook_draft_summary(const DraftWish& wish, World& world) {
  if (wish.paper != "a4" && wish.paper != "letter") return refusal(ErrorCode::out_of_range, "--paper", "paper is a4 or letter");
  PRILLBOOK_ASSIGN(const OpenBook book, open_book(wish.file, world));
  store::Connection& connection = *book.opened.connection;
  SummaryWish whose;
  whose.client = wish.client;
  whose.samples = wish.samples;
  whose.consignment = wish.consignment;
  issue::NewDraft draft;
  PRILLBOOK_ASSIGN(draft.samples, wished_samples(connection, whose));
  if (!draft.samples.empty()) {
    PRILLBOOK_ASSIGN(const custody::Sample first, custody::sample(connection, draft.samples.front()));
    PRILLBOOK_ASSIGN(const custody::Consignment from, custody::consignment(connection, first.consignment));
    draft.client = from.client;
  }
  draft.hidden = wish.hidden;
  draft.letter = wish.paper == "letter";
  draft.price = {said(wish.gold_price), said(wish.silver_price), said(wish.price_unit), said(wish.price_date)};
  draft.language = said(wish.language);
  draft.title = said(wish.title);
  draft.remarks = said(wish.remarks);
  PRILLBOOK_ASSIGN(const SummaryId id, issue::begin_draft(*book.journal, draft));
  PRILLBOOK_ASSIGN(const issue::Summary made, issue::summary(connection, id));
  return json_of(made);
}

Result<Json> notebook_issue_summary(const IssueSummaryWish& wish, World& world) {
  if (!world.paint_pdf) return refusal(ErrorCode::conflict, "--pdf", "this program can not paint");
  std::optional<issue::LabKey> key;
  if (!wish.key.empty()) {
    PRILLBOOK_ASSIGN(const std::string passphrase, passphrase_of(wish.passphrase_file));
    auto opened = exchange::open_key_file(wish.key, passphrase);
    if (!opened) return opened.error();
    key.emplace(std::move(opened).value());
  }
  PRILLBOOK_ASSIGN(const OpenBook book, open_book(wish.file, world));
  store::Connection& connection = *book.opened.connection;
  PRILLBOOK_ASSIGN(const lab::Person person, lab::person_by_initials(connection, wish.by));
  book.journal->set_author(person.initials);
  PRILLBOOK_ASSIGN(const issue::Summary draft, issue::summary_by_number(connection, wish.number));
  PRILLBOOK_TRY(exchange::issue_summary(*book.journal, {draft.id, person.id, key ? &*key : nullptr, wish.over}, world.paint_pdf));
  PRILLBOOK_ASSIGN(const issue::Summary issued, issue::summary(connection, draft.id));
  Json object = json_of(issued);
  if (wish.pdf.empty()) return object;
  PRILLBOOK_ASSIGN(const std::string bytes, issue::issued_pdf(connection, draft.id));
  PRILLBOOK_TRY(store::write_whole(wish.pdf, bytes));
  object["pdf"] = wish.pdf;
  return object;
}

Result<Json> notebook_amend_summary(const AmendWish& wish, World& world) {
  PRILLBOOK_ASSIGN(const OpenBook book, open_book(wish.file, world));
  store::Connection& connection = *book.opened.connection;
  PRILLBOOK_ASSIGN(const issue::Summary issued, issue::summary_by_number(connection, wish.number));
  PRILLBOOK_ASSIGN(const SummaryId id, issue::amend(*book.journal, issued.id, wish.changed, wish.why));
  PRILLBOOK_ASSIGN(const issue::Summary made, issue::summary(connection, id));
  Json object = json_of(made);
  object["takes_the_place_of"] = issued.number;
  return object;
}

Result<Json> notebook_print_summary(const std::string& file, const std::string& number, const std::string& pdf, World& world) {
  PRILLBOOK_ASSIGN(const auto connection, store::Connection::open_to_read(file));
  PRILLBOOK_ASSIGN(const issue::Summary held, issue::summary_by_number(*connection, number));
  std::string bytes;
  if (held.is_issued()) {
    PRILLBOOK_ASSIGN(bytes, issue::issued_pdf(*connection, held.id));
  } else {
    if (!world.paint_pdf) return refusal(ErrorCode::conflict, "--pdf", "this program can not paint");
    PRILLBOOK_ASSIGN(const summary::Numbered numbered, summary::report_of_summary(*connection, held, world.clock.now()));
    PRILLBOOK_ASSIGN(bytes, world.paint_pdf(numbered.report, held.letter));
  }
  PRILLBOOK_TRY(store::write_whole(pdf, bytes));
  Json object = json_of(held);
  object["pdf"] = pdf;
  return object;
}

Result<Json> notebook_summaries(const std::string& file) {
  PRILLBOOK_ASSIGN(const auto connection, store::Connection::open_to_read(file));
  PRILLBOOK_ASSIGN(const auto all, issue::summaries(*connection));
  Json object{{"summaries", Json::array()}};
  for (const issue::Summary& one : all) {
    Json line = json_of(one);
    if (one.amends) {
      PRILLBOOK_ASSIGN(const issue::Summary old, issue::summary(*connection, one.amends));
      line["takes_the_place_of"] = old.number;
    }
    object["summaries"].push_back(std::move(line));
  }
  return object;
}

Result<Json> notebook_verify_summary(const std::string& file, const std::string& pdf) {
  PRILLBOOK_ASSIGN(const std::string bytes, bytes_of_file(pdf));
  PRILLBOOK_ASSIGN(const auto connection, store::Connection::open_to_read(file));
  PRILLBOOK_ASSIGN(const issue::Verdict verdict, issue::verify(*connection, bytes));
  Json object{{"issued_here", verdict.issued.has_value()}};
  if (!verdict.issued) return object;
  const issue::Summary& issued = *verdict.issued;
  object["number"] = issued.number;
  object["issued_at"] = to_iso(*issued.issued_at);
  object["preliminary"] = issued.preliminary;
  object["signature"] = verdict.sign == issue::Signed::valid    ? "valid"
                        : verdict.sign == issue::Signed::forged ? "forged"
                                                                : "none";
  if (!issued.public_key.empty()) object["public_key"] = issued.public_key;
  object["amended"] = !verdict.amended.empty();
  for (const issue::Summary& next : verdict.amended)
    object["amended_by"].push_back({{"number", next.number},
                                    {"issued_at", to_iso(*next.issued_at)},
                                    {"what_changed", next.what_changed.value_or("")},
                                    {"why", next.why_amended.value_or("")}});
  return object;
}

Result<Json> notebook_lab_key(const std::string& path, const std::string& passphrase_file) {
  PRILLBOOK_ASSIGN(const std::string passphrase, passphrase_of(passphrase_file));
  PRILLBOOK_ASSIGN(const std::string public_hex, exchange::make_key_file(path, passphrase));
  return Json{{"key", path}, {"public_key", public_hex}};
}

}  // namespace prillbook::batch
