// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "core/base/result.h"

namespace prillbook::store {

// The schema of every notebook of a version is the same, text for text: where a few of its rows are damaged they are
// written again in the file, which is a copy to be salvaged from. Where each table lies is left as the file says. Gives
// how many rows were mended; 0 where the schema is sound, or too little of it is left to know the version by.
Result<int> mend_schema(const std::string& path, int version);

}  // namespace prillbook::store
