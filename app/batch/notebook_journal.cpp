// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/batch/notebook_verbs.h"
#include "core/exchange/journal_csv.h"
#include "core/upkeep/salvage.h"

namespace prillbook::batch {
namespace {

// "2026-05-04", its beginning in UTC, or a time as ISO 8601.
Result<std::optional<std::int64_t>> moment(const std::string& text, const char* key) {
  if (text.empty()) return std::optional<std::int64_t>();
  const auto when = parse_iso(text.size() == 10 ? text + "T00:00:00Z" : text);
  if (!when) return Error{ErrorCode::out_of_range, key, text + " is no day and no time", {text}};
  return std::optional(when->utc_ms);
}

Result<versions::JournalFilter> filter_of(const JournalWish& wish) {
  versions::JournalFilter filter;
  filter.who = wish.by;
  filter.words = wish.words;
  PRILLBOOK_ASSIGN(filter.from_ms, moment(wish.from, "from"));
  PRILLBOOK_ASSIGN(filter.until_ms, moment(wish.until, "until"));
  if (wish.kind.empty()) return filter;
  const auto* entity = history::find_entity(std::string_view(wish.kind));
  if (!entity) return Error{ErrorCode::unknown_key, "kind", wish.kind + " is no table of the notebook", {wish.kind}};
  filter.kind = entity->entity;
  return filter;
}

}  // namespace

Result<Json> notebook_journal(const JournalWish& wish) {
  PRILLBOOK_ASSIGN(const auto filter, filter_of(wish));
  PRILLBOOK_ASSIGN(const auto connection, store::Connection::open_to_read(wish.file));
  PRILLBOOK_ASSIGN(const auto list, exchange::write_journal(*connection, filter, wish.csv));
  return Json{{"notebook", wish.file}, {"csv", wish.csv}, {"entries", list.lines}};
}

Result<Json> notebook_salvage(const std::string& file, const std::string& to, World& world) {
  PRILLBOOK_ASSIGN(const upkeep::Salvaged saved, upkeep::salvage(file, to, {world.clock.now()}));
  Json object{{"notebook", file},
              {"saved", to},
              {"whole", saved.whole()},
              {"entries", saved.entries},
              {"lost_entries", saved.lost_entries},
              {"records", saved.records},
              {"lost_records", saved.lost_records},
              {"told", saved.told},
              {"left", Json::array()}};
  for (const store::Fault& fault : saved.left) object["left"].push_back({{"where", fault.where}, {"what", fault.what}});
  return object;
}

}  // namespace prillbook::batch
