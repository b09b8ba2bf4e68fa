// SPDX-License-Identifier: GPL-3.0-or-later
// copy_restorer NOTEBOOK ONE OTHER: says "ready", puts two copies by turns in the place of the notebook until it is killed,
// and tells on a line which is there now, "1" or "2". What it found there first it leaves under the name it was given.
#include <fmt/format.h>
#include <unistd.h>

#include <filesystem>
#include <string_view>

#include "core/upkeep/restore.h"

namespace {

using namespace prillbook;

bool say(std::string_view line) { return write(STDOUT_FILENO, line.data(), line.size()) >= 0; }

Result<void> restore_for_ever(const std::string& notebook, const std::string& one, const std::string& other) {
  Instant now = SystemClock().now();
  std::string first, before;
  if (!say("ready\n")) return {};
  for (int turn = 1;; turn = 3 - turn) {
    now.utc_ms += 1000;  // each former notebook has a name of its own
    PRILLBOOK_ASSIGN(const std::string kept, upkeep::restore_copy(notebook, turn == 1 ? one : other, now));
    if (!say(turn == 1 ? "1\n" : "2\n")) return {};
    if (first.empty()) first = kept;
    if (before != first) std::filesystem::remove(before);
    before = kept;
  }
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 4) return 2;
  const auto outcome = restore_for_ever(argv[1], argv[2], argv[3]);
  if (!outcome) fmt::print(stderr, "{}\n", outcome.error().detail);
  return 1;
}
