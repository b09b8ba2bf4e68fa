// SPDX-License-Identifier: GPL-3.0-or-later
// A file is written beside its name and takes the name only when it is whole and on the disk: a full disk or a power cut
// leaves the old one as it was. The folder is synced as well; where it can not be opened or has no sync, the name may be
// lost in a power cut, the file is not harmed.
#pragma once

#include <string>
#include <string_view>

#include "core/base/result.h"

namespace prillbook::store {

// The name that `path` has while it is being written.
std::string part_path(const std::string& path);

// What the system said about a file, an errno: disk_full, read_only, already_exists, not_found (no such folder), with the
// path as argument.
Error file_fault(int system_error, const std::string& path);

// Brings the part file to the disk and gives it its name; where that fails it is removed. Where the folder reports a fault
// at the very end (disk_full with the field "commit_done"), the file has its name all the same.
Result<void> finish_part(const std::string& path);
void drop_part(const std::string& path);

// Writes `bytes` as the whole of `path`.
Result<void> write_whole(const std::string& path, std::string_view bytes);

// Moves a file that is on the disk to its place, refusing an existing one unless `replace`.
Result<void> move_into_place(const std::string& from, const std::string& to, bool replace);
// Two files change their names in one step. Where the file system can not do that it takes three. After any error each has
// its own name again, as far as the disk lets it. Both in one folder.
Result<void> change_places(const std::string& one, const std::string& other);

}  // namespace prillbook::store
