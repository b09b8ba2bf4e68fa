// SPDX-License-Identifier: GPL-3.0-or-later
// JSON, spreadsheet and list hold the same figures: the sheet is read from its archive cell by cell.
#include "core/exchange/summary_json.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <array>
#include <cstdio>
#include <map>
#include <nlohmann/json.hpp>
#include <regex>

#include "core/base/number.h"
#include "core/exchange/columns.h"
#include "core/exchange/csv.h"
#include "core/exchange/xlsx.h"
#include "tests/support/files.h"
#include "tests/support/summary_bench.h"

namespace prillbook::exchange {
namespace {

using ::testing::HasSubstr;
using testing_support::SummaryBench;

struct SummaryJson : ::testing::Test, SummaryBench {
  testing_support::TempFolder folder;

  nlohmann::json json(const summary::Report& report) { return nlohmann::json::parse(summary_json(report)); }
  static std::string part(const std::string& path, const std::string& name) {
    std::string text;
    FILE* pipe = popen(("unzip -p " + path + " " + name).c_str(), "r");
    if (!pipe) return text;
    std::array<char, 4096> buffer;
    for (std::size_t count = 0; (count = fread(buffer.data(), 1, buffer.size(), pipe)) > 0;) text.append(buffer.data(), count);
    pclose(pipe);
    return text;
  }
  static std::string plain(std::string text) {
    for (const auto& [from, to] :
         std::map<std::string, std::string>{{"&lt;", "<"}, {"&gt;", ">"}, {"&quot;", "\""}, {"&amp;", "&"}})
      for (std::size_t at = 0; (at = text.find(from, at)) != std::string::npos; at += to.size())
        text.replace(at, from.size(), to);
    return text;
  }
  // The cells of a sheet by their name, "C7"; a number as it stands, a text by its place among the shared strings.
  static std::map<std::string, std::string> cells(const std::string& path, const std::string& sheet) {
    std::vector<std::string> strings;
    const std::string shared = part(path, "xl/sharedStrings.xml"), xml = part(path, "xl/worksheets/" + sheet);
    const std::regex text_of("<si><t[^>]*>([^<]*)</t></si>"), cell_of("<c r=\"([A-Z]+[0-9]+)\"([^>]*)><v>([^<]*)</v>");
    for (std::sregex_iterator at(shared.begin(), shared.end(), text_of), end; at != end; ++at) strings.push_back(plain((*at)[1]));
    std::map<std::string, std::string> found;
    for (std::sregex_iterator at(xml.begin(), xml.end(), cell_of), end; at != end; ++at)
      found[(*at)[1]] = (*at)[2].str().find("t=\"s\"") == std::string::npos ? (*at)[3].str() : strings.at(std::stoul((*at)[3]));
    return found;
  }
  static std::string column_name(std::size_t place) {
    std::string name(1, char('A' + place % 26));
    return place < 26 ? name : char('A' + place / 26 - 1) + name;
  }
};

TEST_F(SummaryJson, TheSheetHoldsCellByCellWhatTheJsonHolds) {
  pan_with_gap();
  sample = log_sample("=1+1", "1 kg");
  const summary::Report whole = report({SampleId{1}, sample});
  const auto document = json(whole);
  const std::string path = folder.file("summary.xlsx");
  ASSERT_TRUE(write_xlsx(whole, path).ok());
  const auto sheet = cells(path, "sheet1.xml");
  int head = 0;
  for (const auto& [name, text] : sheet)
    if (text == "Client's mark") head = std::stoi(name.substr(1));
  ASSERT_GT(head, 0);
  const auto columns = summary_columns();
  int compared = 0;
  for (std::size_t row = 0; row < document["results"].size(); ++row)
    for (std::size_t i = 0; i < columns.size(); ++i) {
      const auto& line = document["results"][row];
      const auto cell = sheet.find(column_name(i) + std::to_string(head + 1 + int(row)));
      const auto key = line.find(std::string(columns[i].name));
      ASSERT_EQ(cell == sheet.end(), key == line.end()) << columns[i].name << " of line " << row;
      if (key == line.end()) continue;
      ++compared;
      if (key->is_string())
        EXPECT_EQ(cell->second, key->get<std::string>()) << columns[i].name;
      else
        EXPECT_DOUBLE_EQ(parse_number(cell->second, DecimalMark::point)->value, key->get<double>()) << columns[i].name;
    }
  EXPECT_GT(compared, 30);
  EXPECT_EQ(part(path, "xl/worksheets/sheet1.xml").find("<f>"), std::string::npos) << "there is no formula";
}

TEST_F(SummaryJson, ReadingsAndThePageStandInIt) {
  pan_with_gap();
  const auto document = json(report());
  EXPECT_EQ(document["format"], "summary");
  EXPECT_EQ(document["preliminary"], false);
  EXPECT_FALSE(document.contains("number"));
  bool bead = false;
  for (const auto& line : document["readings"]) bead = bead || line["typed"] == "22.000 mg";
  EXPECT_TRUE(bead);
  EXPECT_THAT(document["page"].dump(), HasSubstr("The pan left gold behind"));
  EXPECT_EQ(summary_json(report()), summary_json(report()));
}

TEST_F(SummaryJson, OddNamesStayText) {
  const std::string odd = "=cmd|' /C calc'!A0 <b>&\"\n\x01 ‮مرحبا " + std::string(300, 'x');
  sample = log_sample(odd, "1 kg");
  EXPECT_EQ(json(report())["results"][0]["mark"], odd);
  EXPECT_EQ(not_run(odd).front(), '\'') << "the list is what a spreadsheet would run";
}

// ROSE, p. 496 (W16 of the trade's handbook): 1.75 mg from 50 g on a balance with a unit of 0.05 mg is 1 oz 2 dwt 20.8 gr a
// long ton, which the book reports as 1 oz 3 dwt: no digit beyond what the balance earned. Half a unit is 0.5 g/t of 35.
TEST_F(SummaryJson, NoDigitBeyondTheBalance) {
  const BalanceId coarse = lab::add_balance(book, "coarse", testing_support::figure("0.05 mg")).value();
  const auto charge = fire("50 g");
  ASSERT_TRUE(weighing::weigh(book, {charge.bead, "bead", testing_support::figure("1.75 mg"), coarse, {}, person}).ok());
  ASSERT_TRUE(weighing::set_fineness(book, charge.bead, "stated", testing_support::figure("1000", Measure::fineness),
                                     testing_support::figure("0.1", Measure::fineness))
                  .ok());
  const auto document = json(report());
  for (const auto& line : document["results"]) {
    if (line["kind"] != "charge") continue;
    EXPECT_NEAR(line["gold_g_t"].get<double>(), 35, 0.5);
    const std::string digits = line["gold_g_t"].dump();
    EXPECT_LE(digits.size(), 4u) << digits << ": one decimal at most";
    return;
  }
  FAIL() << "no charge";
}

}  // namespace
}  // namespace prillbook::exchange
