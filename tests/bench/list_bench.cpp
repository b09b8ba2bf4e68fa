// SPDX-License-Identifier: GPL-3.0-or-later
// list_bench [ROWS] [SAMPLES]: a client's list of ROWS rows looked over and entered, against prepared inserts of the same
// rows and the same history; then what is typed into the find line, looked for among SAMPLES samples.
#include <fmt/format.h>
#include <sqlite3.h>

#include <algorithm>
#include <charconv>
#include <chrono>
#include <cstring>
#include <filesystem>
#include <vector>

#include "core/custody/log_list.h"
#include "core/intake/sample_list.h"
#include "core/lab/lab.h"
#include "core/search/search.h"

namespace {

using namespace prillbook;
using Watch = std::chrono::steady_clock;

double since(Watch::time_point start) { return std::chrono::duration<double, std::milli>(Watch::now() - start).count(); }

constexpr const char* places[] = {"north drive", "south drive", "old dump", "Höllgraben", "second raise", "pond", "adit mouth"};
constexpr const char* kinds[] = {"chip", "grab", "channel", "bulk", "dump", "tailing"};
constexpr const char* words[] = {"quartz", "garlic smell", "visible gold", "limonite", "wet bag", "arsenopyrite", "keep apart"};

std::string list_text(long rows) {
  std::string text = "Mark;Type;Place;Class;Weight (kg);Moisture %;Remarks\r\n";
  for (long i = 0; i < rows; ++i)
    text += fmt::format("LA-{:05};{};{} {};low;{},{:03};{},5;{}\r\n", i, kinds[i % 6], places[i % 7], i % 97, 1 + i % 9, i % 1000,
                        i % 12, words[i % 7]);
  return text;
}

struct Notebook {
  std::filesystem::path path;
  SteppingClock clock{*parse_iso("2026-05-04T09:00:00.000+02:00")};
  std::unique_ptr<store::Connection> connection;
  std::unique_ptr<history::Journal> journal;
  ClientId client;
  ConsignmentId consignment;

  explicit Notebook(std::filesystem::path file) : path(std::move(file)) {
    connection = store::Connection::create(path.string()).value();
    journal = history::Journal::open(*connection, clock).value();
    journal->set_author("HM");
    client = lab::add_client(*journal, "Larch Adit Syndicate").value();
    consignment = custody::log_consignment(*journal, {client, {}, {}, {}, {}, {}, {}}).value();
  }
};

// Rows of one table as SQLite holds them.
struct Rows {
  int columns = 0;
  std::vector<sqlite3_value*> values;
  ~Rows() {
    for (sqlite3_value* value : values) sqlite3_value_free(value);
  }
};

void take(sqlite3* from, const char* text, Rows& rows) {
  sqlite3_stmt* statement = nullptr;
  sqlite3_prepare_v2(from, text, -1, &statement, nullptr);
  rows.columns = sqlite3_column_count(statement);
  while (sqlite3_step(statement) == SQLITE_ROW)
    for (int i = 0; i < rows.columns; ++i) rows.values.push_back(sqlite3_value_dup(sqlite3_column_value(statement, i)));
  sqlite3_finalize(statement);
}

bool put(sqlite3* to, const char* table, const Rows& rows) {
  std::string text = fmt::format("INSERT INTO {} VALUES (", table);
  for (int i = 0; i < rows.columns; ++i) text += i ? ", ?" : "?";
  sqlite3_stmt* statement = nullptr;
  if (sqlite3_prepare_v2(to, (text + ")").c_str(), -1, &statement, nullptr) != SQLITE_OK) return false;
  bool done = true;
  const auto width = static_cast<std::size_t>(rows.columns);
  for (std::size_t at = 0; done && at < rows.values.size(); at += width) {
    for (std::size_t i = 0; i < width; ++i) sqlite3_bind_value(statement, int(i) + 1, rows.values[at + i]);
    done = sqlite3_step(statement) == SQLITE_DONE;
    sqlite3_reset(statement);
  }
  sqlite3_finalize(statement);
  return done;
}

// The rows that the import wrote, written again by prepared statements into a notebook without them.
struct Bare {
  double rows = -1;        // ms for the samples and their history
  double with_words = -1;  // ms with what the find line needs as well
};

Bare bare_inserts(const std::filesystem::path& from, const std::filesystem::path& to) {
  Notebook bare(to);
  bare.journal.reset();
  bare.connection.reset();
  sqlite3 *source = nullptr, *target = nullptr;
  sqlite3_open(from.c_str(), &source);
  sqlite3_open(to.c_str(), &target);
  Bare took;
  {
    Rows samples, history;
    take(source, "SELECT * FROM sample ORDER BY id", samples);
    take(source, "SELECT * FROM history WHERE id > 2 ORDER BY id", history);
    sqlite3_exec(target, "PRAGMA journal_mode = DELETE; PRAGMA synchronous = EXTRA; PRAGMA foreign_keys = ON; PRAGMA cache_size = -16384", nullptr, nullptr,
                 nullptr);
    sqlite3_exec(target, "DELETE FROM column_match", nullptr, nullptr, nullptr);
    const auto start = Watch::now();
    sqlite3_exec(target, "BEGIN IMMEDIATE", nullptr, nullptr, nullptr);
    const bool done = put(target, "sample", samples) && put(target, "history", history);
    sqlite3_exec(target, "COMMIT", nullptr, nullptr, nullptr);
    if (done) took.rows = since(start);
    const char* find_words =
        "BEGIN IMMEDIATE; INSERT INTO search (rowid, number, mark, client, consignment, place, remarks) SELECT s.id, s.number, "
        "s.mark, "
        "client.name, c.number, s.place, s.remarks FROM sample s JOIN consignment c ON c.id = s.consignment_id "
        "JOIN client ON client.id = c.client_id; COMMIT";
    const auto again = Watch::now();
    if (sqlite3_exec(target, find_words, nullptr, nullptr, nullptr) == SQLITE_OK) took.with_words = took.rows + since(again);
  }
  sqlite3_close(source);
  sqlite3_close(target);
  return took;
}

int bench_import(const std::filesystem::path& folder, long rows) {
  const std::string text = list_text(rows);
  std::vector<double> first_page, looked, entered, bare, bare_words;
  for (int round = 0; round < 3; ++round) {
    Notebook lab(folder / fmt::format("import-{}.prillbook", round));
    auto start = Watch::now();
    const auto page = intake::SampleList::read(text, intake::context_of(*lab.connection, lab.consignment).value(), {}, 200);
    first_page.push_back(since(start));
    start = Watch::now();
    auto context = intake::context_of(*lab.connection, lab.consignment).value();
    const auto list = intake::SampleList::read(text, std::move(context));
    looked.push_back(since(start));
    if (!page || !list || list->refused_rows() > 0) return 1;
    start = Watch::now();
    const auto ids = intake::enter_list(*lab.journal, lab.consignment, *list);
    entered.push_back(since(start));
    if (!ids) return 1;
    lab.journal.reset();
    lab.connection.reset();
    const Bare took = bare_inserts(lab.path, folder / fmt::format("bare-{}.prillbook", round));
    if (took.rows < 0 || took.with_words < 0) return 1;
    bare.push_back(took.rows);
    bare_words.push_back(took.with_words);
  }
  for (auto* times : {&first_page, &looked, &entered, &bare, &bare_words}) std::sort(times->begin(), times->end());
  fmt::print("{} rows, {} KB: first page read in {:.1f} ms, all read and checked in {:.0f} ms\n", rows, text.size() / 1024,
             first_page[1], looked[1]);
  fmt::print(
      "entered in {:.0f} ms; the same samples and history by prepared inserts {:.0f} ms ({:.0f} % of their speed), with the "
      "words for "
      "the find line {:.0f} ms ({:.0f} %)\n",
      entered[1], bare[1], 100 * bare[1] / entered[1], bare_words[1], 100 * bare_words[1] / entered[1]);
  return 0;
}

int bench_search(const std::filesystem::path& folder, long samples) {
  Notebook lab(folder / "search.prillbook");
  constexpr long together = 500;
  for (long made = 0; made < samples; made += together) {
    const auto outcome = lab.journal->record("log", [&](history::ChangeSet& set) -> Result<void> {
      PRILLBOOK_ASSIGN(const ConsignmentId id, custody::log_consignment(set, {lab.client, {}, {}, {}, {}, {}, {}}));
      std::vector<custody::NewSample> some(together);
      for (long i = 0; i < together; ++i) {
        some[std::size_t(i)].mark = fmt::format("LA {} {}", kinds[i % 6], made + i);
        some[std::size_t(i)].place = fmt::format("{} {}", places[(made + i) % 7], i % 97);
        some[std::size_t(i)].remarks = words[i % 7];
      }
      PRILLBOOK_TRY(custody::log_samples(set, id, some));
      return {};
    });
    if (!outcome) return 1;
  }
  constexpr int page = 8;
  double worst = 0;
  for (const char* text : {"2", "26-0", "26-09999", "26-C1", "l", "larch", "larch adit", "hollgraben 12", "north drive quartz",
                           "arseno", "LA chip 4711", "v g", "nothing like it", "drive"}) {
    double best = 1e9;
    std::size_t found = 0;
    for (int round = 0; round < 5; ++round) {
      const auto start = Watch::now();
      const auto hits = search::find(*lab.connection, text, page);
      best = std::min(best, since(start));
      if (!hits) return 1;
      found = hits->size();
    }
    worst = std::max(worst, best);
    fmt::print("  find '{}': {} in {:.2f} ms\n", text, found, best);
  }
  fmt::print("{} samples: a page of {} answers in {:.1f} ms at most\n", samples, page, worst);
  return 0;
}

bool read_number(const char* text, long& number) {
  const char* end = text + std::strlen(text);
  const auto [stop, fault] = std::from_chars(text, end, number);
  return fault == std::errc{} && stop == end && number > 0;
}

}  // namespace

int main(int argc, char** argv) {
  long rows = 10000, samples = 100000;
  if (argc > 3 || (argc > 1 && !read_number(argv[1], rows)) || (argc > 2 && !read_number(argv[2], samples))) {
    fmt::print(stderr, "list_bench [ROWS] [SAMPLES]\n");
    return 2;
  }
  std::string pattern = (std::filesystem::temp_directory_path() / "prillbook-bench-XXXXXX").string();
  const std::filesystem::path folder = mkdtemp(pattern.data());
  int status = bench_import(folder, rows);
  if (status == 0) status = bench_search(folder, samples);
  std::filesystem::remove_all(folder);
  if (status != 0) fmt::print(stderr, "the bench was refused something\n");
  return status;
}
