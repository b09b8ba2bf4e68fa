// SPDX-License-Identifier: GPL-3.0-or-later
// The page as other programs read it: pdftotext, pdffonts and pdfinfo of poppler-utils.
#include "ui/paper/paper.h"

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <QtGui/QFontMetricsF>
#include <QtGui/QGuiApplication>
#include <algorithm>
#include <array>
#include <cstdio>
#include <filesystem>
#include <fstream>

#include "core/custody/places.h"
#include "core/exchange/records.h"
#include "core/summary/custody_report.h"
#include "core/summary/gather.h"
#include "tests/support/files.h"
#include "tests/support/summary_bench.h"
#include "ui/paper/flow.h"

namespace prillbook::paper {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;
using testing_support::figure;
using testing_support::SummaryBench;

std::string output_of(const std::string& command) {
  std::string text;
  FILE* pipe = popen(command.c_str(), "r");
  if (!pipe) return text;
  std::array<char, 4096> buffer;
  for (std::size_t count = 0; (count = fread(buffer.data(), 1, buffer.size(), pipe)) > 0;) text.append(buffer.data(), count);
  pclose(pipe);
  return text;
}

std::size_t count_of(const std::string& text, const std::string& part) {
  std::size_t count = 0;
  for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + part.size())) ++count;
  return count;
}

// Line ends and runs of blanks as one blank.
std::string one_line(const std::string& text) {
  std::string result;
  for (const char c : text) {
    const char seen = c == '\n' ? ' ' : c;
    if (seen != ' ' || result.empty() || result.back() != ' ') result += seen;
  }
  return result;
}

QGuiApplication& application() {
  static int argc = 1;
  static std::array<char, 6> name{"paper"};
  static char* argv[] = {name.data(), nullptr};
  static auto* const instance = new QGuiApplication(argc, argv);  // never deleted: Qt's own statics go first
  return *instance;
}

// The lines that a text of the body is broken into.
QStringList broken(const QString& text, double width) {
  const Lines lines(text, Faces({}).face(Size::body), width, line_height(Size::body));
  QStringList parts;
  for (int i = 0; i < lines.count(); ++i) parts << lines.words(i);
  return parts;
}

struct PaperTest : ::testing::Test, SummaryBench {
  testing_support::TempFolder folder;

  PaperTest() { application(); }
  // PRILLBOOK_KEEP_PAPER names a folder that keeps the pages for the eye.
  std::string file(const std::string& name) const {
    const char* keep = std::getenv("PRILLBOOK_KEEP_PAPER");
    return keep ? (std::filesystem::path(keep) / name).string() : folder.file(name);
  }
  std::string printed(const summary::Report& report, const std::string& name, const Paper& paper = {}) {
    const std::string path = file(name);
    const auto written = write_pdf(report, path, paper);
    EXPECT_TRUE(written.ok()) << (written.ok() ? "" : written.error().detail);
    return path;
  }
  static std::string text_of(const std::string& path) { return output_of("pdftotext -layout " + path + " -"); }
};

TEST_F(PaperTest, TheFiguresStandOnThePageAsText) {
  pan_with_gap();
  const std::string text = one_line(text_of(printed(report(), "gap.pdf")));
  EXPECT_THAT(text, HasSubstr("16.5 ± "));
  EXPECT_THAT(text, HasSubstr("45.0"));
  EXPECT_THAT(text, HasSubstr("The pan left gold behind: fire assay found 28.5 ± 0.6 g/t more"));
  EXPECT_THAT(text, HasSubstr("Ford Bank Assay Bench"));
  EXPECT_THAT(text, HasSubstr("For Larch Adit Syndicate"));
  EXPECT_THAT(text, HasSubstr("page 1 of 2"));
  EXPECT_THAT(text, HasSubstr("End of summary"));
  EXPECT_THAT(text, HasSubstr(history::hex(book.head())));
}

TEST_F(PaperTest, EveryFontIsEmbedded) {
  pan_with_gap();
  const std::string fonts = output_of("pdffonts " + printed(report(), "fonts.pdf"));
  std::istringstream lines(fonts);
  std::string line;
  std::getline(lines, line);
  const std::size_t embedded = line.find("emb");
  std::getline(lines, line);
  int count = 0;
  ASSERT_NE(embedded, std::string::npos) << fonts;
  while (std::getline(lines, line)) {
    ++count;
    EXPECT_EQ(line.substr(embedded, 3), "yes") << line;
    EXPECT_THAT(line, HasSubstr("Gentium"));
  }
  EXPECT_GE(count, 2);
}

TEST_F(PaperTest, MarkupInNamesIsText) {
  sample = log_sample("<b>Ridge</b> & \"co\" &amp; <img src=x>", "1 kg");
  const std::string text = text_of(printed(report(), "markup.pdf"));
  EXPECT_THAT(text, HasSubstr("<b>Ridge</b> & \"co\" &amp; <img src=x>"));
}

TEST_F(PaperTest, LongNamesAndNamesFromRightToLeftStayOnThePage) {
  std::string unbroken;
  for (int i = 0; i < 300; ++i) unbroken += char('a' + i % 26);
  const SampleId longest = log_sample(unbroken, "2 kg"), hebrew = log_sample("סלע זהב 7 צפון", "2 kg");
  sample = longest;
  pan_with_gap();
  const summary::Report mixed = report({longest, hebrew});
  const std::string path = printed(mixed, "names.pdf");
  const std::string text = output_of("pdftotext -raw " + path + " -");
  // Which letters come first is the reader's business; that all of them are there is ours.
  for (const char* letter : {"ס", "ל", "ע", "ז", "ה", "ב", "צ", "פ", "ו", "ן"}) EXPECT_THAT(text, HasSubstr(letter));
  // Whole words of the long name, put together again from the lines that it was broken into.
  std::string joined;
  for (const char c : text)
    if (c != '\n') joined += c;
  EXPECT_THAT(joined, HasSubstr(unbroken));
  const std::string box = output_of("pdftotext -bbox " + path + " -");
  for (std::size_t at = box.find("xMax=\""); at != std::string::npos; at = box.find("xMax=\"", at + 1))
    ASSERT_LT(std::stod(box.substr(at + 6)), 595.3) << "runs over the edge of the page";
}

TEST_F(PaperTest, ManySamplesRepeatTheHeaderOfTheirTableAndCountThePages) {
  std::vector<SampleId> ids;
  for (int i = 0; i < 45; ++i) ids.push_back(log_sample("trench " + std::to_string(i), "1 kg"));
  const std::string path = printed(report(ids), "many.pdf");
  const std::string first_two = output_of("pdftotext -layout -l 2 " + path + " -");
  EXPECT_EQ(count_of(first_two, "Your mark"), 2u) << first_two;
  const std::string info = output_of("pdfinfo " + path);
  const int pages = std::stoi(info.substr(info.find("Pages:") + 6));
  EXPECT_GT(pages, 3);
  EXPECT_THAT(text_of(path), HasSubstr("page " + std::to_string(pages) + " of " + std::to_string(pages)));
  EXPECT_EQ(page_images(report(ids), {}, 20).size(), std::size_t(pages));
}

// Whatever stands above it, a heading is followed by something on its page, a table's header by a row.
TEST_F(PaperTest, NoHeadingAndNoHeaderStandsAloneAtTheFoot) {
  const summary::Table table{{{"Header"}}, {{{std::string("first row")}, {}}, {{std::string("second row")}, {}}}};
  const summary::SievePicture curve{{{"Curve", {{100, 20}, {200, 80}}, 200.0, {}}}};
  int moved = 0;
  for (const summary::Block& headed : {summary::Block(table), summary::Block(curve)}) {
    summary::Report pages = summary::build_report({}, issue());
    pages.blocks.clear();
    for (int lines = 0; lines < 60; ++lines) {
      pages.blocks.push_back(summary::Heading{1, "Sample heading"});
      for (int i = 0; i < 20 + lines; ++i) pages.blocks.push_back(summary::Paragraph{"a line", summary::Tone::plain});
      pages.blocks.push_back(summary::Heading{1, "Outer heading"});
      pages.blocks.push_back(summary::Heading{2, "Inner heading"});
      pages.blocks.push_back(headed);
    }
    const QStringList texts = QString::fromStdString(text_of(printed(pages, "headings.pdf"))).split(QChar::FormFeed);
    for (const QString& text : texts) {
      QStringList lines = text.split('\n', Qt::SkipEmptyParts);
      if (lines.size() < 3) continue;
      lines.removeLast();  // the page's foot
      const QString last = lines.last().trimmed();
      EXPECT_FALSE(last.endsWith("heading") || last == "Header") << text.toStdString();
      moved += lines[1].contains("Outer heading");
    }
  }
  EXPECT_GT(moved, 10);
}

TEST_F(PaperTest, APanJobFitsItsPage) {
  const Panned panned = pan("1 kg");
  weigh(panned.bead, "22.000 mg");
  touchstone(panned.bead, "750");
  std::vector<summary::SummarySample> samples{summarised()};
  auto early = issue();
  early.preliminary = true;
  const std::string text = text_of(printed(summary::build_report(samples, early), "pan.pdf"));
  EXPECT_THAT(text, HasSubstr("Preliminary summary of tests"));
  EXPECT_THAT(text, HasSubstr("page 1 of 2"));
}

// A figure and its unit stand on one line, however narrow the place: "1.2 %", "16.5 ± 0.6 g/t", "2 ozt/short ton".
TEST_F(PaperTest, AFigureIsNotPartedFromItsUnit) {
  const std::vector<std::string> bonds{"1.2 %", "16.5 ± 0.6 g/t", "< 0.05 g/t", "2000 USD", "0.48 ozt/short ton", "2000 lb"};
  for (int width = 500; width < 1400; width += 37) {
    QString text;
    for (const std::string& bond : bonds) text += QStringLiteral("there it is with ") + QString::fromStdString(bond) + u' ';
    const QStringList lines = broken(text, double(width));
    ASSERT_GT(lines.size(), 3);
    for (const std::string& bond : bonds) {
      const QString whole = QString::fromStdString(bond);
      if (QFontMetricsF(Faces({}).face(Size::body)).horizontalAdvance(whole) > width - 20) continue;
      EXPECT_TRUE(std::any_of(lines.begin(), lines.end(), [&](const QString& line) { return line.contains(whole); }))
          << bond << " at " << width << ": " << lines.join("|").toStdString();
    }
  }
}

TEST_F(PaperTest, APageInSpanish) {
  pan_with_gap();
  std::vector<summary::SummarySample> samples{summarised()};
  auto spanish = issue();
  spanish.say = wording::Speech(wording::Language::spanish, DecimalMark::comma);
  const std::string path = printed(summary::build_report(samples, spanish), "spanish.pdf");
  const std::string text = text_of(path);
  EXPECT_THAT(text, HasSubstr("página 1 de "));
  EXPECT_THAT(text, HasSubstr("Para Larch Adit Syndicate"));
  EXPECT_THAT(text, HasSubstr("ozt/ton corta"));
  EXPECT_THAT(text, HasSubstr("Fecha"));
  EXPECT_THAT(output_of("qpdf --qdf --object-streams=disable " + path + " -"), HasSubstr("/Lang (es)"));
  EXPECT_THAT(output_of("pdfinfo " + path), HasSubstr("Resumen de ensayes para Larch Adit Syndicate"));
}

TEST_F(PaperTest, APhotographThatIsNoneIsNamed) {
  std::vector<summary::SummarySample> samples{summarised()};
  samples[0].photographs.push_back({"no picture at all", "the bag as it came", "", 4, 3});
  EXPECT_THAT(text_of(printed(summary::build_report(samples, issue()), "photograph.pdf")),
              HasSubstr("The photograph can not be shown: the bag as it came"));
}

TEST_F(PaperTest, AStopLeavesTheOldFile) {
  pan_with_gap();
  const std::string path = file("stopped.pdf");
  testing_support::write_file(path, "older");
  Cancellation stop;
  stop.request();
  EXPECT_EQ(write_pdf(report(), path, {}, {&stop, {}}).error().code, ErrorCode::cancelled);
  EXPECT_EQ(testing_support::file_text(path), "older");
  EXPECT_TRUE(page_images(report(), {}, 40, {&stop, {}}).empty());
}

// ISO 216: A4 is 210 x 297 mm; Letter is 8.5 x 11 in. Both from memory.
TEST_F(PaperTest, BothPapersHaveTheirSize) {
  pan_with_gap();
  EXPECT_THAT(output_of("pdfinfo " + printed(report(), "a4.pdf")), HasSubstr("A4"));
  EXPECT_THAT(output_of("pdfinfo " + printed(report(), "letter.pdf", {PaperSize::letter, {}})), HasSubstr("612 x 792"));
}

TEST_F(PaperTest, PagesAsPicturesHoldInk) {
  pan_with_gap();
  const auto pages = page_images(report(), {}, 40);
  ASSERT_FALSE(pages.empty());
  EXPECT_EQ(pages[0].size(), QSize(331, 468));
  int dark = 0;
  for (int y = 0; y < pages[0].height(); ++y)
    for (int x = 0; x < pages[0].width(); ++x) dark += qGray(pages[0].pixel(x, y)) < 128;
  EXPECT_GT(dark, 200);
}

TEST_F(PaperTest, AFolderThatIsNotThereIsAnError) {
  const auto written = write_pdf(report(), folder.file("none/summary.pdf"));
  ASSERT_FALSE(written.ok());
  EXPECT_EQ(written.error().code, ErrorCode::not_found);
}

// The elements of a custody record, each with the source that names it: EPA Region V 905R78115 (1978), as site plans
// quote it, and ISO/IEC 17025:2017 7.8.2.1 (list read) and 7.4 (from memory).
TEST_F(PaperTest, TheCustodyRecordHoldsWhatTheSourcesName) {
  const auto enter = [&](const history::Field& field, RecordId id, const std::string& text) { set(field, id, text); };
  namespace sample_fields = history::fields::sample;
  enter(history::fields::consignment::carrier, consignment.value, "the Tuesday cart");
  ASSERT_TRUE(custody::add_piece(book, {consignment, "wet", "OC 4471", "OC 4471", "intact", {}}).ok());
  enter(sample_fields::taken_by, sample.value, "Ada Fell");
  enter(sample_fields::taken_when, sample.value, "3 May, afternoon");
  enter(sample_fields::place, sample.value, "adit 2, face");
  enter(sample_fields::condition, sample.value, "torn");
  custody::NewSample sweepings;
  sweepings.consignment = consignment;
  sweepings.mark = "A, sweepings";
  sweepings.swept_from = sample;
  sweepings.mass_declared = figure("0.40 kg");
  sweepings.remarks = "from the floor of the box";
  const SampleId swept = *custody::log_sample(book, sweepings);
  const PlaceId shelf = *custody::add_place(book, "sample shelf");
  ASSERT_TRUE(custody::hand_over(book, {sample},
                                 {"HM",
                                  "TB",
                                  shelf,
                                  parse_iso("2026-05-05T16:20+02:00").value(),
                                  "to be crushed",
                                  "GA 118",
                                  "renewed",
                                  "sealed",
                                  {},
                                  person})
                  .ok());
  const Instant now = parse_iso("2026-05-12T18:00+02:00").value();
  const auto record = summary::custody_report_of(*connection, std::vector{sample}, now);
  ASSERT_TRUE(record.ok()) << record.error().detail;
  const std::string text = one_line(text_of(printed(*record, "custody.pdf")));
  const std::pair<const char*, const char*> elements[] = {
      {"Place taken: adit 2, face", "EPA: place of collection"},
      {"Collector: Ada Fell", "EPA: collector"},
      {"Collector of 26-0001", "EPA: signature of the collector"},
      {"Date and time taken: 3 May, afternoon", "EPA: date and time of collection"},
      {"Sample number: 26-0001", "EPA: sample number"},
      {"piece 1", "EPA: containers"},
      {"OC 4471, intact", "EPA: number and state of the seal"},
      {"Project or client: Larch Adit Syndicate", "EPA: project"},
      {"Shipped by: the Tuesday cart", "EPA: shipper"},
      {"Date of receipt: 2026-05-04 09:00", "EPA: date; ISO/IEC 17025 7.8.2.1: date of receipt"},
      {"HM, holder from 2026-05-04 09:00 to 2026-05-05 16:20", "EPA: signatures and inclusive dates of all holders"},
      {"TB, holder from 2026-05-05 16:20", "EPA: signatures and inclusive dates of all holders"},
      {"crushed", "EPA: reason of the change"},
      {"Custody record", "ISO/IEC 17025 7.8.2.1: a title"},
      {"For Larch Adit Syndicate", "ISO/IEC 17025 7.8.2.1: the customer"},
      {"page 1 of", "ISO/IEC 17025 7.8.2.1: every part identified"},
      {"End of custody record", "ISO/IEC 17025 7.8.2.1: a clear end"},
      {"2026-05-12", "ISO/IEC 17025 7.8.2.1: date of issue"},
      {"Condition on receipt: torn", "ISO/IEC 17025 7.8.2.1 and 7.4: condition of the item"},
      {"of the items named here as they were received", "ISO/IEC 17025 7.8.2.1: only the items tested"},
      {"For the lab", "ISO/IEC 17025 7.8.2.1: who authorises it"},
      {"Sample 26-0001 is now with TB, sample shelf", "ISO/IEC 17025 7.4: handling and storing"}};
  for (const auto& [words, source] : elements) EXPECT_THAT(text, HasSubstr(words)) << source;
  EXPECT_THAT(text, Not(HasSubstr("No certified assay"))) << "a custody record is no assay at all";
  const auto of_sweepings = summary::custody_report_of(*connection, std::vector{swept}, now);
  ASSERT_TRUE(of_sweepings.ok()) << of_sweepings.error().detail;
  const std::string swept_text = one_line(text_of(printed(*of_sweepings, "sweepings.pdf")));
  for (const char* words :
       {"Swept up from what sample 26-0001 left", "Mass declared: 0.40 kg", "Remarks: from the floor of the box"})
    EXPECT_THAT(swept_text, HasSubstr(words));
}

TEST_F(PaperTest, AConsignmentWithoutSamplesHasItsRecord) {
  const ConsignmentId bare = *custody::log_consignment(book, {client, {}, {}, {}, {}, {}, person});
  const auto record = summary::custody_report_of(*connection, bare, parse_iso("2026-05-12T18:00+02:00").value());
  ASSERT_TRUE(record.ok()) << record.error().detail;
  const std::string text = one_line(text_of(printed(*record, "bare.pdf")));
  EXPECT_THAT(text, HasSubstr("Consignment 26-C02 is now with HM"));
  EXPECT_FALSE(summary::custody_report_of(*connection, ConsignmentId{99}, record->now).ok());
}

TEST_F(PaperTest, ANotebookOfEverythingPrints) {
  const Panned panned = pan_with_gap();
  set(history::fields::pan_test::grind, panned.test.value,
      readings::cell_of(readings::Figure(figure("150 µm", Measure::opening))));
  set(history::fields::pan_test::largest_colour, panned.test.value,
      readings::cell_of(readings::Figure(figure("200 µm", Measure::opening))));
  const auto lost = fire("50 g"), again = fire("50 g"), odd = fire("50 g");
  ASSERT_TRUE(fire::set_spoiled(book, lost.charge, "the pot cracked in the furnace").ok());
  weigh(again.bead, "4.300 mg");
  part(again.bead, "2.100 mg");
  weigh(odd.bead, "5.3 mg");
  set(history::fields::charge::excluded, odd.charge.value, std::string("a flake of gold from the mould"));
  const auto tail = gravity::weigh_product(book, panned.test, "tail", figure("960 g"), person).value();
  const auto of_tail = fire("50 g", tail);
  weigh(of_tail.bead, "2.10 mg");
  part(of_tail.bead, "1.10 mg");
  const SampleId poor = log_sample("Adit 2, footwall", "3 kg"), none = log_sample("Dump, west", "2.2 kg");
  const SampleId rich = sample;
  sample = poor;
  const auto empty = fire("30 g");
  ASSERT_TRUE(weighing::set_none_seen(book, empty.bead, true).ok());
  set(history::fields::sample::condition, poor.value, std::string("torn"));
  set(history::fields::sample::mass_declared, poor.value, readings::cell_of(readings::Figure(figure("3.4 kg"))));
  std::vector<summary::SummarySample> samples{summarised(rich), summarised(poor), summarised(none)};
  samples[0].findings = {{"gold_left_behind", "caution", "The pan left gold behind.", "Assay the remainder and the tail.", ""}};
  const std::string text = one_line(text_of(printed(summary::build_report(samples, issue()), "everything.pdf")));
  EXPECT_THAT(text, HasSubstr("Spoiled: the pot cracked in the furnace."));
  EXPECT_THAT(text, HasSubstr("Left out of the mean: a flake of gold from the mould."));
  EXPECT_THAT(text, HasSubstr("none seen"));
  EXPECT_THAT(text, Not(HasSubstr("± 0 ")));
}

// The demonstration's summaries in each language on each paper: no placeholder is left open, and none of ours is English.
TEST_F(PaperTest, TheDemonstrationPrintsInEachLanguageOnEachPaper) {
  testing_support::MemoryNotebook demo;
  ASSERT_TRUE(
      exchange::load_records(*demo.journal, testing_support::file_text(PRILLBOOK_SOURCE_DIR "/sample-data/demo.json")).ok());
  const auto samples = custody::samples_of_client(*demo.connection, ClientId{1}).value();
  for (const char* language : {"en", "es"}) {
    const auto whole = summary::report_of(*demo.connection, samples, demo.clock.now(), language).value();
    for (const auto& [size, name] : {std::pair{PaperSize::a4, "a4"}, {PaperSize::letter, "letter"}}) {
      const std::string path = printed(whole, fmt::format("demo-{}-{}.pdf", language, name), {size, {}});
      const std::string text = text_of(path);
      EXPECT_THAT(text, Not(HasSubstr("{")));
      EXPECT_THAT(text, HasSubstr(whole.say.translated() ? "Fin del resumen" : "End of summary"));
      if (whole.say.translated()) EXPECT_THAT(text, Not(HasSubstr("What we found")));
    }
  }
}

}  // namespace
}  // namespace prillbook::paper
