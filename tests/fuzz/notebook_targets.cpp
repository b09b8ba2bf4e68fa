// SPDX-License-Identifier: GPL-3.0-or-later
// What ends in a notebook or says it is one. Files lie in a folder of the temporary files that goes with the process.
#include <algorithm>
#include <cmath>

#include "app/batch/calc.h"
#include "core/exchange/notebook_dump.h"
#include "core/exchange/records.h"
#include "core/history/record.h"
#include "core/json/json_input.h"
#include "core/store/backup.h"
#include "core/upkeep/check.h"
#include "tests/fuzz/targets.h"
#include "tests/support/files.h"
#include "tests/support/notebook.h"

namespace prillbook::fuzz {
namespace {

using testing_support::MemoryNotebook;

std::string work_file(const char* name) {
  static const testing_support::TempFolder folder;
  return folder.file(name);
}

history::Hash head(store::Connection& connection) { return history::head_of(connection).value(); }

void demand_sound(store::Connection& connection) {
  const auto report = upkeep::check_notebook(connection);
  demand(report.ok() && report->sound(), "what was taken in is sound");
}

// A small notebook as a file has it, to be changed.
const std::string& whole_file() {
  static const std::string bytes = [] {
    const std::string path = work_file("whole.prillbook");
    {
      SteppingClock clock = testing_support::monday_morning();
      const auto connection = store::Connection::create(path).value();
      const auto journal = history::Journal::open(*connection, clock).value();
      const auto loaded = exchange::load_records(
          *journal, testing_support::file_text(std::string(PRILLBOOK_SOURCE_DIR) + "/tests/fuzz/seeds/records/small.json"));
      demand(loaded.ok(), "the seed is good");
    }
    return testing_support::file_text(path);
  }();
  return bytes;
}

// The input says what is changed in the whole file: one byte whether it is cut short, two where, then three bytes of a
// place and one of what stands there, as often as there are four.
std::string changed_file(std::string_view input) {
  std::string file = whole_file();
  const auto byte = [&](std::size_t at) { return std::size_t(static_cast<unsigned char>(input[at])); };
  if (input.size() < 3) return file;
  for (std::size_t at = 3; at + 4 <= input.size(); at += 4)
    file[(byte(at) << 16 | byte(at + 1) << 8 | byte(at + 2)) % file.size()] = input[at + 3];
  if (byte(0) == 1) file.resize((byte(1) << 8 | byte(2)) * file.size() >> 16);
  return file;
}

bool finite(const nlohmann::ordered_json& value) {
  if (value.is_number_float()) return std::isfinite(value.get<double>());
  return !value.is_structured() || std::all_of(value.begin(), value.end(), finite);
}

void open_and_read(const std::string& path) {
  const auto connection = store::Connection::open(path, store::Access::read_write);
  if (!connection.ok()) return;
  if (!(*connection)->migrate().ok()) return;
  for (const history::EntitySpec& entity : history::catalogue()) (void)history::load_all(**connection, entity.entity);
  (void)exchange::dump_notebook(**connection);
}

}  // namespace

void records(std::string_view bytes) {
  static auto notebook = std::make_unique<MemoryNotebook>();
  const auto before = head(*notebook->connection);
  if (exchange::load_records(*notebook->journal, bytes).ok()) {
    demand_sound(*notebook->connection);
    notebook = std::make_unique<MemoryNotebook>();
  } else {
    demand(head(*notebook->connection) == before, "refused records leave nothing behind");
  }
}

void dump(std::string_view bytes) {
  const std::string path = work_file("restored.prillbook");
  store::discard(path);
  if (!exchange::restore_notebook(bytes, path).ok()) return demand(!std::filesystem::exists(path), "nothing is left behind");
  const auto connection = store::Connection::open_to_read(path).value();
  demand_sound(*connection);
}

void notebook_file(std::string_view bytes) {
  const std::string path = work_file("changed.prillbook");
  store::discard(path);
  testing_support::write_file(path, changed_file(bytes));
  const auto report = upkeep::check_notebook(path);
  if (report.ok() && report->sound())
    demand(exchange::dump_notebook(*store::Connection::open_to_read(path).value()).ok(), "a sound notebook can be dumped");
  open_and_read(path);
}

void verbs(std::string_view bytes) {
  if (bytes.empty()) return;
  static const auto names = batch::calc_names();
  const auto input = parse_json(bytes.substr(1));
  if (!input) return;
  const auto answer = batch::calc(names[static_cast<unsigned char>(bytes[0]) % names.size()], *input);
  if (answer) return demand(finite(*answer), "an answer has neither NaN nor infinity");
  const int status = exit_status(answer.error().code);
  demand(status == 1 || status == 2, "a computation is refused, and no file is at fault");
  (void)contract_name(answer.error().code);
}

}  // namespace prillbook::fuzz
