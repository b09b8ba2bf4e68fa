// SPDX-License-Identifier: GPL-3.0-or-later
// Small files that a verb reads whole.
#pragma once

#include <string>

#include "core/base/result.h"

namespace prillbook::batch {

// Errors: not_found.
Result<std::string> bytes_of_file(const std::string& path);
// The passphrase on the first line of the file of --passphrase-file. Errors: missing_key without a path; not_found.
Result<std::string> passphrase_of(const std::string& path);

}  // namespace prillbook::batch
