// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/slips/lab_bench.h"

#include <SQLiteCpp/Backup.h>
#include <gtest/gtest.h>

#include "core/exchange/records.h"
#include "core/findings/finding.h"
#include "core/results/balance_scatter.h"
#include "core/weighing/plausibility.h"

namespace prillbook::slips {
namespace {

// Not an error of anybody: what the two tests say of the rock.
bool is_result(const std::string& rule) { return rule == "gold_left_behind"; }

std::string doubt_name(weighing::Doubt doubt) {
  switch (doubt) {
    case weighing::Doubt::perhaps_milligrams: return "perhaps milligrams";
    case weighing::Doubt::heavier_than_portion: return "heavier than the portion";
    case weighing::Doubt::very_rich: return "very rich";
    case weighing::Doubt::apart_from_earlier: return "apart from the earlier";
    case weighing::Doubt::off_step: return "off the step";
    case weighing::Doubt::near_step: return "near the step";
  }
  return "";
}

void ask(const results::SampleRecord& record, PortionId of, const weighing::Bead& bead, std::set<std::string>& asked) {
  const portions::Portion* portion = record.portion(of);
  for (const weighing::Weighing& one : bead.weighings) {
    weighing::Weighed context;
    for (const weighing::Weighing& earlier : bead.weighings)
      if (earlier.what == one.what && earlier.balance == one.balance && earlier.number < one.number)
        context.earlier.push_back(earlier.mass);
    context.repeat_sd = results::repeat_sd(record, one.balance);
    if (portion && portion->mass) context.portion = portion->mass->mass();
    if (one.mass.step_g) context.step = Mass(*one.mass.step_g, unit::gram);
    context.suspicious = Grade(record.settings.suspicious_grade_g_t, unit::gram_per_tonne);
    for (const weighing::Question& question : weighing::doubts(one.mass, context)) asked.insert(doubt_name(question.doubt));
  }
}

}  // namespace

LabBench::LabBench() : blank_(store::Connection::in_memory().value()), notebook_(store::Connection::in_memory().value()) {}

Noticed LabBench::look(const Json& week, const std::string& now) {
  SQLite::Backup(notebook_->database(), blank_->database()).executeStep(-1);
  SteppingClock clock(*parse_iso(moment(8, 17, 0)));
  const auto journal = history::Journal::open(*notebook_, clock).value();
  Noticed noticed;
  if (const auto loaded = exchange::load_records(*journal, week.dump()); !loaded.ok()) {
    noticed.refused = std::string(contract_name(loaded.error().code)) + " " + loaded.error().field + ": " + loaded.error().detail;
    return noticed;
  }
  for (const auto& [sample, rules] : {std::pair{SampleId{2}, &noticed.rules}, {SampleId{1}, &noticed.beside}}) {
    const auto found = findings::findings_of(*notebook_, sample, *parse_iso(now));
    EXPECT_TRUE(found.ok()) << found.error().detail;
    for (const auto& one : *found)
      if (!is_result(one.finding.rule)) rules->insert(one.finding.rule);
  }
  const auto record = results::load_sample_record(*notebook_, SampleId{2}).value();
  for (const auto& entry : record.pan_tests) ask(record, entry.test.portion, entry.bead, noticed.asked);
  for (const auto& entry : record.charges) ask(record, entry.charge.portion, entry.bead, noticed.asked);
  return noticed;
}

}  // namespace prillbook::slips
