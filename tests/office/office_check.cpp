// SPDX-License-Identifier: GPL-3.0-or-later
// The workbook of a summary as an office program reads it: opened, written out as a list, and compared cell by cell with
// the JSON of the same summary. Not among the usual tests, as that program is large; without it the check says so.
//
//   cmake --build .build/dev --target office_check && .build/dev/bin/office_check
#include <fmt/format.h>

#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>

#include "core/custody/custody.h"
#include "core/exchange/columns.h"
#include "core/exchange/records.h"
#include "core/exchange/summary_json.h"
#include "core/exchange/xlsx.h"
#include "core/results/lists.h"
#include "core/summary/gather.h"
#include "core/tables/table.h"
#include "tests/support/files.h"
#include "tests/support/notebook.h"

namespace prillbook {
namespace {

std::string text_of_file(const std::string& path) {
  std::ifstream file(path);
  std::stringstream text;
  text << file.rdbuf();
  return text.str();
}

// "soffice" where the machine has it; empty where not.
std::string office_program() {
  for (const char* name : {"soffice", "libreoffice"})
    if (std::system(fmt::format("command -v {} > /dev/null 2>&1", name).c_str()) == 0) return name;
  return "";
}

struct Count {
  int compared = 0, wrong = 0;
};

void compare(const summary::Report& report, const std::string& folder, const std::string& office, Count& count) {
  const std::string book = folder + "/summary.xlsx", list = folder + "/summary.csv";
  if (!exchange::write_xlsx(report, book).ok()) throw std::runtime_error("the workbook could not be written");
  // Every sheet's cells as they are shown would lose digits: 76 is UTF-8, the last words ask for values as they are kept.
  const std::string command = fmt::format(
      "{} -env:UserInstallation=file://{}/office --headless --convert-to 'csv:Text - txt - csv "
      "(StarCalc):44,34,76,1,,0,false,false' "
      "--outdir {} {} > /dev/null 2>&1",
      office, folder, folder, book);
  std::filesystem::remove(list);
  if (std::system(command.c_str()) != 0 || !std::filesystem::exists(list))
    throw std::runtime_error("the office program did not open the workbook");
  const auto table = tables::parse_table(text_of_file(list), ',').value();
  const auto json = nlohmann::json::parse(exchange::summary_json(report));
  const auto columns = exchange::summary_columns();
  std::size_t head = 0;
  while (head < table.size() && table[head].cells.front() != exchange::title_of(columns.front(), report.say)) ++head;
  const auto differs = [&](const std::string& where, const std::string& cell, const std::string& wanted) {
    ++count.wrong;
    fmt::print("{}: the sheet has '{}', the JSON '{}'\n", where, cell, wanted);
  };
  for (std::size_t row = 0; row < json["results"].size(); ++row)
    for (std::size_t i = 0; i < columns.size(); ++i) {
      const auto& line = json["results"][row];
      const std::string name(columns[i].name);
      const auto& cells = head + 1 + row < table.size() ? table[head + 1 + row].cells : std::vector<std::string>();
      const std::string cell = i < cells.size() ? cells[i] : "";
      ++count.compared;
      if (!line.contains(name)) {
        if (!cell.empty()) differs(name, cell, "");
      } else if (line[name].is_string()) {
        if (cell != line[name].get<std::string>()) differs(name, cell, line[name]);
      } else {
        const auto number = parse_number(cell, DecimalMark::point);
        const double wanted = line[name].get<double>();
        if (!number.ok() || std::abs(number->value - wanted) > 1e-9 * std::abs(wanted)) differs(name, cell, line[name].dump());
      }
    }
}

int check() {
  const std::string office = office_program();
  if (office.empty()) return fmt::print("skipped: no office program is installed, so no workbook was opened\n"), 0;
  testing_support::MemoryNotebook notebook;
  if (!exchange::load_records(*notebook.journal, text_of_file(std::string(PRILLBOOK_SOURCE_DIR) + "/sample-data/demo.json")).ok())
    return fmt::print("the demonstration could not be loaded\n"), 1;
  testing_support::TempFolder folder;
  Count count;
  int books = 0;
  for (const auto& client : results::clients_with_samples(*notebook.connection, 100).value()) {
    const auto samples = custody::samples_of_client(*notebook.connection, client.client).value();
    const auto report = summary::report_of(*notebook.connection, samples, notebook.clock.now(), "en").value();
    compare(report, folder.file(""), office, count);
    ++books;
  }
  fmt::print("{} workbooks, {} cells compared, {} differ\n", books, count.compared, count.wrong);
  return count.wrong == 0 && count.compared > 0 ? 0 : 1;
}

}  // namespace
}  // namespace prillbook

int main() {
  try {
    return prillbook::check();
  } catch (const std::exception& fault) {
    fmt::print("{}\n", fault.what());
    return 1;
  }
}
