// SPDX-License-Identifier: GPL-3.0-or-later
// The lab's own words on the client's pages, and the language that a client's pages are in.
#pragma once

#include "core/lab/lab.h"
#include "core/lab/settings.h"
#include "core/wording/speech.h"

namespace prillbook::lab {

// A notebook of an older schema has none; words whose text is gone, or whose placeholders do not fit it any more, are left
// out. Errors: damaged.
Result<wording::OwnTexts> own_texts(store::Connection& connection, wording::Language language);

// Empty words go back to ours. Errors: unknown_key for a key that is no text, or one that a lab can not word itself; those
// of wording::check_words.
Result<void> set_own_text(history::Journal& journal, wording::Language language, std::string_view key, std::string_view words);
Result<void> set_own_text(history::ChangeSet& set, wording::Language language, std::string_view key, std::string_view words);

// What pages in a language are said in: a language other than the lab's has its usual decimal mark, the lab's own the lab's.
Result<wording::Speech> speech_in(store::Connection& connection, const Settings& settings, wording::Language language);

// That of the summary, else the client's, else the lab's. A code that is none counts as not said.
wording::Language language_for(const Settings& settings, const Client& client, const std::optional<std::string>& summary);

}  // namespace prillbook::lab
