// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/records.h"

#include <gtest/gtest.h>

#include <fstream>
#include <nlohmann/json.hpp>
#include <regex>
#include <sstream>

#include "core/attachments/attachments.h"
#include "core/results/sample_result.h"
#include "tests/support/notebook.h"

namespace prillbook::exchange {
namespace {

using testing_support::MemoryNotebook;

std::string file_text(const std::string& path) {
  std::ifstream file(std::string(PRILLBOOK_SOURCE_DIR) + "/" + path);
  std::stringstream text;
  text << file.rdbuf();
  return text.str();
}

std::string lab_with(const std::string& consignments) {
  return R"({"format":"records","version":1,"people":[{"initials":"HM"}],"balances":[{"name":"b","step":"0.001 mg"}],
    "clients":[{"name":"C"}],"consignments":)" +
         consignments + "}";
}

TEST(Records, TheDemonstrationLoadsAndComputes) {
  MemoryNotebook notebook;
  const auto loaded = load_records(*notebook.journal, file_text("sample-data/demo.json"));
  ASSERT_TRUE(loaded.ok()) << loaded.error().field << ": " << loaded.error().detail;
  EXPECT_EQ(loaded->consignments, 4);
  for (const auto& line : *custody::recent_samples(*notebook.connection, 100)) {
    const auto record = results::load_sample_record(*notebook.connection, line.id);
    ASSERT_TRUE(record.ok());
    const auto result = results::compute(*record);
    for (const auto* group : {&result.pan, &result.fire.tests, &result.tail.tests, &result.remainder.tests})
      for (const auto& test : *group) EXPECT_FALSE(test.error) << test.label << ": " << test.error->detail;
    EXPECT_FALSE(result.comparison_error) << line.number;
  }
}

struct Refusal {
  const char* consignments;
  ErrorCode code;
  const char* field;
};

class RecordsRefused : public testing::TestWithParam<Refusal> {};

TEST_P(RecordsRefused, AndNothingIsWritten) {
  MemoryNotebook notebook;
  const auto loaded = load_records(*notebook.journal, lab_with(GetParam().consignments));
  ASSERT_FALSE(loaded.ok());
  EXPECT_EQ(loaded.error().code, GetParam().code) << loaded.error().detail;
  EXPECT_EQ(loaded.error().field, GetParam().field);
  EXPECT_TRUE(lab::clients(*notebook.connection)->empty());
}

INSTANTIATE_TEST_SUITE_P(
    BadInput, RecordsRefused,
    testing::Values(
        Refusal{R"([{"client":"D"}])", ErrorCode::not_found, "consignments[0]: client"},
        Refusal{R"([{"client":"C","colour":"red"}])", ErrorCode::unknown_key, "consignments[0].colour"},
        Refusal{R"([{"client":"C","arrived":"Monday"}])", ErrorCode::out_of_range, "consignments[0].arrived"},
        Refusal{R"([{"client":"C","pieces_found":1.5}])", ErrorCode::wrong_type, "consignments[0].pieces_found"},
        Refusal{R"([{"client":"C","received_by":"XX"}])", ErrorCode::not_found, "consignments[0].received_by"},
        Refusal{R"([{"client":"C","samples":[{"mark":"A","mass_received":"-1 kg"}]}])", ErrorCode::out_of_range,
                "consignments[0].samples[0].mass_received"},
        Refusal{
            R"([{"client":"C","samples":[{"mark":"A","mass_received":"1 kg","portions":[{"purpose":"pan","mass":"1001 g"}]}]}])",
            ErrorCode::overdrawn, "consignments[0].samples[0].portions[0]: portion.mass"},
        Refusal{R"([{"client":"C","samples":[{"mark":"A","portions":[{"purpose":"pan","mass":"1 g",
                 "pan_test":{"bead":{"weighings":[{"mass":"2 g"}]}}}]}]}])",
                ErrorCode::inconsistent, "consignments[0].samples[0].portions[0].pan_test.bead.weighings[0]: weighing.mass"},
        Refusal{
            R"([{"client":"C","samples":[{"mark":"A","portions":[{"purpose":"fire","mass":"1 g","charge":{"repeat_of":"x"}}]}]}])",
            ErrorCode::not_found, "consignments[0].samples[0].portions[0].charge.repeat_of"},
        Refusal{R"([{"client":"C","photographs":[{"bytes":"c!","width":4,"height":3}]}])", ErrorCode::wrong_type,
                "consignments[0].photographs[0].bytes"},
        Refusal{R"([{"client":"C","photographs":[{"bytes":"cGl4ZWxz","width":4}]}])", ErrorCode::out_of_range,
                "consignments[0].photographs[0]: attachment"},
        Refusal{R"("text")", ErrorCode::wrong_type, "consignments"}));

TEST(Records, RefusesOtherFormatsAndVersions) {
  MemoryNotebook notebook;
  EXPECT_EQ(load_records(*notebook.journal, R"({"format":"notebook","version":1})").error().code, ErrorCode::out_of_range);
  EXPECT_EQ(load_records(*notebook.journal, R"({"format":"records","version":2})").error().code, ErrorCode::newer_version);
  EXPECT_EQ(load_records(*notebook.journal, R"({"version":1})").error().code, ErrorCode::missing_key);
  EXPECT_EQ(load_records(*notebook.journal, "{").error().code, ErrorCode::malformed_json);
}

// "pixels" in base64 (RFC 4648) is cGl4ZWxz.
TEST(Records, BringPhotographsAsTheyAre) {
  MemoryNotebook notebook;
  const auto loaded = load_records(*notebook.journal, lab_with(R"([{"client":"C",
    "photographs":[{"bytes":"cGl4ZWxz","width":4,"height":3,"kind":"paper"}],
    "samples":[{"mark":"A","photographs":[{"bytes":"cGl4ZWxz","width":4,"height":3,"caption":"torn","taken_at":"2026-05-04T09:30+02:00"}]}]}])"));
  ASSERT_TRUE(loaded.ok()) << loaded.error().detail;
  const auto of_sample = attachments::attachments_of(*notebook.connection, {SampleId{1}, {}}).value();
  ASSERT_EQ(of_sample.size(), 1u);
  EXPECT_EQ(of_sample[0].caption, "torn");
  EXPECT_TRUE(of_sample[0].original);
  EXPECT_EQ(attachments::bytes_of(*notebook.connection, of_sample[0]).value(), "pixels");
  EXPECT_EQ(attachments::attachments_of(*notebook.connection, {{}, ConsignmentId{1}})->size(), 1u);
}

TEST(Records, IsOneGesture) {
  MemoryNotebook notebook;
  ASSERT_TRUE(load_records(*notebook.journal, lab_with("[]")).ok());
  ASSERT_TRUE(notebook.journal->undo().ok());
  EXPECT_TRUE(lab::clients(*notebook.connection)->empty());
}

// A text with one object of this kind that has what it needs; `at` is the way to it.
nlohmann::json text_to(const std::string& object, std::string& at) {
  nlohmann::json text{{"format", "records"}, {"version", 1}, {"clients", {{{"name", "C"}}}}};
  const auto down = [&](const std::string& step, nlohmann::json value) -> nlohmann::json& {
    at += step;
    text[nlohmann::json::json_pointer(at)] = std::move(value);
    return text;
  };
  if (object == "people") return down("/people/0", {{"initials", "X"}});
  if (object == "balances") return down("/balances/0", {{"name", "X"}});
  if (object == "clients") return down("/clients/0", {{"name", "X"}});
  down("/consignments/0", {{"client", "C"}});
  if (object == "consignments") return text;
  down("/samples/0", {{"mark", "A"}});
  if (object == "samples") return text;
  if (object == "photographs") return down("/photographs/0", {{"bytes", "cGl4ZWxz"}, {"width", 4}, {"height", 3}});
  down("/portions/0", {{"purpose", "pan"}});
  if (object == "portions") return text;
  if (object == "pan_test") return down("/pan_test", nlohmann::json::object());
  down("/charge", nlohmann::json::object());
  if (object == "charge") return text;
  down("/bead", nlohmann::json::object());
  if (object == "bead") return text;
  down("/weighings/0", {{"mass", "1 mg"}});
  return text;
}

// Every key that docs/records.md lists is read: a list of one number is refused as the wrong type for it, not as unknown.
TEST(Records, DocumentAndCodeAgree) {
  std::istringstream lines(file_text("docs/records.md"));
  const std::regex row(R"(^\| `(\w+)`( \*)? \|.*)");
  std::string line, object;
  int keys = 0;
  while (std::getline(lines, line)) {
    if (line.starts_with("## ")) object = line.substr(3);
    std::smatch match;
    if (object.empty() || object == "The text" || !std::regex_match(line, match, row)) continue;
    ++keys;
    const std::string key = match[1];
    std::string at;
    nlohmann::json text = text_to(object, at);
    text[nlohmann::json::json_pointer(at)][key] = {1};
    MemoryNotebook notebook;
    const auto loaded = load_records(*notebook.journal, text.dump());
    ASSERT_FALSE(loaded.ok()) << object << "." << key;
    EXPECT_EQ(loaded.error().code, ErrorCode::wrong_type) << object << "." << key << ": " << loaded.error().detail;
    EXPECT_NE(loaded.error().field.find(key), std::string::npos) << loaded.error().field;
  }
  EXPECT_GT(keys, 70);
}

}  // namespace
}  // namespace prillbook::exchange
