// SPDX-License-Identifier: GPL-3.0-or-later
// A file is written beside its name and takes the name only when it is whole: a full disk leaves the old one as it was.
#pragma once

#include <string>
#include <string_view>

#include "core/base/result.h"

namespace prillbook::exchange {

// The name that `path` has while it is being written.
std::string part_path(const std::string& path);

// What the system said about a file: disk_full, read_only, not_found (no such folder), with the path as argument.
Error file_fault(int system_error, const std::string& path);

// Brings the part file to the disk and gives it its name; where that fails it is removed.
Result<void> finish_part(const std::string& path);
void drop_part(const std::string& path);

// Writes `bytes` as the whole of `path`.
Result<void> write_whole(const std::string& path, std::string_view bytes);

}  // namespace prillbook::exchange
