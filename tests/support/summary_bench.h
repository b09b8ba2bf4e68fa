// SPDX-License-Identifier: GPL-3.0-or-later
// A small invented lab with tests at its bench, and their summary.
#pragma once

#include "core/history/fields.h"
#include "core/results/sample_result.h"
#include "core/summary/summary.h"
#include "tests/support/records.h"

namespace prillbook::testing_support {

struct SummaryBench : LabWithSample<> {
  struct Panned {
    PortionId portion;
    PanTestId test;
    BeadId bead;
  };
  Panned pan(const std::string& mass) {
    const PortionId portion = cut(mass, "pan").value();
    const auto started = gravity::start_pan_test(book, {portion, {}, person, {}}).value();
    return {portion, started.test, started.bead};
  }
  fire::StartedCharge fire(const std::string& mass, PortionId parent = {}, const std::string& collector = "") {
    fire::NewCharge charge{cut(mass, "fire", parent).value(), {}, person, {}, {}, {}};
    if (!collector.empty()) charge.collector = figure(collector);
    return fire::start_charge(book, charge).value();
  }
  void weigh(BeadId bead, const std::string& mass, const std::string& what = "bead") {
    EXPECT_TRUE(weighing::weigh(book, {bead, what, figure(mass), balance, {}, person}).ok()) << mass;
  }
  void touchstone(BeadId bead, const std::string& permil) {
    EXPECT_TRUE(weighing::set_fineness(book, bead, "touchstone", figure(permil, Measure::fineness), {}).ok());
  }
  void part(BeadId bead, const std::string& gold) {
    weigh(bead, gold, "gold");
    EXPECT_TRUE(weighing::set_fineness(book, bead, "parted", {}, {}).ok());
  }
  void set(const history::Field& field, RecordId record, const history::Value& value) {
    EXPECT_TRUE(readings::enter(book, field, record, value).ok());
  }

  // 1 kg panned to 22 mg at 750 ‰ against 100 g fused to 9 mg at 500 ‰.
  Panned pan_with_gap() {
    const Panned panned = pan("1 kg");
    weigh(panned.bead, "22.000 mg");
    touchstone(panned.bead, "750");
    const auto charge = fire("100 g");
    weigh(charge.bead, "9.000 mg");
    part(charge.bead, "4.500 mg");
    return panned;
  }

  summary::SummarySample summarised(SampleId id) {
    summary::SummarySample result{results::load_sample_record(*connection, id).value(), {}, {}};
    result.result = results::compute(result.record);
    return result;
  }
  summary::SummarySample summarised() { return summarised(sample); }

  summary::Issue issue() {
    summary::Issue result;
    result.settings.lab_name = "Ford Bank Assay Bench";
    result.settings.lab_address = "Mill Lane 4\nFord Bank";
    result.settings.lab_contact = "bench@ford-bank.example";
    result.now = parse_iso("2026-05-06T16:00:00.000+02:00").value();
    result.notebook_state = history::hex(book.head());
    return result;
  }
  summary::Report report(const std::vector<SampleId>& ids) {
    std::vector<summary::SummarySample> samples;
    for (const SampleId id : ids) samples.push_back(summarised(id));
    return summary::build_report(samples, issue());
  }
  summary::Report report() { return report({sample}); }
};

// All words of a document, a block a line; cells and notes of tables too.
inline std::string words_of(const summary::Report& report) {
  struct Reader {
    std::string text;
    void line(const std::string& words) { text += words + "\n"; }
    void operator()(const summary::Heading& heading) { line("# " + heading.text); }
    void operator()(const summary::Paragraph& paragraph) { line(paragraph.text); }
    void operator()(const summary::Table& table) {
      for (const auto& row : table.rows) {
        for (const auto& cell : row.cells) {
          if (const auto* words = std::get_if<std::string>(&cell))
            text += *words + " | ";
          else
            for (const auto& figure : std::get<std::vector<summary::Figure>>(cell)) text += with_unit(figure) + " | ";
        }
        line(row.note);
      }
    }
    void operator()(const summary::IntervalPicture& picture) {
      for (const auto& row : picture.rows) line(row.label + ": " + with_unit(row.figure));
    }
    void operator()(const summary::SievePicture& picture) {
      for (const auto& curve : picture.curves) line("curve of " + curve.label);
    }
    void operator()(const summary::Photograph& photograph) { line("photograph: " + photograph.caption); }
    void operator()(const summary::Cautions& cautions) {
      for (const auto& sentence : cautions.sentences) line(sentence);
    }
    void operator()(const summary::Signature& signature) { line(signature.label); }
    void operator()(const summary::EndMark& end) { line(end.text + " " + end.notebook_state); }
  } reader;
  reader.line(report.title);
  for (const auto* texts : {&report.letterhead, &report.client})
    for (const auto& text : *texts) reader.line(text);
  for (const auto& block : report.blocks) std::visit(reader, block);
  return reader.text;
}

}  // namespace prillbook::testing_support
