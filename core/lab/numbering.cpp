// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/lab/numbering.h"

#include <fmt/format.h>

#include <charconv>

namespace prillbook::lab {
namespace {

// The braces of the running number: where they start and how many digits they ask for; width 0 where there are none.
struct Run {
  std::size_t start = 0, width = 0;
};

Run run_of(std::string_view pattern) {
  const std::size_t start = pattern.rfind('{');
  if (start == std::string_view::npos || pattern.back() != '}') return {};
  const std::string_view inside = pattern.substr(start + 1, pattern.size() - start - 2);
  if (inside.empty() || inside.size() > 9 || inside.find_first_not_of('n') != std::string_view::npos) return {};
  return {start, inside.size()};
}

std::string replaced(std::string text, std::string_view what, std::string_view with) {
  if (const auto at = text.find(what); at != std::string::npos) text.replace(at, what.size(), with);
  return text;
}

}  // namespace

bool is_number_pattern(std::string_view pattern) {
  if (pattern.empty() || pattern.size() > 40) return false;
  const Run run = run_of(pattern);
  if (run.width == 0) return false;
  const std::string rest = replaced(replaced(std::string(pattern.substr(0, run.start)), "{yyyy}", ""), "{yy}", "");
  return rest.find_first_of("{}*?[]") == std::string::npos;
}

std::string number_prefix(std::string_view pattern, const Instant& at) {
  const std::string year = local_date(at).substr(0, 4);
  return replaced(replaced(std::string(pattern.substr(0, run_of(pattern).start)), "{yyyy}", year), "{yy}", year.substr(2));
}

NumberSeries number_series(std::string_view pattern, const Instant& at) {
  return {number_prefix(pattern, at), run_of(pattern).width};
}

std::string next_number(const NumberSeries& series, std::string_view last) {
  long long number = 0;
  if (last.starts_with(series.prefix)) std::from_chars(last.data() + series.prefix.size(), last.data() + last.size(), number);
  return fmt::format("{}{:0{}}", series.prefix, number + 1, series.width);
}

std::string next_number(std::string_view pattern, const Instant& at, std::string_view last) {
  return next_number(number_series(pattern, at), last);
}

}  // namespace prillbook::lab
