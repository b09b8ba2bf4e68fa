// SPDX-License-Identifier: GPL-3.0-or-later
// What a client asks for: the tests, and by when.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/custody/custody.h"

namespace prillbook::custody {

// The words a list of tests is made of.
inline constexpr std::string_view test_words[] = {"pan", "fire", "sieve", "metallics", "moisture"};

// "Pan, fire" as {"pan", "fire"}: commas, semicolons or blanks between, each once, in the order of test_words.
// Errors: out_of_range with the word that is none of them, and those that are.
Result<std::vector<std::string>> wanted_tests(std::string_view text);

// Writes the list as wanted_tests understands it, "pan, fire"; empty text: nothing is asked for.
Result<void> set_tests_wanted(history::ChangeSet& set, SampleId id, std::string_view text);
Result<void> set_tests_wanted(history::Journal& journal, SampleId id, std::string_view text);

// A line of what waits, with what decides about it. Oldest first.
struct WaitingSample {
  SampleId id;
  std::string number, mark, client;
  std::optional<std::string> condition, treatment;
  std::optional<Instant> due;
};
Result<std::vector<WaitingSample>> waiting_samples(store::Connection& connection, std::int64_t limit);

// Samples whose rest is kept no longer than `now` and of which nobody wrote what became of it; the oldest first.
Result<std::vector<WaitingSample>> retention_over(store::Connection& connection, const Instant& now, std::int64_t limit);

}  // namespace prillbook::custody
