// SPDX-License-Identifier: GPL-3.0-or-later
// A program that is killed in the middle of its work, and what it had said until then.
#pragma once

#include <fcntl.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <charconv>
#include <chrono>
#include <csignal>
#include <cstdlib>
#include <string>
#include <string_view>
#include <thread>
#include <vector>

namespace prillbook::testing_support {

// How often to kill: what PRILLBOOK_KILLS says, or so often.
inline int kills_wanted(int kills) {
  if (const char* text = std::getenv("PRILLBOOK_KILLS")) std::from_chars(text, text + std::string_view(text).size(), kills);
  return kills;
}

// Runs a program (its path, then its arguments) until it has said a first word, or the one waited for, and for `life` after
// that, kills it, and gives all it said. Empty where it did not start.
inline std::string said_before_killed(std::vector<std::string> command, std::chrono::microseconds life,
                                      std::string_view word = {}) {
  std::array<int, 2> ends{};
  if (pipe2(ends.data(), O_CLOEXEC) != 0) return "";
  posix_spawn_file_actions_t actions;
  posix_spawn_file_actions_init(&actions);
  posix_spawn_file_actions_adddup2(&actions, ends[1], STDOUT_FILENO);
  std::vector<char*> arguments;
  for (std::string& part : command) arguments.push_back(part.data());
  arguments.push_back(nullptr);
  pid_t child = 0;
  const int started = posix_spawn(&child, arguments[0], &actions, nullptr, arguments.data(), environ);
  posix_spawn_file_actions_destroy(&actions);
  close(ends[1]);
  std::string said;
  std::array<char, 4096> buffer{};
  if (started == 0) {
    const auto hears = [&] {
      const ssize_t count = read(ends[0], buffer.data(), buffer.size());
      if (count > 0) said.append(buffer.data(), static_cast<std::size_t>(count));
      return count > 0;
    };
    // The first word shows that it is at work; loading the program is not what is to be killed.
    while (hears() && said.find(word) == std::string::npos) {
    }
    std::this_thread::sleep_for(life);
    kill(child, SIGKILL);
    waitpid(child, nullptr, 0);
    while (hears()) {
    }
  }
  close(ends[0]);
  return said;
}

}  // namespace prillbook::testing_support
