// SPDX-License-Identifier: GPL-3.0-or-later
// The workbook as it lies in its archive: the sheets are read with unzip, not with the library that wrote them.
#include "core/exchange/xlsx.h"

#include <gtest/gtest.h>
#include <sys/resource.h>

#include <array>
#include <clocale>
#include <csignal>
#include <cstdio>
#include <fstream>

#include "core/store/part_file.h"
#include "tests/support/summary_bench.h"

namespace prillbook::exchange {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;
using testing_support::SummaryBench;

struct XlsxTest : ::testing::Test, SummaryBench {
  testing_support::TempFolder folder;
  std::string path = folder.file("summary.xlsx");

  std::string part(const std::string& name) const {
    std::string text;
    FILE* pipe = popen(("unzip -p " + path + " " + name).c_str(), "r");
    if (!pipe) return text;
    std::array<char, 4096> buffer;
    for (std::size_t count = 0; (count = fread(buffer.data(), 1, buffer.size(), pipe)) > 0;) text.append(buffer.data(), count);
    pclose(pipe);
    return text;
  }
  std::string written() {
    const auto result = write_xlsx(report(), path);
    EXPECT_TRUE(result.ok()) << (result.ok() ? "" : result.error().detail);
    return part("xl/worksheets/sheet1.xml");
  }
};

TEST_F(XlsxTest, FiguresAreNumbersWithTheDigitsOfThePage) {
  pan_with_gap();
  const std::string sheet = written();
  EXPECT_THAT(sheet, HasSubstr("<v>16.5</v>"));
  EXPECT_THAT(sheet, HasSubstr("<v>22</v>")) << "22.000 mg";
  EXPECT_THAT(part("xl/styles.xml"), HasSubstr("formatCode=\"0.000\""));
  EXPECT_THAT(part("xl/sharedStrings.xml"), HasSubstr("Gold, g/t"));
  EXPECT_THAT(part("xl/workbook.xml"), HasSubstr("name=\"Summary\""));
  EXPECT_THAT(part("xl/workbook.xml"), HasSubstr("name=\"Readings\""));
}

TEST_F(XlsxTest, ReadingsStandAsTypedWithUnitWhoAndBalance) {
  pan_with_gap();
  written();
  const std::string readings = part("xl/worksheets/sheet2.xml"), strings = part("xl/sharedStrings.xml");
  for (const char* text : {"22.000 mg", "bead, weighing 1", "bead balance", "Who", "HM", "gold after parting, weighing 1"})
    EXPECT_THAT(strings, HasSubstr(text));
  EXPECT_THAT(readings, HasSubstr("<v>0.022</v>")) << "in grams";
}

TEST_F(XlsxTest, NothingIsAFormula) {
  sample = log_sample("=1+1", "1 kg");
  const std::string sheet = written();
  EXPECT_THAT(sheet, Not(HasSubstr("<f>")));
  EXPECT_THAT(part("xl/sharedStrings.xml"), HasSubstr("=1+1"));
}

TEST_F(XlsxTest, MadeAtTheDateOfTheReport) {
  written();
  EXPECT_THAT(part("docProps/core.xml"), HasSubstr("2026-05-06T14:00:00Z"));
  EXPECT_THAT(part("docProps/core.xml"), HasSubstr("<dc:title>Summary of tests</dc:title>"));
}

TEST_F(XlsxTest, ATextLongerThanACellIsCutAtACharacter) {
  std::string name;
  for (int i = 0; i < 33'000; ++i) name += "é";
  sample = log_sample(name, "1 kg");
  written();
  const std::string strings = part("xl/sharedStrings.xml");
  const std::size_t first = strings.find("éé"), last = strings.find('<', first);
  ASSERT_NE(first, std::string::npos);
  EXPECT_EQ(last - first, 2u * 32'767);
}

TEST_F(XlsxTest, ACommaLocaleWritesTheSameBytes) {
  pan_with_gap();
  const std::string plain = written(), plain_readings = part("xl/worksheets/sheet2.xml");
  const std::string before = std::setlocale(LC_ALL, nullptr);
  const char* comma = nullptr;
  for (const char* name : {"de_DE.UTF-8", "fr_FR.UTF-8", "cs_CZ.UTF-8"})
    if (!comma) comma = std::setlocale(LC_ALL, name);
  if (!comma) GTEST_SKIP() << "this machine has no locale with a decimal comma";
  std::array<char, 16> shown{};
  std::snprintf(shown.data(), shown.size(), "%.1f", 1.5);
  const std::string there = written(), there_readings = part("xl/worksheets/sheet2.xml");
  std::setlocale(LC_ALL, before.c_str());
  ASSERT_EQ(std::string(shown.data()), "1,5") << "the locale has a comma";
  EXPECT_EQ(there, plain);
  EXPECT_EQ(there_readings, plain_readings);
}

TEST_F(XlsxTest, AFullDiskLeavesTheOldFileAndNoPart) {
  pan_with_gap();
  const summary::Report full = report();
  ASSERT_TRUE(store::write_whole(path, "old").ok());
  rlimit before{};
  getrlimit(RLIMIT_FSIZE, &before);
  // 300 bytes hold no part of the workbook, 4000 some but not all.
  for (const rlim_t bytes : {rlim_t{300}, rlim_t{4000}}) {
    const auto before_signal = std::signal(SIGXFSZ, SIG_IGN);
    const rlimit limit{bytes, before.rlim_max};
    setrlimit(RLIMIT_FSIZE, &limit);
    const auto result = write_xlsx(full, path);
    setrlimit(RLIMIT_FSIZE, &before);
    std::signal(SIGXFSZ, before_signal);
    ASSERT_FALSE(result.ok()) << bytes;
    EXPECT_EQ(result.error().code, ErrorCode::disk_full);
    std::ifstream file(path, std::ios::binary);
    EXPECT_EQ(std::string(std::istreambuf_iterator<char>(file), {}), "old");
    EXPECT_FALSE(std::filesystem::exists(store::part_path(path)));
  }
}

TEST_F(XlsxTest, AFolderThatIsNotThereIsAnError) {
  EXPECT_EQ(write_xlsx(report(), folder.file("none/a.xlsx")).error().code, ErrorCode::not_found);
}

}  // namespace
}  // namespace prillbook::exchange
