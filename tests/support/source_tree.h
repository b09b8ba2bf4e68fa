// SPDX-License-Identifier: GPL-3.0-or-later
// The project's own C++ files, for tests that look at the source itself.
#pragma once

#include <string>
#include <vector>

namespace prillbook::testing_support {

struct SourceFile {
  std::string path;  // from the project's root, "core/units/units.h"
  std::string text;
};

// Every .h and .cpp file under these folders of the project, sorted by path. A folder that is not there holds none.
std::vector<SourceFile> source_tree(const std::vector<std::string>& folders);

// The text of one file of the project; empty where it cannot be read.
std::string project_text(const std::string& path);

}  // namespace prillbook::testing_support
