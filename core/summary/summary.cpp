// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/summary/summary.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "core/results/reading_lines.h"
#include "core/summary/lines.h"
#include "core/summary/methods_in_words.h"
#include "core/summary/picture.h"
#include "core/summary/words_of_lot.h"
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

std::string note_of(const ResultLine& line, const Speech& say) {
  const wording::Named reason{"reason", line.reason};
  if (line.state == "spoiled") return say("note.spoiled", {reason});
  if (line.state == "excluded") return say("note.excluded", {reason});
  if (line.state == "waiting") return say("note.waiting", {reason});
  if (line.state == "refused") return say("note.refused", {reason});
  std::vector<std::string> parts;
  if (!line.held.empty()) parts.push_back(say("note.held", {{"reason", line.held}}));
  if (!line.note.empty()) parts.push_back(line.note);
  const bool silver = !line.silver_words.empty() && line.kind != LineKind::mean_of_charges;
  if (silver) parts.push_back(say("note.silver", {{"words", line.silver_words}}));
  return fmt::format("{}", fmt::join(parts, " "));
}

TableRow row_of(const ResultLine& line, const Speech& say) {
  TableRow row;
  row.mean = line.kind == LineKind::mean_of_charges;
  row.left_out = line.state != "done";
  const std::string kind = kind_words(line.kind, say);
  std::string name = row.mean ? say("table.mean", {{"kind", kind}, {"charges", std::to_string(line.valid)}})
                              : fmt::format("{} {}", line.test, kind);
  row.cells = {std::move(name),
               cell({line.portion}),
               cell({line.bead}),
               cell({line.fineness}),
               cell({line.gold, line.gold_oz}),
               cell({line.silver, line.silver_oz})};
  row.note = note_of(line, say);
  return row;
}

Table tests_table(const std::vector<ResultLine>& lines, const Speech& say) {
  Table table{{{say("table.test"), false},
               {say("table.portion")},
               {say("table.bead")},
               {say("table.fineness")},
               {say("table.gold")},
               {say("table.silver")}},
              {}};
  for (const ResultLine& line : lines)
    if (line.kind != LineKind::sieve_analysis) table.rows.push_back(row_of(line, say));
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

// A rule speaks English; in another language its name is said, without the figures.
std::string finding_words(const FindingLine& finding, const Speech& say) {
  const std::string key = say.named("finding", finding.rule);
  const bool known = say.translated() && key != finding.rule;
  std::string words = fmt::format("{}: {}", say.named("severity", finding.severity), known ? key : finding.what);
  if (!known && !finding.to_do.empty()) words += " " + finding.to_do;
  if (!finding.answer.empty()) words += " " + say("note.answer", {{"answer", finding.answer}});
  return words;
}

void add_findings(Report& report, const std::vector<FindingLine>& findings) {
  Sentences sentences;
  for (const FindingLine& finding : findings) sentences.push_back(finding_words(finding, report.say));
  add(report, report.say("heading.findings"), sentences);
}

// The grind as the sieves found it, the curves, where the gold is by size, and what a finer grind caught.
void add_sizes(Report& report, const SummarySample& sample, const Speech& say) {
  Sentences sentences;
  SievePicture picture;
  for (const results::SizeResult& size : sample.result.sizes) {
    if (size.state == results::SizeState::waiting) continue;
    sentences.push_back(
        say("size.line", {{"test", size.label}, {"words", fmt::format("{}", fmt::join(size_words(size, say), " "))}}));
    for (std::string& words : metal_words(size, say)) sentences.push_back(std::move(words));
    if (!size.curve) continue;
    SieveCurve curve{size.label, {}, {}, {}};
    for (const SieveRow& row : size.curve->rows) curve.points.emplace_back(row.opening.in(unit::micrometre), row.passing_pct);
    if (size.curve->p80.size) curve.p80_um = size.curve->p80.size->in(unit::micrometre);
    if (size.curve->p50.size) curve.p50_um = size.curve->p50.size->in(unit::micrometre);
    picture.curves.push_back(std::move(curve));
  }
  add(report, say("heading.sizes"), sentences);
  if (!picture.curves.empty()) report.blocks.push_back(std::move(picture));
  const results::GrindStudy& study = sample.result.grinds;
  if (study.steps.empty()) return;
  Sentences grinds;
  for (const results::GrindPoint& point : study.points) grinds.push_back(grind_point_words(point, say));
  for (std::string& words : grind_words(study, say)) grinds.push_back(std::move(words));
  add(report, say("heading.grinds"), grinds);
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
  if (Table table = tests_table(lines, report.say); shown && lines.front().kind != LineKind::no_result && !table.rows.empty()) {
    report.blocks.push_back(Heading{2, report.say("heading.tests")});
    report.blocks.push_back(std::move(table));
  }
  std::move(lines.begin(), lines.end(), std::back_inserter(report.lines));
  for (ReadingLine& line : results::reading_lines(sample.record)) report.readings.push_back(std::move(line));
}

void add_photographs(Report& report, const SummarySample& sample) {
  if (sample.photographs.empty()) return;
  report.blocks.push_back(Heading{2, report.say("heading.photographs")});
  for (const Photograph& photograph : sample.photographs) report.blocks.push_back(photograph);
}

// The account rests on what was written of the lot, and on the fire assay of its head where no grade was entered.
void add_lot(Report& report, const SummarySample& sample) {
  if (!sample.lot) return;
  const auto account = lot_account(sample);
  report.blocks.push_back(Heading{2, report.say("heading.lot")});
  if (!account) return report.blocks.push_back(Paragraph{report.say("lot.contradict"), Tone::plain});
  for (const std::string& words : lot_words(*sample.lot, *account, report.say)) report.blocks.push_back(Paragraph{words});
  Table table = lot_table(*sample.lot, *account, report.say);
  if (!table.rows.empty()) report.blocks.push_back(std::move(table));
}

// The answers in plain words, in the order in which a client asks; then what stands behind them.
void add_sample(Report& report, const SummarySample& sample, const Issue& issue) {
  const Speech& say = issue.say;
  report.blocks.push_back(Heading{1, heading_of(sample.record.sample)});
  add_joined(report, say("heading.sent"), what_you_sent(sample.record, issue.settings.short_mass_limit_pct, say));
  add(report, say("heading.found"), what_we_found(sample, say), Tone::lead);
  add_joined(report, say("heading.worth"), contained_value(sample, issue.price, say));
  add_lot(report, sample);
  add(report, sample.result.comparison ? say("heading.pan_and_left") : say("heading.pan"), what_the_pan_caught(sample, say));
  add_joined(report, say("heading.grind"), a_finer_grind(sample, say));
  add_joined(report, say("heading.sure"), how_sure_we_are(sample, say));
  add(report, say("heading.controls"), controls_in_words(sample, say));
  add_tests(report, sample, result_lines(sample, say), issue.shows("tests"));
  if (IntervalPicture picture = picture_of(sample, say, SilverRows::of_the_leading);
      issue.shows("pictures") && !picture.rows.empty())
    report.blocks.push_back(std::move(picture));
  if (issue.shows("sieves")) add_sizes(report, sample, say);
  if (issue.shows("photographs")) add_photographs(report, sample);
  if (issue.shows("custody")) add_joined(report, say("heading.custody"), custody_dates(sample.record, say));
  add_findings(report, sample.findings);
}

const MeasuredGrade* gold_of(const results::SampleResult& result) {
  if (result.fire.gold.mean) return &*result.fire.gold.mean;
  return result.leading_pan ? &*result.pan[*result.leading_pan].grade->gold : nullptr;
}

std::string glance_words(const SummarySample& sample, const Speech& say) {
  const auto& result = sample.result;
  if (!gold_of(result)) return say("glance.no_gold");
  if (!result.fire.gold.mean) return say("glance.pan_only");
  return result.leading_pan ? verdict_in_short(sample, say) : say("glance.fire_only");
}

// One row a sample, where there are several.
void add_glance(Report& report, std::span<const SummarySample> samples, const Speech& say) {
  if (samples.size() < 2) return;
  Table table{{{say("table.sample"), false}, {say("table.mark"), false}, {say("table.gold")}, {say("table.verdict"), false}}, {}};
  for (const SummarySample& sample : samples) {
    TableRow row;
    const MeasuredGrade* gold = gold_of(sample.result);
    std::vector<Figure> figures;
    if (gold) figures = {grade_figure(*gold, unit::gram_per_tonne, say), grade_figure(*gold, unit::ounce_per_short_ton, say)};
    row.cells = {sample.record.sample.number, sample.record.sample.mark, std::move(figures), glance_words(sample, say)};
    table.rows.push_back(std::move(row));
  }
  report.blocks.push_back(Heading{1, say("heading.glance")});
  report.blocks.push_back(std::move(table));
}

void push_lines(std::vector<std::string>& out, std::string_view text) {
  while (!text.empty()) {
    const std::size_t end = std::min(text.find('\n'), text.size());
    if (const auto line = trimmed(text.substr(0, end)); !line.empty()) out.emplace_back(line);
    text.remove_prefix(std::min(end + 1, text.size()));
  }
}

std::string title_of(const Issue& issue) {
  const Speech& say = issue.say;
  std::string title = !issue.title.empty() ? issue.title : issue.preliminary ? say("page.title_preliminary") : say("page.title");
  return issue.number.empty() ? title : title + " " + issue.number;
}

void add_head(Report& report, std::span<const SummarySample> samples, const Issue& issue) {
  report.say = issue.say;
  report.title = title_of(issue);
  report.number = issue.number;
  report.draft = issue.draft;
  report.preliminary = issue.preliminary;
  report.foot = issue.say("page.foot");
  if (issue.draft) report.foot = issue.say("page.foot_draft", {{"foot", report.foot}});
  report.issued = local_date(issue.now);
  report.now = issue.now;
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

// What the lab wrote for this client, a paragraph a line.
void add_remarks(Report& report, const Issue& issue) {
  std::vector<std::string> lines;
  push_lines(lines, issue.remarks);
  add(report, report.say("heading.remarks"), lines);
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
  const Speech& say = issue.say;
  Report report;
  add_head(report, samples, issue);
  if (issue.preliminary) report.blocks.push_back(Paragraph{say("page.preliminary"), Tone::lead});
  if (!issue.amends.empty())
    report.blocks.push_back(
        Paragraph{say("page.amends", {{"old", say("page.old", {{"number", issue.amends}, {"date", issue.amends_date}})},
                                      {"changed", std::string(without_stop(issue.what_changed))},
                                      {"why", std::string(without_stop(issue.why_amended))}}),
                  Tone::plain});
  if (samples.empty()) report.blocks.push_back(Paragraph{say("page.no_sample"), Tone::lead});
  add_remarks(report, issue);
  add_glance(report, samples, say);
  for (const SummarySample& sample : samples) add_sample(report, sample, issue);
  if (!samples.empty()) {
    report.blocks.push_back(Heading{1, say("heading.done")});
    if (issue.shows("methods")) add_joined(report, say("heading.methods"), methods_in_words(samples, say));
    add_joined(report, say("heading.fineness"), fineness_in_words(samples, say));
    report.blocks.push_back(Heading{2, say("heading.cautions")});
    report.blocks.push_back(Cautions{cautions_in_words(samples, say)});
    report.blocks.push_back(Signature{say("page.signature")});
  }
  report.blocks.push_back(
      EndMark{issue.number.empty() ? say("page.end") : say("page.end_of", {{"number", issue.number}}), issue.notebook_state});
  return report;
}

}  // namespace prillbook::summary
