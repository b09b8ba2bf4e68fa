// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/fuzz/targets.h"

#include <cstdio>
#include <cstdlib>

namespace prillbook::fuzz {

const std::vector<NamedTarget>& targets() {
  static const std::vector<NamedTarget> all{
      {"number", number, 4000},
      {"list", list, 900},
      {"balance_line", balance_line, 1000},
      {"json", json, 2000},
      {"records", records, 60},
      {"dump", dump, 30},
      {"cells", cells, 400},
      {"picture", picture, 300},
      {"verbs", verbs, 2000},
      {"label", label, 2000},
      {"notebook_file", notebook_file, 15},
  };
  return all;
}

void demand(bool holds, const char* words) {
  if (holds) return;
  std::fprintf(stderr, "demanded: %s\n", words);
  std::abort();
}

}  // namespace prillbook::fuzz
