// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/batch/notebook_verbs.h"

#include <fmt/format.h>

#include "app/batch/demo_records.h"
#include "core/custody/custody.h"
#include "core/exchange/notebook_dump.h"
#include "core/exchange/records.h"
#include "core/findings/page_look.h"
#include "core/store/backup.h"
#include "core/store/writer_lock.h"
#include "core/upkeep/check.h"
#include "core/upkeep/keep.h"

namespace prillbook::batch {
namespace {

using store::Access;
using store::Connection;

// A new notebook that `fill` has written to; nothing is left behind where it fails.
Result<void> make_notebook(const std::string& file, const std::function<Result<void>(Connection&)>& fill) {
  Result<void> outcome;
  {
    PRILLBOOK_ASSIGN(const auto connection, Connection::create(file));
    outcome = fill(*connection);
  }
  if (!outcome) store::discard(file);
  return outcome;
}

Json loaded_json(const exchange::Loaded& loaded) {
  return {{"consignments", loaded.consignments},    {"samples", loaded.samples}, {"portions", loaded.portions},
          {"pan_tests", loaded.pan_tests},          {"charges", loaded.charges}, {"weighings", loaded.weighings},
          {"sieve_analyses", loaded.sieve_analyses}};
}

Json finding_json(const std::string& sample, const findings::OpenOrAnswered& one) {
  Json object{{"rule", one.finding.rule},
              {"severity", findings::severity_name(one.finding.severity)},
              {"sample", sample},
              {"seen", one.finding.seen},
              {"why", one.finding.why},
              {"to_do", one.finding.to_do},
              {"source", one.finding.source},
              {"evidence", Json::array()}};
  for (const findings::Evidence& evidence : one.finding.evidence)
    object["evidence"].push_back({{"what", evidence.what},
                                  {"figure", evidence.figure},
                                  {"table", history::spec_of(evidence.entity).table},
                                  {"record", evidence.record}});
  if (one.answer)
    object["answer"] = {{"explanation", one.answer->explanation}, {"who", one.answer->who}, {"when", to_iso(one.answer->when)}};
  return object;
}

Result<std::vector<SampleId>> chosen_samples(Connection& connection, const std::vector<std::string>& numbers) {
  std::vector<SampleId> ids;
  for (const std::string& number : numbers) {
    PRILLBOOK_ASSIGN(const SampleId id, custody::sample_by_number(connection, number));
    ids.push_back(id);
  }
  return ids;
}

struct Numbered {
  SampleId id;
  std::string number;
};

// Samples are read a page at a time.
class FindingsOut {
 public:
  FindingsOut(Connection& connection, const Instant& now)
      : connection_(connection), books_(connection, record_.settings), now_(now) {}

  Result<void> begin() {
    return connection_.snapshot([&] { return results::load_lab(connection_, record_); });
  }

  Result<void> add(const std::vector<Numbered>& page) {
    return connection_.snapshot([&]() -> Result<void> {
      findings::PageLook look(books_, record_);
      std::vector<SampleId> ids;
      for (const Numbered& one : page) ids.push_back(one.id);
      PRILLBOOK_TRY(look.begin(ids));
      for (const Numbered& one : page) {
        PRILLBOOK_ASSIGN(const auto seen, look.at(one.id, now_));
        for (const findings::OpenOrAnswered& finding : seen.findings) list_.push_back(finding_json(one.number, finding));
      }
      return {};
    });
  }

  // Every sample, the newest first.
  Result<void> add_all() {
    constexpr std::int64_t most = 200;
    for (std::int64_t offset = 0;; offset += most) {
      PRILLBOOK_ASSIGN(const auto lines, custody::recent_samples(connection_, most, offset));
      std::vector<Numbered> page;
      for (const custody::SampleLine& line : lines) page.push_back({line.id, line.number});
      PRILLBOOK_TRY(add(page));
      if (std::int64_t(lines.size()) < most) return {};
    }
  }

  Json take() { return std::move(list_); }

 private:
  Connection& connection_;
  results::SampleRecord record_;
  results::MachineBooks books_;
  Instant now_;
  Json list_ = Json::array();
};

}  // namespace

Result<Json> notebook_new(const std::string& file) {
  PRILLBOOK_TRY(make_notebook(file, [](Connection&) { return Result<void>{}; }));
  return Json{{"notebook", file}};
}

Result<Json> notebook_check(const std::string& file) {
  PRILLBOOK_ASSIGN(const upkeep::CheckReport report, upkeep::check_notebook(file));
  Json object{{"sound", report.sound()},
              {"version", report.version},
              {"history_rows", report.history_rows},
              {"records", report.records},
              {"head", history::hex(report.head)}};
  if (report.sound()) return object;
  object["found"] = report.found;
  object["faults"] = Json::array();
  for (const store::Fault& fault : report.faults) object["faults"].push_back({{"where", fault.where}, {"what", fault.what}});
  return object;
}

Result<Json> notebook_backup(const std::string& file, const std::string& to, World& world) {
  store::BackupOptions options;
  options.now = world.clock.now();
  PRILLBOOK_TRY(upkeep::back_up(file, to, options));
  return Json{{"notebook", file}, {"backup", to}};
}

Result<Json> notebook_load(const std::string& file, const std::string& text, World& world) {
  PRILLBOOK_ASSIGN(const auto lock, store::WriterLock::take(file, world.clock.now()));
  PRILLBOOK_ASSIGN(const auto opened, upkeep::open_migrated(file));
  PRILLBOOK_ASSIGN(const auto journal, history::Journal::open(*opened.connection, world.clock));
  PRILLBOOK_ASSIGN(const exchange::Loaded loaded, exchange::load_records(*journal, text));
  return loaded_json(loaded);
}

Result<void> notebook_dump(const std::string& file, World& world) {
  PRILLBOOK_ASSIGN(const auto connection, Connection::open(file, Access::read_only));
  return exchange::dump_notebook(*connection, [&](std::string_view piece) -> Result<void> {
    world.out << piece;
    if (!world.out) return Error{ErrorCode::disk_full, "", "the output can not be written", {}};
    return {};
  });
}

Result<Json> notebook_restore(const std::string& file, std::istream& dump) {
  PRILLBOOK_TRY(exchange::restore_notebook(dump, file));
  return Json{{"notebook", file}};
}

Result<Json> notebook_findings(const std::string& file, const std::vector<std::string>& samples, World& world) {
  PRILLBOOK_ASSIGN(const auto connection, Connection::open_to_read(file));
  FindingsOut out(*connection, world.clock.now());
  PRILLBOOK_TRY(out.begin());
  if (samples.empty()) {
    PRILLBOOK_TRY(out.add_all());
  } else {
    PRILLBOOK_ASSIGN(const auto ids, chosen_samples(*connection, samples));
    std::vector<Numbered> page;
    for (std::size_t i = 0; i < ids.size(); ++i) page.push_back({ids[i], samples[i]});
    PRILLBOOK_TRY(out.add(page));
  }
  return Json{{"findings", out.take()}};
}

Result<Json> notebook_demo(const std::string& file) {
  exchange::Loaded loaded;
  PRILLBOOK_TRY(make_notebook(file, [&](Connection& connection) -> Result<void> {
    // The demonstration was typed on one evening of its own time, so that it is the same notebook every time.
    PRILLBOOK_ASSIGN(const Instant evening, parse_iso("2026-05-14T18:00+02:00"));
    SteppingClock clock(evening);
    PRILLBOOK_ASSIGN(const auto journal, history::Journal::open(connection, clock));
    journal->set_author("HM");
    PRILLBOOK_ASSIGN(loaded, exchange::load_records(*journal, demo_records));
    return {};
  }));
  Json object = loaded_json(loaded);
  object["notebook"] = file;
  return object;
}

}  // namespace prillbook::batch
