// SPDX-License-Identifier: GPL-3.0-or-later
// The finished PDF as other programs read it: qpdf for its structure and outline, poppler for title, pages and text.
#include "ui/paper/bookmarks.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <QtGui/QGuiApplication>
#include <array>
#include <cstdio>
#include <fstream>

#include "core/summary/gather.h"
#include "tests/support/files.h"
#include "tests/support/summary_bench.h"
#include "ui/paper/paper.h"

namespace prillbook::paper {
namespace {

using ::testing::HasSubstr;
using testing_support::SummaryBench;

struct Called {
  int status = -1;
  std::string text;
};

Called called(const std::string& command) {
  Called result;
  FILE* pipe = popen((command + " 2>&1").c_str(), "r");
  if (!pipe) return result;
  std::array<char, 4096> buffer;
  for (std::size_t count = 0; (count = fread(buffer.data(), 1, buffer.size(), pipe)) > 0;)
    result.text.append(buffer.data(), count);
  result.status = pclose(pipe);
  return result;
}

struct BookmarksTest : ::testing::Test, SummaryBench {
  testing_support::TempFolder folder;
  std::string path = folder.file("summary.pdf");

  BookmarksTest() {
    static int argc = 1;
    static std::array<char, 6> name{"paper"};
    static char* argv[] = {name.data(), nullptr};
    if (!QGuiApplication::instance()) new QGuiApplication(argc, argv);  // never deleted: Qt's own statics go first
  }
  void print(const summary::Report& report, const Paper& paper = {}) {
    const auto bytes = pdf_bytes(report, paper);
    ASSERT_TRUE(bytes.ok()) << bytes.error().detail;
    std::ofstream(path, std::ios::binary) << *bytes;
  }
};

TEST_F(BookmarksTest, TheFileIsSoundAndItsOutlineNamesTheParts) {
  pan_with_gap();
  print(report());
  const Called check = called("qpdf --check " + path);
  EXPECT_EQ(check.status, 0) << check.text;
  EXPECT_THAT(check.text, HasSubstr("No syntax or stream encoding errors found"));
  const std::string outline = called("qpdf --json --json-key=outlines " + path).text;
  for (const char* title : {"What we found", "How sure we are", "Every test of this sample", "What this summary is not"})
    EXPECT_THAT(outline, HasSubstr(title));
  EXPECT_THAT(outline, HasSubstr("\"kids\""));
}

TEST_F(BookmarksTest, TitlePagesAndPaperAreAsAsked) {
  pan_with_gap();
  print(report());
  const std::string a4 = called("pdfinfo " + path).text;
  EXPECT_THAT(a4, HasSubstr("Title:           Summary of tests for Larch Adit Syndicate"));
  EXPECT_THAT(a4, HasSubstr("(A4)"));
  EXPECT_THAT(a4, HasSubstr("Pages:           2"));
  print(report(), {PaperSize::letter, {}});
  EXPECT_THAT(called("pdfinfo " + path).text, HasSubstr("(letter)"));
}

TEST_F(BookmarksTest, OddHeadingsDoNoHarm) {
  sample = log_sample("<b>&amp;) (\\ " + std::string(300, 'x') + " مرحبا", "1 kg");
  print(report());
  EXPECT_EQ(called("qpdf --check " + path).status, 0);
}

TEST_F(BookmarksTest, WhatIsNoPdfIsRefused) {
  EXPECT_EQ(with_bookmarks("no pdf", {}, {5950, 8420}).error().code, ErrorCode::damaged);
  EXPECT_EQ(with_bookmarks("", {}, {5950, 8420}).error().code, ErrorCode::damaged);
}

// ISO/IEC 17025:2017, 7.8.2.1, as the facts list it: title, lab with its address, unique mark and a clear end, client,
// method, item with its condition, dates of receipt, work and issue, that it speaks of these items only, results with
// units, who authorises it.
TEST_F(BookmarksTest, HoldsWhatTheStandardAsksOfAReport) {
  pan_with_gap();
  issue::Summary one;
  one.number = "26-S01";
  one.samples = {sample};
  one.issued_at = book.clock().now();
  print(summary::report_of_summary(*connection, one, *one.issued_at)->report);
  const std::string text = called("pdftotext -layout " + path + " -").text;
  for (const char* words :
       {"Summary of tests 26-S01", "Larch Adit Syndicate", "Pan test:", "Fire assay:", "Larch adit N", "Received 2", "Tested o",
        "as we received it", "g/t", "For the lab", "End of summary 26-S01", "page 1 of", "Touchstone:"})
    EXPECT_THAT(text, HasSubstr(words));
}

TEST_F(BookmarksTest, ADraftSaysSoOnEveryPage) {
  pan_with_gap();
  issue::Summary one;
  one.number = "26-S01";
  one.samples = {sample};
  print(summary::report_of_summary(*connection, one, book.clock().now())->report);
  const std::string text = called("pdftotext -layout " + path + " -").text;
  std::size_t count = 0, pages = 0;
  for (std::size_t at = 0; (at = text.find("Draft, not issued", at)) != std::string::npos; ++at) ++count;
  for (const char c : text) pages += c == '\f';
  EXPECT_EQ(count, pages);
}

}  // namespace
}  // namespace prillbook::paper
