// SPDX-License-Identifier: GPL-3.0-or-later
// Bytes that are too large for the history: each stands once in the table `content`, under its hash. The history holds
// the hash alone; a content is never changed and never erased.
#pragma once

#include <functional>
#include <string>
#include <string_view>

#include "core/base/result.h"
#include "core/history/journal.h"
#include "core/history/verify.h"
#include "core/store/structure.h"

namespace prillbook::history {

// A content is at most this long: 16 MiB.
inline constexpr std::size_t most_content_bytes = std::size_t{16} << 20;

// Puts the bytes under their hash, where they do not stand there yet, and gives the hash (64 hexadecimal digits).
// Errors: missing_key for no bytes, out_of_range above most_content_bytes (the arguments: how many MB, the limit in MB).
Result<std::string> keep_content(ChangeSet& set, std::string_view bytes);
// The same for a restore, outside a gesture.
Result<std::string> keep_content(store::Connection& connection, std::string_view bytes);

// Errors: not_found; damaged where the bytes are not those that were kept.
Result<std::string> content(store::Connection& connection, std::string_view hash);

// False where the schema of this file is older than the table.
Result<bool> holds_contents(store::Connection& connection);

// Every hash and its bytes, by hash.
Result<void> each_content(store::Connection& connection,
                          const std::function<Result<void>(const std::string& hash, const std::string& bytes)>& reader);

// Every content against its hash, every attachment against its content, and the other way round. Errors: cancelled.
Result<void> verify_contents(store::Connection& connection, store::FaultList& faults, const VerifyControls& controls);

// RFC 4648, section 4, with padding. The reader takes nothing else, not even a line end.
std::string base64(std::string_view bytes);
std::optional<std::string> bytes_of_base64(std::string_view text);

}  // namespace prillbook::history
