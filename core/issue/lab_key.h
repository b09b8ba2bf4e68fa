// SPDX-License-Identifier: GPL-3.0-or-later
// The lab's key for signing what it issues: Ed25519, kept in a file of its own, never in the notebook. The secret in the
// file is sealed by a passphrase (Argon2id, then XSalsa20-Poly1305; libsodium).
#pragma once

#include <array>
#include <string>
#include <string_view>

#include "core/base/result.h"

namespace prillbook::issue {

// A passphrase is at least this long, in bytes.
inline constexpr std::size_t shortest_passphrase = 8;

class LabKey {
 public:
  ~LabKey();
  LabKey(LabKey&& other) noexcept;
  LabKey(const LabKey&) = delete;
  LabKey& operator=(const LabKey&) = delete;
  LabKey& operator=(LabKey&&) = delete;

  std::string public_hex() const;  // 64 digits
  // 128 hexadecimal digits; the same bytes give the same signature (RFC 8032).
  std::string sign(std::string_view bytes) const;

 private:
  LabKey() = default;
  friend Result<LabKey> new_key();
  friend Result<LabKey> key_of_seed(std::string_view seed);
  friend Result<std::string> sealed(const LabKey& key, std::string_view passphrase);
  friend Result<LabKey> unsealed(std::string_view text, std::string_view passphrase);
  std::array<unsigned char, 32> public_{};
  std::array<unsigned char, 64> secret_{};
};

Result<LabKey> new_key();
// Errors: out_of_range unless the seed has 32 bytes.
Result<LabKey> key_of_seed(std::string_view seed);

// The text of the key file, JSON. Errors: too_small for a short passphrase; conflict where memory for Argon2id is not there.
Result<std::string> sealed(const LabKey& key, std::string_view passphrase);
// Errors: malformed_json, wrong_type, out_of_range (no key file, or one that asks for more work than is sane), conflict
// (another passphrase).
Result<LabKey> unsealed(std::string_view text, std::string_view passphrase);

// Whether the signature is of these bytes by this key; false for what is no hex.
bool is_signed(std::string_view bytes, std::string_view public_hex, std::string_view signature_hex);

}  // namespace prillbook::issue
