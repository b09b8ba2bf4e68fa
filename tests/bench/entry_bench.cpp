// SPDX-License-Identifier: GPL-3.0-or-later
// One accepted entry through the journal against the least that SQLite can do for it: one row changed and one row
// added in one transaction, on a file, under the same settings. The two take turns, so that the disk treats them alike.
#include <benchmark/benchmark.h>
#include <fmt/format.h>

#include <array>
#include <chrono>
#include <cstdlib>
#include <filesystem>

#include "core/history/fields.h"
#include "core/history/journal.h"
#include "core/readings/reading.h"
#include "core/store/connection.h"

namespace {

using namespace prillbook;
namespace fields = history::fields;
using Watch = std::chrono::steady_clock;

class Bench {
 public:
  Bench() {
    std::string pattern = (std::filesystem::temp_directory_path() / "prillbook-bench-XXXXXX").string();
    folder_ = mkdtemp(pattern.data());
    connection_ = store::Connection::create(folder_ / "entry.prillbook").value();
    journal_ = history::Journal::open(*connection_, clock_).value();
    journal_->set_author("HM");
    (void)journal_->record("add balance", [](history::ChangeSet& set) -> Result<void> {
      PRILLBOOK_TRY(set.make(history::Entity::balance, {{fields::balance::name, "bench"}}));
      return {};
    });
    bare_ = store::Connection::create(folder_ / "bare.prillbook").value();
    for (const char* text : {"CREATE TABLE figure (id INTEGER PRIMARY KEY, mass TEXT) STRICT",
                             "CREATE TABLE line (id INTEGER PRIMARY KEY, old TEXT, new TEXT) STRICT",
                             "INSERT INTO figure (id, mass) VALUES (1, '')"})
      (void)bare_->run_derived(text, {});
  }
  ~Bench() { std::filesystem::remove_all(folder_); }
  Bench(const Bench&) = delete;
  Bench& operator=(const Bench&) = delete;

  bool entry(const std::string& mass) {
    return journal_->record("weigh", [&](history::ChangeSet& set) { return set.set(fields::balance::step, 1, mass); }).ok();
  }
  bool bare(const std::string& mass) {
    return bare_
        ->transaction([&]() -> Result<void> {
          PRILLBOOK_TRY(bare_->run_derived("UPDATE figure SET mass = ?1 WHERE id = 1", {std::string_view(mass)}));
          return bare_->run_derived("INSERT INTO line (old, new) VALUES (?1, ?1)", {std::string_view(mass)});
        })
        .ok();
  }

 private:
  std::filesystem::path folder_;
  SteppingClock clock_{*parse_iso("2026-05-04T09:00:00.000+02:00")};
  std::unique_ptr<store::Connection> connection_, bare_;
  std::unique_ptr<history::Journal> journal_;
};

void accepted_entry(benchmark::State& state) {
  Bench bench;
  long number = 0;
  std::chrono::duration<double> entry{0}, bare{0};
  for (auto step : state) {
    (void)step;
    const std::string mass = readings::encode(readings::parse(fmt::format("{}.5 g", ++number), {}).value());
    const auto start = Watch::now();
    const bool written = bench.entry(mass);
    const auto between = Watch::now();
    const bool also = bench.bare(mass);
    entry += between - start;
    bare += Watch::now() - between;
    if (!written || !also) return state.SkipWithError("an entry was refused");
  }
  const auto rounds = static_cast<double>(number);
  state.counters["entry_ms"] = 1e3 * entry.count() / rounds;
  state.counters["bare_ms"] = 1e3 * bare.count() / rounds;
  state.counters["ratio"] = entry.count() / bare.count();
}
BENCHMARK(accepted_entry)->Unit(benchmark::kMillisecond)->MinTime(3);

}  // namespace

BENCHMARK_MAIN();
