// SPDX-License-Identifier: GPL-3.0-or-later
// Copies of a notebook that may leave the lab: sealed by a passphrase. Argon2id makes the key, XChaCha20-Poly1305 in
// pieces seals the file (libsodium's secretstream), so that a changed, a missing and a cut-off piece are all noticed.
// Who loses the passphrase loses the copy: nothing in it opens it another way.
#pragma once

#include <string>
#include <string_view>

#include "core/base/result.h"

namespace prillbook::upkeep {

// A passphrase is at least this long, in bytes.
inline constexpr std::size_t shortest_seal = 8;

// Says whether the file begins as a sealed copy does; false where it can't be read.
bool is_sealed(const std::string& path);

// Seals the file `from` into the new file `to`. Errors: too_small for a short passphrase, not_found, already_exists,
// read_only, disk_full; conflict where memory for Argon2id (64 MiB) is not there. An error leaves nothing behind.
Result<void> seal(const std::string& from, const std::string& to, std::string_view passphrase);

// Opens the sealed copy `from` into the new file `to`. Errors: as seal(); out_of_range for a file that is no sealed copy
// or asks for more work than is sane; conflict where the passphrase does not open it; damaged where it was changed or cut.
Result<void> unseal(const std::string& from, const std::string& to, std::string_view passphrase);

}  // namespace prillbook::upkeep
