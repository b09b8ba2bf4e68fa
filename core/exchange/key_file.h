// SPDX-License-Identifier: GPL-3.0-or-later
// The file that the lab's signing key is kept in; see core/issue/lab_key.h.
#pragma once

#include <string>
#include <string_view>

#include "core/issue/lab_key.h"

namespace prillbook::exchange {

// A new key in a new file that its owner alone can read; gives the public key, hex. Errors: already_exists, a key is never
// written over; too_small for a short passphrase; disk_full, read_only, not_found.
Result<std::string> make_key_file(const std::string& path, std::string_view passphrase);

// Errors: not_found, read_only; those of issue::unsealed: conflict for another passphrase.
Result<issue::LabKey> open_key_file(const std::string& path, std::string_view passphrase);

}  // namespace prillbook::exchange
