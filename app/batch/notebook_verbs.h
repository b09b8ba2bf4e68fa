// SPDX-License-Identifier: GPL-3.0-or-later
// `prillbook notebook …`, one function a verb. Each opens the notebook it is given, does one thing and closes it.
#pragma once

#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <vector>

#include "app/batch/run.h"

namespace prillbook::batch {

using Json = nlohmann::ordered_json;

Result<Json> notebook_new(const std::string& file);
// Reads only. The object holds "sound" and, where it is not, "faults".
Result<Json> notebook_check(const std::string& file);
Result<Json> notebook_backup(const std::string& file, const std::string& to, World& world);
Result<Json> notebook_load(const std::string& file, const std::string& text, World& world);
// Writes the dump itself to the output, not an object about it.
Result<void> notebook_dump(const std::string& file, World& world);
Result<Json> notebook_restore(const std::string& file, std::istream& dump);
Result<Json> notebook_findings(const std::string& file, const std::vector<std::string>& samples);
Result<Json> notebook_demo(const std::string& file);

struct SummaryWish {
  std::string file;
  std::string client;                // name, or id where two have one name; or
  std::vector<std::string> samples;  // lab numbers
  std::string pdf, xlsx, csv;        // one of them, or more
};
Result<Json> notebook_summary(const SummaryWish& wish, World& world);

struct LabelsWish {
  std::string file;
  std::vector<std::string> samples;  // lab numbers, or
  std::string consignment;           // its number
  std::vector<std::string> kinds;    // names of label kinds; empty: bags, and with samples their portions
  std::string layout, layout_file;   // a name, or a file with a grid of one's own
  int start = 1;
  std::string out;
};
Result<Json> notebook_labels(const LabelsWish& wish, World& world);

struct BenchSheetsWish {
  std::vector<std::string> names;  // empty: all
  std::string paper = "a4", out;
};
// Needs no notebook.
Result<Json> notebook_bench_sheets(const BenchSheetsWish& wish, World& world);

}  // namespace prillbook::batch
