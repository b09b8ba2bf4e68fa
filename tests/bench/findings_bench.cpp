// SPDX-License-Identifier: GPL-3.0-or-later
// findings_bench NOTEBOOK [ROUNDS]: all findings of a notebook so many times over, what reading, results and rules are of it, and
// what one changed record costs. The notebook is changed: give it a copy.
#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <ctime>
#include <random>

#include "core/findings/board.h"
#include "core/history/fields.h"
#include "core/readings/entry.h"

namespace prillbook {
namespace {

// Time of one core: what else the machine does plays no part.
class Watch {
 public:
  double ms() const { return 1000 * double(std::clock() - start_) / CLOCKS_PER_SEC; }

 private:
  std::clock_t start_ = std::clock();
};

Result<void> read_all(findings::Board& board) {
  constexpr std::size_t page = 200;
  while (board.owed() > 0) PRILLBOOK_TRY(board.look_at(page));
  return {};
}

Result<void> bench_all(findings::Board& board, const Instant& now) {
  const Watch start;
  PRILLBOOK_TRY(board.begin(now));
  PRILLBOOK_TRY(read_all(board));
  const double ms = start.ms();
  fmt::print("all findings of {} samples: {:.1f} s, {:.0f} samples/s, one core; {} open, {} stop, {} not readable\n",
             board.samples(), ms / 1000, 1000 * double(board.samples()) / ms, board.count(findings::Standing::open),
             board.count(findings::Severity::stop), board.unread().size());
  return {};
}

// Where the time goes: the same pages, part by part.
Result<void> bench_parts(store::Connection& connection, std::size_t samples) {
  results::SampleRecord record;
  PRILLBOOK_TRY(results::load_lab(connection, record));
  double reading_ms = 0, results_ms = 0, rules_ms = 0;
  std::size_t found = 0;
  std::vector<SampleId> page;
  for (std::size_t first = 1; first <= samples; first += page.size()) {
    page.clear();
    for (std::size_t id = first; id <= std::min(samples, first + 127); ++id) page.push_back(SampleId{std::int64_t(id)});
    PRILLBOOK_TRY(connection.snapshot([&]() -> Result<void> {
      const Watch begin;
      results::PageReader reader(connection);
      PRILLBOOK_TRY(reader.begin(page));
      reading_ms += begin.ms();
      for (const SampleId id : page) {
        const Watch read;
        PRILLBOOK_TRY(reader.read(id, record));
        reading_ms += read.ms();
        const Watch compute;
        const results::SampleResult result = results::compute(record);
        results_ms += compute.ms();
        const Watch rules;
        found += findings::look({record, result}).size();
        rules_ms += rules.ms();
      }
      return {};
    }));
  }
  const auto each = [&](double ms) { return 1000 * ms / double(samples); };
  fmt::print("of one sample: {:.1f} µs to read its records, {:.1f} µs for its results, {:.1f} µs for the rules [{}]\n",
             each(reading_ms), each(results_ms), each(rules_ms), found);
  return {};
}

Result<void> bench_one(store::Connection& connection, findings::Board& board) {
  SystemClock clock;
  PRILLBOOK_ASSIGN(const auto journal, history::Journal::open(connection, clock));
  std::vector<history::Change> changes;
  journal->listen([&](const history::Written& written) { changes = written.changes; });
  std::mt19937_64 dice(3);
  std::vector<double> times;
  std::size_t looked = 0;
  for (int round = 0; round < 200; ++round) {
    const RecordId sample = 1 + RecordId(dice() % board.samples());
    const history::Value mass = readings::cell_of(readings::Figure{*readings::parse(fmt::format("{}.4 kg", 1 + round % 5), {})});
    PRILLBOOK_TRY(readings::enter(*journal, history::fields::sample::mass_received, sample, mass));
    const Watch start;
    PRILLBOOK_TRY(board.changed(changes));
    looked += board.owed();
    PRILLBOOK_TRY(read_all(board));
    times.push_back(start.ms());
  }
  std::sort(times.begin(), times.end());
  fmt::print("findings of one changed record: median {:.2f} ms, 99 % {:.2f} ms, worst {:.2f} ms; {:.1f} samples looked at\n",
             times[times.size() / 2], times[times.size() * 99 / 100], times.back(), double(looked) / double(times.size()));
  return {};
}

Result<void> run(const std::string& path, int rounds) {
  PRILLBOOK_ASSIGN(const auto connection, store::Connection::open(path, store::Access::read_write));
  findings::Board board(*connection);
  for (int round = 0; round < rounds; ++round) PRILLBOOK_TRY(bench_all(board, SystemClock().now()));
  PRILLBOOK_TRY(bench_parts(*connection, board.samples()));
  return bench_one(*connection, board);
}

}  // namespace
}  // namespace prillbook

int main(int argc, char** argv) {
  if (argc < 2) return fmt::print(stderr, "findings_bench NOTEBOOK [ROUNDS]\n"), 2;
  const auto outcome = prillbook::run(argv[1], argc > 2 ? std::atoi(argv[2]) : 1);
  if (!outcome) fmt::print(stderr, "{}\n", outcome.error().detail);
  return outcome ? 0 : 1;
}
