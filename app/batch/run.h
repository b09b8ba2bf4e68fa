// SPDX-License-Identifier: GPL-3.0-or-later
// The batch verbs: `prillbook calc …` and `prillbook notebook …`. One JSON object on standard output, messages on
// standard error. Exit: 0 done, 1 refused, 2 the call itself is wrong, 3 file or notebook fault.
#pragma once

#include <functional>
#include <istream>
#include <ostream>
#include <string>
#include <vector>

#include "core/base/clock.h"
#include "core/base/result.h"

namespace prillbook::summary {
struct Report;
}
namespace prillbook::labels {
struct Label;
struct Layout;
}  // namespace prillbook::labels

namespace prillbook::batch {

// What the verbs need of the world; a test hands in its own.
struct World {
  std::istream& in;
  std::ostream& out;
  std::ostream& err;
  Clock& clock;
  // Paints a summary to a PDF; absent in a program without painting.
  std::function<Result<void>(const summary::Report& report, const std::string& path)> write_pdf;
  // The same for labels, the first of them at the place `start`, and for blank bench sheets (all where none is named).
  std::function<Result<void>(const std::vector<labels::Label>& all, const labels::Layout& layout, int start,
                             const std::string& path)>
      write_labels = nullptr;
  std::function<Result<void>(const std::vector<std::string>& names, bool letter, const std::string& path)> write_bench_sheets =
      nullptr;
  // Gives the bytes of a summary, on A4 or Letter.
  std::function<Result<std::string>(const summary::Report& report, bool letter)> paint_pdf = nullptr;
};

// True where the first argument names a batch verb, so that no window is to be opened.
bool is_batch(const std::vector<std::string>& arguments);

// `arguments` without the program's name. Gives the exit status.
int run(const std::vector<std::string>& arguments, World& world);

}  // namespace prillbook::batch
