// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/csv.h"

#include "core/exchange/columns.h"
#include "core/store/part_file.h"

namespace prillbook::exchange {
namespace {

std::string quoted(const std::string& field) {
  if (field.find_first_of("\",\r\n") == std::string::npos) return field;
  std::string result = "\"";
  for (const char c : field) {
    if (c == '"') result += '"';
    result += c;
  }
  return result + '"';
}

}  // namespace

std::string not_run(std::string_view text) {
  const bool would_run = !text.empty() && std::string_view("=+-@\t\r\n").find(text.front()) != std::string_view::npos;
  return (would_run ? "'" : "") + std::string(text);
}

std::string csv_record(std::span<const std::string> fields) {
  std::string record;
  for (std::size_t i = 0; i < fields.size(); ++i) {
    if (i > 0) record += ',';
    record += quoted(fields[i]);
  }
  return record + "\r\n";
}

std::string csv_text(const summary::Report& report) {
  const auto heads = summary_columns();
  std::vector<std::string> fields;
  for (const SummaryColumn& column : heads)
    fields.push_back(report.say.translated() ? title_of(column, report.say) : std::string(column.name));
  std::string text = csv_record(fields);
  for (const summary::ResultLine& line : report.lines) {
    fields = summary_cells(line, report.say);
    for (std::size_t i = 0; i < fields.size(); ++i)
      if (!heads[i].number) fields[i] = not_run(fields[i]);
    text += csv_record(fields);
  }
  return text;
}

Result<void> write_csv(const summary::Report& report, const std::string& path) {
  return store::write_whole(path, csv_text(report));
}

}  // namespace prillbook::exchange
