// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

namespace prillbook::store {

// Whether the file, or the folder that it is to be in, lies on a file system of another machine (NFS, SMB, 9P, AFS, or one
// that a program of the user provides). False where the system does not tell.
bool lies_on_a_share(const std::string& path);
// The same for the number that statfs(2) gives for a file system.
bool is_share(long file_system);

}  // namespace prillbook::store
