// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/history/chain.h"

#include <sodium.h>

#include <algorithm>

namespace prillbook::history {
namespace {

void put_number(std::string& bytes, std::int64_t number) {
  std::array<char, 8> little_endian;
  for (std::size_t i = 0; i < little_endian.size(); ++i)
    little_endian[i] = static_cast<char>((static_cast<std::uint64_t>(number) >> (8 * i)) & 0xFF);
  bytes.append(little_endian.data(), little_endian.size());
}

void put_text(std::string& bytes, std::string_view text) {
  put_number(bytes, static_cast<std::int64_t>(text.size()));
  bytes += text;
}

// A tag tells NULL, number and text apart: the number 1 and the text "1" do not hash alike.
void put_value(std::string& bytes, const store::Value& value) {
  if (const auto* number = std::get_if<std::int64_t>(&value)) {
    bytes += 'i';
    put_number(bytes, *number);
  } else if (const auto* text = std::get_if<std::string>(&value)) {
    bytes += 't';
    put_text(bytes, *text);
  } else {
    bytes += 'n';
  }
}

Hash blake2b(std::string_view bytes) {
  Hash hash;
  crypto_generichash(hash.data(), hash.size(), reinterpret_cast<const unsigned char*>(bytes.data()), bytes.size(), nullptr, 0);
  return hash;
}

}  // namespace

std::string canonical_bytes(const HistoryRow& row, const Hash& previous) {
  constexpr std::size_t usual_size = 512;
  std::string bytes;
  bytes.reserve(usual_size);
  put_number(bytes, row.id);
  put_number(bytes, row.change_set);
  put_value(bytes, row.takes_back ? store::Value{*row.takes_back} : store::Value{});
  put_text(bytes, row.gesture);
  put_number(bytes, row.entity);
  put_number(bytes, row.record);
  put_number(bytes, row.field);
  put_value(bytes, row.old_value);
  put_value(bytes, row.new_value);
  put_text(bytes, row.who);
  put_number(bytes, row.when.utc_ms);
  put_number(bytes, row.when.offset_minutes);
  put_value(bytes, row.why ? store::Value{*row.why} : store::Value{});
  bytes.append(reinterpret_cast<const char*>(previous.data()), previous.size());
  return bytes;
}

Hash hash_of(const HistoryRow& row, const Hash& previous) { return blake2b(canonical_bytes(row, previous)); }

std::string hex(const Hash& hash) {
  std::string text(hash.size() * 2 + 1, '\0');
  sodium_bin2hex(text.data(), text.size(), hash.data(), hash.size());
  text.pop_back();
  return text;
}

std::optional<Hash> hash_from_hex(std::string_view text) {
  Hash hash;
  std::size_t read = 0;
  if (text.size() != hash.size() * 2 ||
      sodium_hex2bin(hash.data(), hash.size(), text.data(), text.size(), nullptr, &read, nullptr) != 0 || read != hash.size())
    return std::nullopt;
  return hash;
}

std::optional<Hash> hash_from_bytes(std::string_view bytes) {
  Hash hash;
  if (bytes.size() != hash.size()) return std::nullopt;
  std::copy(bytes.begin(), bytes.end(), reinterpret_cast<char*>(hash.data()));
  return hash;
}

std::string hex_digest(std::string_view bytes) { return hex(blake2b(bytes)); }

}  // namespace prillbook::history
