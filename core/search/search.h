// SPDX-License-Identifier: GPL-3.0-or-later
// What a person types into the find line, looked for in all samples and consignments.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/id.h"
#include "core/base/result.h"
#include "core/history/catalogue.h"
#include "core/store/connection.h"

namespace prillbook::search {

// Longer text is cut: nobody types it, and a scanner that runs wild shall not hold the window up.
inline constexpr std::size_t longest_text = 200;

struct Hit {
  history::Entity entity = history::Entity::sample;  // or consignment
  RecordId record = 0;
  std::string number;  // of the sample or the consignment
  std::string client;
  std::optional<std::string> mark;   // samples
  std::optional<std::string> place;  // samples; of a consignment who brought it
};

// Lab and consignment numbers that begin with the text come first, in order; then what holds every word of it, each as
// the beginning of a word of number, mark, client, consignment number, place or remarks: newest first, at most a quarter
// of them consignments where there are samples as well. Case and diacritics make no difference; quotes, operators and
// wildcards are letters that no word holds. Text without a letter or figure finds nothing.
Result<std::vector<Hit>> find(store::Connection& connection, std::string_view text, std::size_t limit);

}  // namespace prillbook::search
