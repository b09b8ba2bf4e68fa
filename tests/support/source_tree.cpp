// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/source_tree.h"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>

namespace prillbook::testing_support {
namespace {

const std::filesystem::path root = PRILLBOOK_SOURCE_DIR;

}  // namespace

std::vector<SourceFile> source_tree(const std::vector<std::string>& folders) {
  std::vector<SourceFile> files;
  for (const std::string& folder : folders) {
    if (!std::filesystem::is_directory(root / folder)) continue;
    for (const auto& entry : std::filesystem::recursive_directory_iterator(root / folder)) {
      const auto extension = entry.path().extension();
      if (!entry.is_regular_file() || (extension != ".h" && extension != ".cpp")) continue;
      const std::string path = entry.path().lexically_relative(root).generic_string();
      files.push_back({path, project_text(path)});
    }
  }
  std::sort(files.begin(), files.end(), [](const SourceFile& a, const SourceFile& b) { return a.path < b.path; });
  return files;
}

std::string project_text(const std::string& path) {
  std::ifstream stream(root / path, std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), {}};
}

}  // namespace prillbook::testing_support
