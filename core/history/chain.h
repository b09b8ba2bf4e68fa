// SPDX-License-Identifier: GPL-3.0-or-later
// The row of history and its hash. The hash covers the row's own canonical bytes and the hash before it, never table
// columns: a later schema leaves old rows as they are. The chain has no key; it shows accidents, not a forger.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "core/base/clock.h"
#include "core/store/value.h"

namespace prillbook::history {

using Hash = std::array<unsigned char, 32>;  // BLAKE2b-256

struct HistoryRow {
  std::int64_t id = 0;
  std::int64_t change_set = 0;
  std::optional<std::int64_t> takes_back;  // change set that this one undoes
  std::string gesture;                     // what the person did, "weigh bead"
  std::int64_t entity = 0;
  std::int64_t record = 0;
  std::int64_t field = 0;  // 0: the record was made
  store::Value old_value;
  store::Value new_value;
  std::string who;
  Instant when;
  std::optional<std::string> why;
  Hash hash{};
};

// Every part with its length before it, in the order of the struct, the previous hash last.
std::string canonical_bytes(const HistoryRow& row, const Hash& previous);
Hash hash_of(const HistoryRow& row, const Hash& previous);
std::string hex(const Hash& hash);
std::optional<Hash> hash_from_hex(std::string_view text);
std::optional<Hash> hash_from_bytes(std::string_view bytes);
// BLAKE2b-256 of any bytes, as hex.
std::string hex_digest(std::string_view bytes);

}  // namespace prillbook::history
