// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/lab/own_texts.h"

#include <fmt/format.h>

#include "core/history/fields.h"
#include "core/history/record.h"

namespace prillbook::lab {
namespace {

namespace own_text = history::fields::own_text;

Result<std::vector<history::Record>> texts_in(store::Connection& connection, wording::Language language) {
  PRILLBOOK_ASSIGN(std::vector<history::Record> records, history::load_all(connection, history::Entity::own_text));
  std::erase_if(records, [&](const auto& one) { return one.text(own_text::language) != wording::name_of(language).code; });
  return records;
}

}  // namespace

Result<wording::OwnTexts> own_texts(store::Connection& connection, wording::Language language) {
  wording::OwnTexts words;
  PRILLBOOK_ASSIGN(const auto records, texts_in(connection, language));
  for (const history::Record& record : records) {
    const wording::Text* text = wording::find_text(record.text(own_text::key));
    if (text && wording::check_words(*text, record.text(own_text::words)).ok())
      words[std::string(text->key)] = record.text(own_text::words);
  }
  return words;
}

Result<void> set_own_text(history::ChangeSet& set, wording::Language language, std::string_view key, std::string_view words) {
  const wording::Text* text = wording::find_text(key);
  if (!text || !text->own)
    return Error{ErrorCode::unknown_key, "key", fmt::format("'{}' is no text of the client's pages", key), {std::string(key)}};
  const bool back = trimmed(words).empty() || words == wording::ours(*text, language);
  if (!back) PRILLBOOK_TRY(wording::check_words(*text, words));
  PRILLBOOK_ASSIGN(const auto records, texts_in(set.connection(), language));
  for (const history::Record& record : records) {
    if (record.text(own_text::key) != key) continue;
    return back ? set.set(own_text::struck, record.id(), std::int64_t{1})
                : set.set(own_text::words, record.id(), std::string(words));
  }
  if (back) return {};
  auto made = set.make(history::Entity::own_text, {{own_text::language, std::string(wording::name_of(language).code)},
                                                   {own_text::key, std::string(key)},
                                                   {own_text::words, std::string(words)}});
  return made ? Result<void>() : made.error();
}

Result<void> set_own_text(history::Journal& journal, wording::Language language, std::string_view key, std::string_view words) {
  return journal.record("set own words", [&](history::ChangeSet& set) { return set_own_text(set, language, key, words); });
}

Result<wording::Speech> speech_in(store::Connection& connection, const Settings& settings, wording::Language language) {
  PRILLBOOK_ASSIGN(wording::OwnTexts own, own_texts(connection, language));
  const DecimalMark mark = language == settings.summary_language ? settings.decimal_mark : wording::name_of(language).mark;
  return wording::Speech(language, mark, std::make_shared<const wording::OwnTexts>(std::move(own)));
}

wording::Language language_for(const Settings& settings, const Client& client, const std::optional<std::string>& summary) {
  for (const auto& code : {summary, client.language})
    if (const wording::LanguageName* named = code ? wording::language_of(*code) : nullptr) return named->language;
  return settings.summary_language;
}

}  // namespace prillbook::lab
