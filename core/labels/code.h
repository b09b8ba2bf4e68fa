// SPDX-License-Identifier: GPL-3.0-or-later
// The text in the code of a label, as a scanner types it: "PB1:P:26-0003/2". docs/labels.md describes it.
#pragma once

#include <string>
#include <string_view>

#include "core/base/id.h"
#include "core/base/result.h"
#include "core/history/catalogue.h"
#include "core/store/connection.h"

namespace prillbook::labels {

// Every code begins with this, whatever the case; the digit is the version of the scheme.
inline constexpr std::string_view code_prefix = "PB1:";
// In bytes, the prefix with it.
inline constexpr std::size_t longest_code = 120;

enum class CodeKind { consignment, sample, portion, charge };

struct Code {
  CodeKind kind = CodeKind::sample;
  std::string number;        // of the consignment or the sample, as the notebook has it
  std::int64_t portion = 0;  // running number under the sample, from 1; portion and charge only

  friend bool operator==(const Code&, const Code&) = default;
};

// Domain: a number that is not empty and has no control characters; code_text cuts nothing.
std::string code_text(const Code& code);

// Whether a text means to be a code: it begins with the prefix.
bool is_code(std::string_view text);

// Blanks at the ends are passed over. Errors, with the text as argument: wrong_type (no code of ours), newer_version (a
// later version of the scheme), out_of_range (an unknown kind, a number or a portion that can not be).
Result<Code> parse_code(std::string_view text);

struct Place {
  history::Entity entity = history::Entity::sample;
  RecordId record = 0;

  friend bool operator==(const Place&, const Place&) = default;
};

// What the label stands for. Errors: not_found, with the number as argument.
Result<Place> find(store::Connection& connection, const Code& code);

}  // namespace prillbook::labels
