// SPDX-License-Identifier: GPL-3.0-or-later
// A copy takes the place of the notebook; what stood there is kept beside it under the hour of its replacement.
#pragma once

#include <string>
#include <string_view>

#include "core/base/clock.h"
#include "core/base/result.h"
#include "core/store/backup.h"

namespace prillbook::upkeep {

// "lab.prillbook": "lab.replaced-2026-05-04-093015.prillbook"
std::string replaced_name(const std::string& notebook, const Instant& now);

// Copies `copy`, checks what came of it, and lets it change places with the notebook in one step; gives the path that the
// former notebook has now. The former notebook may be damaged. The caller holds its store::WriterLock and has no
// connection to it. Errors: as back_up of the copy; an error leaves the notebook as it was.
Result<std::string> restore_copy(const std::string& notebook, const std::string& copy, const Instant& now,
                                 const store::BackupOptions& options = {});

// Opens a sealed copy beside the notebook, checks it, and gives its path; the caller discards it (store::discard) once it
// was looked at. Errors: as unseal; damaged.
Result<std::string> open_sealed_copy(const std::string& notebook, const std::string& sealed, std::string_view passphrase);

}  // namespace prillbook::upkeep
