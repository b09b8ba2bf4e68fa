// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/summary/summary.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "core/results/reading_lines.h"
#include "core/summary/lines.h"
#include "core/summary/methods_in_words.h"
#include "core/summary/picture.h"
#include "core/summary/words_of_sizes.h"

namespace prillbook::summary {
namespace {

// Figures that are there, one under another.
Cell cell(std::initializer_list<std::optional<Figure>> figures) {
  std::vector<Figure> there;
  for (const auto& figure : figures)
    if (figure) there.push_back(*figure);
  return there;
}

std::string note_of(const ResultLine& line) {
  std::string note;
  if (line.state == "spoiled") note = "Spoiled: ";
  if (line.state == "excluded") note = "Left out of the mean: ";
  if (line.state == "waiting") note = "Waiting: ";
  if (line.state == "refused") note = "No result: ";
  if (line.state != "done") return note + line.reason + ".";
  std::vector<std::string> parts;
  if (!line.held.empty()) parts.push_back(fmt::format("Held back: {}.", line.held));
  if (!line.note.empty()) parts.push_back(line.note);
  const bool silver = !line.silver_words.empty() && line.kind != LineKind::mean_of_charges;
  if (silver) parts.push_back(fmt::format("Silver: {}.", line.silver_words));
  return fmt::format("{}", fmt::join(parts, " "));
}

TableRow row_of(const ResultLine& line) {
  TableRow row;
  row.mean = line.kind == LineKind::mean_of_charges;
  row.left_out = line.state != "done";
  std::string name = row.mean ? fmt::format("{} ({})", kind_words(line.kind), line.valid)
                              : fmt::format("{} {}", line.test, kind_words(line.kind));
  row.cells = {std::move(name),
               cell({line.portion}),
               cell({line.bead}),
               cell({line.fineness}),
               cell({line.gold, line.gold_oz}),
               cell({line.silver, line.silver_oz})};
  row.note = note_of(line);
  return row;
}

Table tests_table(const std::vector<ResultLine>& lines) {
  Table table{{{"Test", false}, {"Portion"}, {"Bead"}, {"Fineness"}, {"Gold"}, {"Silver"}}, {}};
  for (const ResultLine& line : lines)
    if (line.kind != LineKind::sieve_analysis) table.rows.push_back(row_of(line));
  return table;
}

void add(Report& report, std::string heading, const Sentences& sentences, Tone first = Tone::plain) {
  if (sentences.empty()) return;
  report.blocks.push_back(Heading{2, std::move(heading)});
  Tone tone = first;
  for (const std::string& sentence : sentences) {
    report.blocks.push_back(Paragraph{sentence, tone});
    tone = Tone::plain;
  }
}

// One paragraph of all sentences.
void add_joined(Report& report, std::string heading, const Sentences& sentences) {
  if (sentences.empty()) return;
  add(report, std::move(heading), {fmt::format("{}", fmt::join(sentences, " "))});
}

void add_findings(Report& report, const std::vector<FindingLine>& findings) {
  Sentences sentences;
  for (const FindingLine& finding : findings) {
    std::string words = fmt::format("{}: {}", finding.severity, finding.what);
    if (words.front() >= 'a' && words.front() <= 'z') words.front() = char(words.front() - 'a' + 'A');
    if (!finding.to_do.empty()) words += " " + finding.to_do;
    if (!finding.answer.empty()) words += fmt::format(" Answer of the lab: {}", finding.answer);
    sentences.push_back(std::move(words));
  }
  add(report, "What we noticed", sentences);
}

// The grind as the sieves found it, the curves, where the gold is by size, and what a finer grind caught.
void add_sizes(Report& report, const SummarySample& sample, DecimalMark mark) {
  Sentences sentences;
  SievePicture picture;
  for (const results::SizeResult& size : sample.result.sizes) {
    if (size.state == results::SizeState::waiting) continue;
    sentences.push_back(fmt::format("{}: {}", size.label, fmt::join(size_words(size, mark), " ")));
    for (std::string& words : metal_words(size, mark)) sentences.push_back(std::move(words));
    if (!size.curve) continue;
    SieveCurve curve{size.label, {}, {}, {}};
    for (const SieveRow& row : size.curve->rows) curve.points.emplace_back(row.opening.in(unit::micrometre), row.passing_pct);
    if (size.curve->p80.size) curve.p80_um = size.curve->p80.size->in(unit::micrometre);
    if (size.curve->p50.size) curve.p50_um = size.curve->p50.size->in(unit::micrometre);
    picture.curves.push_back(std::move(curve));
  }
  add(report, "How fine it was ground", sentences);
  if (!picture.curves.empty()) report.blocks.push_back(std::move(picture));
  const results::GrindStudy& study = sample.result.grinds;
  if (study.steps.empty()) return;
  Sentences grinds;
  for (const results::GrindPoint& point : study.points) grinds.push_back(grind_point_words(point, mark));
  for (std::string& words : grind_words(study, mark)) grinds.push_back(std::move(words));
  add(report, "What a finer grind caught", grinds);
}

// A mark that is too long for a heading stands whole in the paragraph below it.
std::string heading_of(const custody::Sample& sample) {
  constexpr std::size_t longest = 80;
  std::string mark = sample.mark;
  if (mark.size() > longest) {
    std::size_t end = longest;
    while (end > 0 && (static_cast<unsigned char>(mark[end]) & 0xC0) == 0x80) --end;
    mark = mark.substr(0, end) + "…";
  }
  return fmt::format("{} · {}", sample.number, mark);
}

void add_tests(Report& report, const SummarySample& sample, std::vector<ResultLine> lines, bool shown) {
  if (Table table = tests_table(lines); shown && lines.front().kind != LineKind::no_result && !table.rows.empty()) {
    report.blocks.push_back(Heading{2, "Every test of this sample"});
    report.blocks.push_back(std::move(table));
  }
  std::move(lines.begin(), lines.end(), std::back_inserter(report.lines));
  for (ReadingLine& line : results::reading_lines(sample.record)) report.readings.push_back(std::move(line));
}

void add_photographs(Report& report, const SummarySample& sample) {
  if (sample.photographs.empty()) return;
  report.blocks.push_back(Heading{2, "Photographs"});
  for (const Photograph& photograph : sample.photographs) report.blocks.push_back(photograph);
}

// The answers in plain words, in the order in which a client asks; then what stands behind them.
void add_sample(Report& report, const SummarySample& sample, const Issue& issue) {
  const DecimalMark mark = issue.settings.decimal_mark;
  report.blocks.push_back(Heading{1, heading_of(sample.record.sample)});
  add_joined(report, "What you sent, and how it arrived", what_you_sent(sample.record, issue.settings));
  add(report, "What we found", what_we_found(sample, mark), Tone::lead);
  add_joined(report, "What the metal is worth", contained_value(sample, issue.price, mark));
  add(report, sample.result.comparison ? "What the pan caught and what it left" : "What the pan caught",
      what_the_pan_caught(sample, mark));
  add_joined(report, "Is a finer grind worth a trial", a_finer_grind(sample, mark));
  add_joined(report, "How sure we are", how_sure_we_are(sample, mark));
  add(report, "Controls that went through the furnace beside it", controls_in_words(sample));
  add_tests(report, sample, result_lines(sample, mark), issue.shows("tests"));
  if (IntervalPicture picture = picture_of(sample, mark, SilverRows::of_the_leading);
      issue.shows("pictures") && !picture.rows.empty())
    report.blocks.push_back(std::move(picture));
  if (issue.shows("sieves")) add_sizes(report, sample, mark);
  if (issue.shows("photographs")) add_photographs(report, sample);
  if (issue.shows("custody")) add_joined(report, "Dates, and whose hands it was in", custody_dates(sample.record));
  add_findings(report, sample.findings);
}

const MeasuredGrade* gold_of(const results::SampleResult& result) {
  if (result.fire.gold.mean) return &*result.fire.gold.mean;
  return result.leading_pan ? &*result.pan[*result.leading_pan].grade->gold : nullptr;
}

std::string glance_words(const SummarySample& sample, DecimalMark mark) {
  const auto& result = sample.result;
  if (!gold_of(result)) return "no gold figure yet";
  if (!result.fire.gold.mean) return "pan test only";
  return result.leading_pan ? verdict_in_short(sample, mark) : "fire assay only";
}

// One row a sample, where there are several.
void add_glance(Report& report, std::span<const SummarySample> samples, DecimalMark mark) {
  if (samples.size() < 2) return;
  Table table{{{"Sample", false}, {"Your mark", false}, {"Gold"}, {"Pan against fire", false}}, {}};
  for (const SummarySample& sample : samples) {
    TableRow row;
    const MeasuredGrade* gold = gold_of(sample.result);
    std::vector<Figure> figures;
    if (gold) figures = {grade_figure(*gold, unit::gram_per_tonne, mark), grade_figure(*gold, unit::ounce_per_short_ton, mark)};
    row.cells = {sample.record.sample.number, sample.record.sample.mark, std::move(figures), glance_words(sample, mark)};
    table.rows.push_back(std::move(row));
  }
  report.blocks.push_back(Heading{1, "At a glance"});
  report.blocks.push_back(std::move(table));
}

void push_lines(std::vector<std::string>& out, std::string_view text) {
  while (!text.empty()) {
    const std::size_t end = std::min(text.find('\n'), text.size());
    if (const auto line = trimmed(text.substr(0, end)); !line.empty()) out.emplace_back(line);
    text.remove_prefix(std::min(end + 1, text.size()));
  }
}

void add_head(Report& report, std::span<const SummarySample> samples, const Issue& issue) {
  report.title = issue.preliminary ? "Preliminary summary of tests" : "Summary of tests";
  report.number = issue.number;
  report.draft = issue.draft;
  report.preliminary = issue.preliminary;
  if (!issue.number.empty()) report.title += " " + issue.number;
  if (issue.draft) report.foot = "Draft, not issued · " + report.foot;
  report.issued = local_date(issue.now);
  report.now = issue.now;
  report.mark = issue.settings.decimal_mark;
  for (const std::string* text : {&issue.settings.lab_name, &issue.settings.lab_address, &issue.settings.lab_contact})
    push_lines(report.letterhead, *text);
  std::vector<ClientId> seen;
  for (const SummarySample& sample : samples) {
    const lab::Client& client = sample.record.client;
    if (std::find(seen.begin(), seen.end(), client.id) != seen.end()) continue;
    seen.push_back(client.id);
    report.client.push_back(client.name);
    push_lines(report.client, client.address.value_or(""));
  }
}

// Words of a person, to stand before a full stop of ours.
std::string_view without_stop(std::string_view words) {
  words = trimmed(words);
  while (words.ends_with('.')) words.remove_suffix(1);
  return words;
}

}  // namespace

bool Issue::shows(std::string_view part) const { return std::find(hidden.begin(), hidden.end(), part) == hidden.end(); }

Report build_report(std::span<const SummarySample> samples, const Issue& issue) {
  Report report;
  add_head(report, samples, issue);
  if (issue.preliminary)
    report.blocks.push_back(Paragraph{"Preliminary: something is still open, and figures may change.", Tone::lead});
  if (!issue.amends.empty())
    report.blocks.push_back(Paragraph{fmt::format("This summary takes the place of {}. What changed: {}. Why: {}.", issue.amends,
                                                  without_stop(issue.what_changed), without_stop(issue.why_amended)),
                                      Tone::plain});
  if (samples.empty()) report.blocks.push_back(Paragraph{"There is no sample to report.", Tone::lead});
  add_glance(report, samples, report.mark);
  for (const SummarySample& sample : samples) add_sample(report, sample, issue);
  if (!samples.empty()) {
    report.blocks.push_back(Heading{1, "How it was done"});
    if (issue.shows("methods")) add_joined(report, "Methods", methods_in_words(samples));
    add_joined(report, "How the fineness was got", fineness_in_words(samples));
    report.blocks.push_back(Heading{2, "What this summary is not"});
    report.blocks.push_back(Cautions{cautions_in_words(samples)});
    report.blocks.push_back(Signature{"For the lab"});
  }
  report.blocks.push_back(
      EndMark{issue.number.empty() ? "End of summary" : "End of summary " + issue.number, issue.notebook_state});
  return report;
}

}  // namespace prillbook::summary
