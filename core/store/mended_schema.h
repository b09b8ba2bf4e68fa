// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "core/base/result.h"

namespace prillbook::store {

// A notebook begins with the pages of an empty one of its version, and where its tables lie stands in some of these: where
// few of them differ they are put back in the file, which is a copy to be salvaged from. Gives how many; 0, and the file as
// it was, where the schema reads, or where the file is not sound with them, as after a migration.
Result<int> mend_schema_pages(const std::string& path, int version);

// The schema of every notebook of a version is the same, text for text: where a few of its rows are damaged they are
// written again in the file. Where each table lies is left as the file says. Gives
// how many rows were mended; 0 where the schema is sound, or too little of it is left to know the version by.
Result<int> mend_schema(const std::string& path, int version);

}  // namespace prillbook::store
