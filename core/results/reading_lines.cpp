// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/results/reading_lines.h"

#include <fmt/format.h>

#include <algorithm>

#include "core/results/sample_record.h"

namespace prillbook::results {
namespace {

struct ReadingCollector {
  const SampleRecord& record;
  std::vector<ReadingLine> lines;

  std::string balance_name(const std::optional<BalanceId>& id) const {
    if (!id) return "";
    const auto found =
        std::find_if(record.balances.begin(), record.balances.end(), [&](const lab::Balance& b) { return b.id == *id; });
    return found == record.balances.end() ? "" : found->name;
  }

  void add(const std::string& test, std::string what, const readings::Figure& figure, PersonId who = {},
           const std::optional<Instant>& when = {}, const std::optional<std::string>& left_out = {}) {
    if (!figure) return;
    ReadingLine line;
    line.sample = record.sample.number;
    line.test = test;
    line.what = std::move(what);
    line.typed = figure->typed;
    line.unit = std::string(readings::base_unit(figure->measure));
    if (figure->state != readings::State::none_seen) line.value = figure->value;
    line.below = figure->state == readings::State::below_detection;
    line.step_g = figure->step_g;
    line.balance = balance_name(figure->balance);
    line.who = record.initials(who);
    line.when = when;
    line.left_out = left_out.value_or("");
    lines.push_back(std::move(line));
  }

  void add_bead(const std::string& test, const weighing::Bead& bead) {
    for (const weighing::Weighing& weighing : bead.weighings) {
      const char* thing = weighing.what == weighing::of_gold ? "gold after parting" : "bead";
      add(test, fmt::format("{}, weighing {}", thing, weighing.number), weighing.mass, weighing.weighed_by, weighing.weighed_at,
          weighing.excluded);
    }
    add(test, "bead in air", bead.in_air);
    add(test, "bead in water", bead.in_water);
    add(test, "fineness", bead.fineness);
    add(test, "standard uncertainty of the fineness", bead.fineness_u);
  }
};

}  // namespace

std::vector<ReadingLine> reading_lines(const SampleRecord& record) {
  ReadingCollector out{record, {}};
  out.add("", "mass declared", record.sample.mass_declared);
  out.add("", "mass received", record.sample.mass_received, record.consignment.received_by, record.consignment.arrived);
  out.add("", "moisture, wet basis", record.sample.moisture);
  for (const portions::Portion& portion : record.portions)
    out.add(record.portion_label(portion.id), fmt::format("portion ({})", portion.purpose), portion.mass, portion.cut_by,
            portion.cut_at);
  for (const auto& [test, bead, pannings] : record.pan_tests) {
    const std::string label = record.portion_label(test.portion);
    out.add(label, "grind, P80", test.grind, test.panned_by, test.panned_at);
    out.add(label, "largest colour", test.largest_colour, test.panned_by, test.panned_at);
    out.add(label, "free gold drawn off, raw", test.free_gold, test.panned_by, test.panned_at);
    out.add(label, "magnetite pulled", test.magnetite, test.panned_by, test.panned_at);
    for (const gravity::Panning& panning : pannings)
      out.add(label, fmt::format("kept in panning {}", panning.number), panning.concentrate, panning.panned_by,
              panning.panned_at);
    out.add_bead(label, bead);
  }
  for (const auto& [charge, bead] : record.charges) {
    const std::string label = record.portion_label(charge.portion);
    const auto add = [&, &charge = charge](const char* what, const readings::Figure& figure) {
      out.add(label, what, figure, charge.fired_by, charge.fired_at);
    };
    add("collector silver", charge.collector);
    add("silver brought by litharge and lead", charge.blank);
    add("lead button", charge.button);
    add("metal from the slag", charge.slag_metal);
    add("metal from the cupel", charge.cupel_metal);
    add("gold of the metal from the slag", charge.slag_gold);
    add("gold of the metal from the cupel", charge.cupel_gold);
    add("gold loss, estimated", charge.gold_loss);
    add("silver loss, estimated", charge.silver_loss);
    out.add_bead(label, bead);
  }
  for (const sieves::Analysis& analysis : record.sieve_analyses)
    for (const sieves::Cut& cut : analysis.cuts)
      out.add(record.portion_label(analysis.portion),
              cut.opening ? fmt::format("on sieve {}", sieve_in_words(cut.name, cut.series, *cut.opening))
                          : "in the pan under the sieves",
              cut.retained, analysis.sieved_by, analysis.sieved_at, analysis.spoiled);
  return std::move(out.lines);
}

}  // namespace prillbook::results
