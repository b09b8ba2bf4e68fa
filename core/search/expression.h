// SPDX-License-Identifier: GPL-3.0-or-later
// What is typed, as the table of words is asked for it.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"
#include "core/store/connection.h"

namespace prillbook::search {

// Cut at blanks and quotes.
std::vector<std::string> typed_words(std::string_view text);

// Every word of the text as the beginning of a word, as an FTS5 expression; empty where there is nothing to look for.
// FTS5 gathers all rows of a beginning before it gives the first, but gives those of a whole word, or of the two letters
// that are indexed, one by one. So a beginning stands as the words of the notebook that begin so, or as their first two
// letters, as long as these are not too many (docs/decisions/0016-find-by-the-words-there-are.md).
Result<std::string> expression_of(store::Connection& connection, std::string_view text);

}  // namespace prillbook::search
