// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/issue/summaries.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>

#include "core/base/number.h"
#include "core/base/text.h"
#include "core/custody/custody.h"
#include "core/history/contents.h"
#include "core/history/fields.h"
#include "core/history/record.h"
#include "core/issue/lab_key.h"
#include "core/issue/statements.h"
#include "core/lab/numbering.h"
#include "core/lab/settings.h"
#include "core/readings/entry.h"
#include "core/wording/language.h"

namespace prillbook::issue {
namespace {

namespace summary_fields = history::fields::summary;
namespace place_fields = history::fields::summary_sample;
using history::Entity;
using history::Record;
using readings::cell_of;

constexpr std::array<std::string_view, 6> all_parts{"pictures", "sieves", "photographs", "custody", "methods", "tests"};

std::vector<std::string> words_of(std::string_view text) {
  std::vector<std::string> words;
  while (!(text = trimmed(text)).empty()) {
    const std::size_t end = std::min(text.find(' '), text.size());
    words.emplace_back(text.substr(0, end));
    text.remove_prefix(end);
  }
  return words;
}

Result<Summary> summary_of(store::Connection& connection, const Record& record) {
  namespace f = summary_fields;
  Summary found;
  found.id = SummaryId{record.id()};
  found.number = record.text(f::number);
  found.client = record.reference<ClientId>(f::client);
  PRILLBOOK_ASSIGN(found.begun_at, parse_iso(record.text(f::begun_at)));
  found.amends = record.reference<SummaryId>(f::amends);
  found.what_changed = record.optional_text(f::what_changed);
  found.why_amended = record.optional_text(f::why_amended);
  found.hidden = words_of(record.text(f::hidden));
  found.letter = record.text(f::paper) == "letter";
  found.price = {record.optional_text(f::gold_price), record.optional_text(f::silver_price), record.optional_text(f::price_unit),
                 record.optional_text(f::price_date)};
  found.language = record.optional_text(f::language);
  found.title = record.optional_text(f::title);
  found.remarks = record.optional_text(f::remarks);
  found.issued_by = record.reference<PersonId>(f::issued_by);
  found.preliminary = record.whole(f::preliminary) != 0;
  found.content_hash = record.text(f::content_hash);
  found.file_hash = record.text(f::file_hash);
  found.public_key = record.text(f::public_key);
  found.signature = record.text(f::signature);
  if (const auto at = record.optional_text(f::issued_at)) {
    PRILLBOOK_ASSIGN(found.issued_at, parse_iso(*at));
  }
  PRILLBOOK_ASSIGN(const auto places, history::load_referring(connection, place_fields::summary, record.id()));
  for (const Record& place : places) found.samples.push_back(place.reference<SampleId>(place_fields::sample));
  return found;
}

Result<void> check(store::Connection& connection, const NewDraft& draft) {
  if (draft.samples.empty()) return refusal(ErrorCode::missing_key, "sample", "a summary needs a sample to speak of");
  for (const SampleId id : draft.samples) {
    PRILLBOOK_ASSIGN(const custody::Sample sample, custody::sample(connection, id));
    PRILLBOOK_ASSIGN(const custody::Consignment from, custody::consignment(connection, sample.consignment));
    if (from.client != draft.client)
      return refusal(ErrorCode::conflict, "sample", sample.number + " is another client's: a summary goes to one client");
  }
  for (const std::string& part : draft.hidden)
    if (std::find(all_parts.begin(), all_parts.end(), part) == all_parts.end())
      return refusal(ErrorCode::out_of_range, "hidden", fmt::format("'{}' is no part: {}", part, fmt::join(all_parts, ", ")));
  if (draft.language && !wording::language_of(*draft.language))
    return refusal(ErrorCode::out_of_range, "language", fmt::format("'{}' is no language of ours", *draft.language));
  return check_price(draft.price);
}

std::vector<history::Setting> shown_settings(const NewDraft& draft) {
  namespace f = summary_fields;
  return {{f::hidden, cell_of(std::optional(fmt::format("{}", fmt::join(draft.hidden, " "))))},
          {f::paper, draft.letter ? history::Value{std::string("letter")} : history::Value{}},
          {f::gold_price, cell_of(draft.price.gold)},
          {f::silver_price, cell_of(draft.price.silver)},
          {f::price_unit, cell_of(draft.price.unit)},
          {f::price_date, cell_of(draft.price.date)},
          {f::language, cell_of(draft.language)},
          {f::title, cell_of(draft.title)},
          {f::remarks, cell_of(draft.remarks)}};
}

Result<std::string> next_number(history::ChangeSet& set) {
  PRILLBOOK_ASSIGN(const lab::Settings settings, lab::settings(set.connection()));
  const std::string prefix = lab::number_prefix(settings.summary_number_pattern, set.when());
  std::string last;
  PRILLBOOK_TRY(set.connection().rows(sql::last_summary_number, {std::string_view(prefix)}, [&](const store::Row& row) {
    last = row.text(0);
    return false;
  }));
  return lab::next_number(settings.summary_number_pattern, set.when(), last);
}

Result<SummaryId> make(history::ChangeSet& set, const NewDraft& draft, std::vector<history::Setting> more) {
  namespace f = summary_fields;
  PRILLBOOK_ASSIGN(const std::string number, next_number(set));
  std::vector<history::Setting> settings{
      {f::number, number}, {f::client, cell_of(draft.client)}, {f::begun_at, to_iso(set.when())}};
  for (const history::Setting& one : shown_settings(draft)) settings.push_back(one);
  for (const history::Setting& one : more) settings.push_back(one);
  PRILLBOOK_ASSIGN(const RecordId id, set.make(Entity::summary, settings));
  for (const SampleId sample : draft.samples) {
    auto placed = set.make(Entity::summary_sample, {{place_fields::summary, id}, {place_fields::sample, cell_of(sample)}});
    if (!placed) return placed.error();
  }
  return SummaryId{id};
}

Result<Summary> draft_at(history::ChangeSet& set, SummaryId id) {
  PRILLBOOK_ASSIGN(Summary held, summary(set.connection(), id));
  if (held.is_issued())
    return refusal(ErrorCode::conflict, "summary", held.number + " is issued: it can be amended, not changed");
  return held;
}

}  // namespace

std::span<const std::string_view> parts() { return all_parts; }

Result<void> check_price(const Price& price) {
  if (!price.gold && !price.silver) return {};
  if (!price.unit || !price.date)
    return refusal(ErrorCode::inconsistent, "price", "a price needs what it is in and the day it was asked on");
  for (const auto& figure : {price.gold, price.silver}) {
    if (!figure) continue;
    const auto number = parse_number(*figure, DecimalMark::point);
    if (!number || !number->rest.empty() || !(number->value > 0))
      return refusal(ErrorCode::out_of_range, "price", fmt::format("'{}' is no price", *figure));
  }
  const std::size_t slash = price.unit->rfind('/');
  const std::string mass = slash == std::string::npos ? "" : price.unit->substr(slash + 1);
  if (slash == 0 || (mass != "ozt" && mass != "g" && mass != "kg"))
    return refusal(ErrorCode::out_of_range, "price",
                   fmt::format("'{}': say the currency for one ozt, g or kg, as USD/ozt", *price.unit));
  if (!parse_iso(*price.date + "T00:00+00:00").ok() || price.date->size() != 10)
    return refusal(ErrorCode::out_of_range, "price", fmt::format("'{}' is no day: write it as 2026-05-04", *price.date));
  return {};
}

Result<SummaryId> begin_draft(history::ChangeSet& set, const NewDraft& draft) {
  PRILLBOOK_TRY(check(set.connection(), draft));
  return make(set, draft, {});
}

Result<SummaryId> begin_draft(history::Journal& journal, const NewDraft& draft) {
  return journal.record_for<SummaryId>("begin summary", [&](history::ChangeSet& set) { return begin_draft(set, draft); });
}

Result<void> change_draft(history::Journal& journal, SummaryId id, const NewDraft& draft) {
  return journal.record("change draft", [&](history::ChangeSet& set) -> Result<void> {
    PRILLBOOK_ASSIGN(const Summary held, draft_at(set, id));
    NewDraft wanted = draft;
    wanted.client = held.client;
    PRILLBOOK_TRY(check(set.connection(), wanted));
    for (const history::Setting& one : shown_settings(wanted)) PRILLBOOK_TRY(set.set(one.field, id.value, one.value));
    if (wanted.samples == held.samples) return {};
    PRILLBOOK_ASSIGN(const auto places, history::load_referring(set.connection(), place_fields::summary, id.value));
    for (const Record& place : places) PRILLBOOK_TRY(set.set(place_fields::struck, place.id(), std::int64_t{1}));
    for (const SampleId sample : wanted.samples) {
      auto placed =
          set.make(Entity::summary_sample, {{place_fields::summary, id.value}, {place_fields::sample, cell_of(sample)}});
      if (!placed) return placed.error();
    }
    return {};
  });
}

Result<void> drop_draft(history::Journal& journal, SummaryId id) {
  return journal.record("drop draft", [&](history::ChangeSet& set) -> Result<void> {
    PRILLBOOK_TRY(draft_at(set, id));
    return set.set(summary_fields::struck, id.value, std::int64_t{1});
  });
}

Result<SummaryId> amend(history::ChangeSet& set, SummaryId issued, const std::string& what_changed, const std::string& why) {
  PRILLBOOK_ASSIGN(const Summary old, summary(set.connection(), issued));
  if (!old.is_issued()) return refusal(ErrorCode::conflict, "summary", old.number + " is a draft still: change it");
  if (trimmed(what_changed).empty()) return refusal(ErrorCode::missing_key, "changed", "say what is different");
  if (trimmed(why).empty()) return refusal(ErrorCode::missing_key, "why", "say why it is amended");
  PRILLBOOK_ASSIGN(const auto others, history::load_referring(set.connection(), summary_fields::amends, issued.value));
  if (!others.empty())
    return refusal(ErrorCode::conflict, "summary",
                   fmt::format("{} takes the place of {} already", others.front().text(summary_fields::number), old.number));
  return make(set, {old.client, old.samples, old.hidden, old.letter, old.price, old.language, old.title, old.remarks},
              {{summary_fields::amends, issued.value},
               {summary_fields::what_changed, cell_of(std::optional(what_changed))},
               {summary_fields::why_amended, cell_of(std::optional(why))}});
}

Result<SummaryId> amend(history::Journal& journal, SummaryId issued, const std::string& what_changed, const std::string& why) {
  return journal.record_for<SummaryId>("amend summary",
                                       [&](history::ChangeSet& set) { return amend(set, issued, what_changed, why); });
}

Result<void> freeze(history::ChangeSet& set, SummaryId id, const Frozen& frozen) {
  namespace f = summary_fields;
  PRILLBOOK_ASSIGN(const Summary held, draft_at(set, id));
  PRILLBOOK_ASSIGN(const auto places, history::load_referring(set.connection(), place_fields::summary, id.value));
  if (places.size() != frozen.bases.size())
    return refusal(ErrorCode::changed_since, "summary", "the samples of " + held.number + " have changed since it was painted");
  PRILLBOOK_ASSIGN(const std::string file, history::keep_content(set, frozen.pdf));
  for (std::size_t i = 0; i < places.size(); ++i) PRILLBOOK_TRY(set.set(place_fields::basis, places[i].id(), frozen.bases[i]));
  PRILLBOOK_TRY(set.set(f::issued_by, id.value, cell_of(frozen.by)));
  if (frozen.preliminary) PRILLBOOK_TRY(set.set(f::preliminary, id.value, std::int64_t{1}));
  PRILLBOOK_TRY(set.set(f::content_hash, id.value, history::hex_digest(frozen.content)));
  PRILLBOOK_TRY(set.set(f::file_hash, id.value, file));
  PRILLBOOK_TRY(set.set(f::public_key, id.value, cell_of(std::optional(frozen.public_key))));
  PRILLBOOK_TRY(set.set(f::signature, id.value, cell_of(std::optional(frozen.signature))));
  return set.set(f::issued_at, id.value, to_iso(set.when()));
}

Result<Summary> summary(store::Connection& connection, SummaryId id) {
  PRILLBOOK_ASSIGN(const Record record, history::load_record(connection, Entity::summary, id.value));
  return summary_of(connection, record);
}

Result<Summary> summary_by_number(store::Connection& connection, std::string_view number) {
  PRILLBOOK_ASSIGN(const auto all, summaries(connection));
  for (const Summary& one : all)
    if (one.number == number) return one;
  return Error{ErrorCode::not_found, "summary", fmt::format("there is no summary {}", number), {std::string(number)}};
}

Result<std::vector<Summary>> summaries(store::Connection& connection, ClientId client) {
  std::vector<Summary> list;
  PRILLBOOK_ASSIGN(const auto records, client ? history::load_referring(connection, summary_fields::client, client.value)
                                              : history::load_all(connection, Entity::summary));
  for (auto record = records.rbegin(); record != records.rend(); ++record) {
    PRILLBOOK_ASSIGN(Summary one, summary_of(connection, *record));
    list.push_back(std::move(one));
  }
  return list;
}

Result<std::optional<Summary>> amended_by(store::Connection& connection, SummaryId id) {
  PRILLBOOK_ASSIGN(const auto records, history::load_referring(connection, summary_fields::amends, id.value));
  for (const Record& record : records) {
    if (!record.optional_text(summary_fields::issued_at)) continue;
    PRILLBOOK_ASSIGN(Summary next, summary_of(connection, record));
    return std::optional(std::move(next));
  }
  return std::optional<Summary>();
}

Result<std::string> issued_pdf(store::Connection& connection, SummaryId id) {
  PRILLBOOK_ASSIGN(const Summary held, summary(connection, id));
  if (!held.is_issued()) return refusal(ErrorCode::conflict, "summary", held.number + " is a draft: nothing was issued");
  return history::content(connection, held.file_hash);
}

Result<Verdict> verify(store::Connection& connection, std::string_view pdf) {
  Verdict verdict;
  const std::string hash = history::hex_digest(pdf);
  PRILLBOOK_ASSIGN(const auto all, summaries(connection));
  const auto found =
      std::find_if(all.begin(), all.end(), [&](const Summary& one) { return one.is_issued() && one.file_hash == hash; });
  if (found == all.end()) return verdict;
  verdict.issued = *found;
  if (!found->signature.empty())
    verdict.sign = is_signed(pdf, found->public_key, found->signature) ? Signed::valid : Signed::forged;
  for (SummaryId last = found->id;;) {
    PRILLBOOK_ASSIGN(auto next, amended_by(connection, last));
    if (!next || verdict.amended.size() > all.size()) return verdict;
    last = next->id;
    verdict.amended.push_back(*std::move(next));
  }
}

}  // namespace prillbook::issue
