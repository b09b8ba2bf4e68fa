// SPDX-License-Identifier: GPL-3.0-or-later
// prillbook_generate FILE SAMPLES [SEED]: writes a notebook of invented lab weeks.
#include <fmt/format.h>

#include <charconv>
#include <chrono>
#include <cstdio>
#include <cstring>

#include "core/store/connection.h"
#include "tests/support/generator.h"

namespace {

template <class Number>
bool read(const char* text, Number& number) {
  const char* end = text + std::strlen(text);
  const auto [stop, fault] = std::from_chars(text, end, number);
  return fault == std::errc{} && stop == end;
}

prillbook::Result<void> write(const char* path, const prillbook::testing_support::GeneratorOptions& options) {
  using namespace prillbook;
  SteppingClock clock(*parse_iso("2020-01-06T08:00:00.000+01:00"));
  PRILLBOOK_ASSIGN(const auto connection, store::Connection::create(path));
  PRILLBOOK_ASSIGN(const auto journal, history::Journal::open(*connection, clock));
  return testing_support::generate(*journal, clock, options);
}

}  // namespace

int main(int argc, char** argv) {
  prillbook::testing_support::GeneratorOptions options;
  if (argc < 3 || argc > 4 || !read(argv[2], options.samples) || (argc == 4 && !read(argv[3], options.seed))) {
    fmt::print(stderr, "prillbook_generate FILE SAMPLES [SEED]\n");
    return 2;
  }
  constexpr long many = 2000;
  if (options.samples > many) options.consignments_a_gesture = 50;
  const auto start = std::chrono::steady_clock::now();
  const auto outcome = write(argv[1], options);
  if (!outcome) {
    fmt::print(stderr, "{}\n", outcome.error().detail);
    return 1;
  }
  const std::chrono::duration<double> took = std::chrono::steady_clock::now() - start;
  fmt::print("{} samples in {:.1f} s\n", options.samples, took.count());
  return 0;
}
