// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/records.h"

#include <gtest/gtest.h>

#include <fstream>
#include <nlohmann/json.hpp>
#include <regex>
#include <sstream>

#include "core/attachments/attachments.h"
#include "core/controls/decisions.h"
#include "core/controls/materials.h"
#include "core/history/fields.h"
#include "core/history/record.h"
#include "core/lab/own_texts.h"
#include "core/milling/milling_lots.h"
#include "core/readings/entry.h"
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
  EXPECT_EQ(loaded->consignments, 6);
  for (const auto& line : *custody::recent_samples(*notebook.connection, 100)) {
    const auto record = results::load_sample_record(*notebook.connection, line.id);
    ASSERT_TRUE(record.ok());
    const auto result = results::compute(*record);
    for (const auto* group : {&result.pan, &result.fire.tests, &result.tail.tests, &result.remainder.tests})
      for (const auto& test : *group) EXPECT_FALSE(test.error) << test.label << ": " << test.error->detail;
    EXPECT_FALSE(result.comparison_error) << line.number;
  }
}

TEST(Records, PanningsAndMetallics) {
  MemoryNotebook notebook;
  const std::string text = lab_with(R"([{"client":"C","samples":[{"mark":"A","mass_received":"4 kg","portions":[
    {"purpose":"pan","mass":"1 kg","pan_test":{"panned_by":"HM","grind":"300 µm","colours_coarse":1,"colours_middle":7,
      "colours_fine":40,"magnetite":"1.2 g","bead_by":"amalgamated","mercury":"retorted by a licensed works",
      "pannings":[{"kind":"first","panned_by":"HM","concentrate":"60 g"},{"kind":"clean_up"}]}},
    {"purpose":"metallics","mass":"400 g","metallics":{"screen":"106 µm","remarks":"brushed",
      "coarse":{"mass":"1 g","charge":{"bead":{"weighings":[{"mass":"2 mg"}]}}},
      "fine":{"mass":"399 g","portions":[{"purpose":"fire","mass":"20 g","charge":{}},{"purpose":"fire","mass":"20 g"}]}}}]}]}])");
  const auto loaded = load_records(*notebook.journal, text);
  ASSERT_TRUE(loaded.ok()) << loaded.error().field << ": " << loaded.error().detail;
  const auto record = results::load_sample_record(*notebook.connection, SampleId{1});
  ASSERT_TRUE(record.ok());
  const results::PanEntry& pan = record->pan_tests.at(0);
  EXPECT_EQ(pan.test.colours_fine, 40);
  EXPECT_EQ(pan.test.magnetite->typed, "1.2 g");
  EXPECT_EQ(pan.test.mercury, "retorted by a licensed works");
  ASSERT_EQ(pan.pannings.size(), 2u);
  EXPECT_EQ(pan.pannings[0].concentrate->mass(), Mass(60, unit::gram));
  ASSERT_EQ(record->metallics.size(), 1u);
  EXPECT_EQ(record->metallics[0].screen->opening(), Opening(106, unit::micrometre));
  EXPECT_EQ(record->charges.size(), 2u);
}

TEST(Records, BadMetallicsSayWhere) {
  MemoryNotebook notebook;
  const auto outcome = load_records(*notebook.journal, lab_with(R"([{"client":"C","samples":[{"mark":"A","mass_received":"4 kg",
    "portions":[{"purpose":"metallics","mass":"400 g","metallics":{"coarse":{"mass":"1 g"}}}]}]}])"));
  ASSERT_FALSE(outcome.ok());
  EXPECT_EQ(outcome.error().code, ErrorCode::missing_key);
  const auto colours = load_records(*notebook.journal, lab_with(R"([{"client":"C","samples":[{"mark":"A","mass_received":"4 kg",
    "portions":[{"purpose":"pan","mass":"1 kg","pan_test":{"colours_fine":-1}}]}]}])"));
  EXPECT_FALSE(colours.ok());
}

TEST(Records, SieveAnalysesAndTheirFractions) {
  MemoryNotebook notebook;
  const std::string text = R"({"format":"records","version":1,"people":[{"initials":"HM"}],"clients":[{"name":"C"}],
    "sieves":[{"name":"60","series":"astm_e11","diameter":"203 mm","inspect_by":"2026-06-01T12:00+02:00"},{"name":"150 µm"}],
    "stacks":[{"name":"two","sieves":"250, 150 µm"}],
    "consignments":[{"client":"C","samples":[{"mark":"A","portions":[{"purpose":"sieve","mass":"100 g","sieve_analysis":{
      "stack":"two","method":"wet","minutes":10,"sieved_by":"HM","cuts":[{"sieve":"60","retained":"30 g",
        "fraction":{"portions":[{"purpose":"fire","mass":"20 g"}]}},{"sieve":"150 µm","retained":"20 g"},{"retained":"50 g"}]}}]}]}]})";
  const auto loaded = load_records(*notebook.journal, text);
  ASSERT_TRUE(loaded.ok()) << loaded.error().field << ": " << loaded.error().detail;
  EXPECT_EQ(loaded->sieve_analyses, 1);
  EXPECT_EQ(loaded->portions, 3) << "the portion, the fraction, and what was cut from it";
  const auto record = results::load_sample_record(*notebook.connection, SampleId{1});
  ASSERT_EQ(record->sieve_analyses.size(), 1u);
  const auto& analysis = record->sieve_analyses[0];
  EXPECT_EQ(analysis.method, "wet");
  EXPECT_EQ(analysis.minutes, 10);
  ASSERT_EQ(analysis.cuts.size(), 3u);
  EXPECT_EQ(record->portion(analysis.cuts[0].fraction)->purpose, "fraction");
  EXPECT_EQ(record->sieves.size(), 2u) << "the stack takes the sieves that are there";
  EXPECT_EQ(results::compute(*record).sizes[0].state, results::SizeState::done);
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
        Refusal{
            R"([{"client":"C","samples":[{"mark":"A","portions":[{"purpose":"sieve","mass":"9 g","sieve_analysis":{"stack":"x"}}]}]}])",
            ErrorCode::not_found, "consignments[0].samples[0].portions[0].sieve_analysis: stack"},
        Refusal{R"([{"client":"C","hand_overs":[{"from":"A","to":"B","place":"attic"}]}])", ErrorCode::not_found,
                "consignments[0].hand_overs[0]: place"},
        Refusal{R"([{"client":"C","samples":[{"mark":"A","tests_wanted":"taste"}]}])", ErrorCode::out_of_range,
                "consignments[0].samples[0]: sample.tests_wanted"},
        Refusal{R"([{"client":"C","samples":[{"mark":"A","own_metal":[{"what":"bead","fate":"returned"}]}]}])",
                ErrorCode::missing_key, "consignments[0].samples[0].own_metal[0]: own_metal.to_whom"},
        Refusal{R"([{"client":"C","samples":[{"mark":"A","gross":"1 kg","tare":"2 kg"}]}])", ErrorCode::inconsistent,
                "consignments[0].samples[0]: sample.tare"},
        Refusal{R"("text")", ErrorCode::wrong_type, "consignments"}));

TEST(Records, RefusesAMeshNumberWithoutItsSeries) {
  MemoryNotebook notebook;
  const auto alone = load_records(*notebook.journal, R"({"format":"records","version":1,"sieves":[{"name":"10"}]})");
  EXPECT_EQ(alone.error().code, ErrorCode::ambiguous);
  EXPECT_EQ(alone.error().field, "sieves[0]: sieve.series");
  const auto unknown =
      load_records(*notebook.journal, R"({"format":"records","version":1,"sieves":[{"name":"75 µm","series":"din"}]})");
  EXPECT_EQ(unknown.error().code, ErrorCode::out_of_range);
  const auto stack =
      load_records(*notebook.journal, R"({"format":"records","version":1,"stacks":[{"name":"s","sieves":"200 ASTM, 75 µm"}]})");
  EXPECT_EQ(stack.error().code, ErrorCode::conflict);
}

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
  if (object == "columns") {
    down("/clients/0", {{"name", "C"}});
    return down("/columns/0", {{"heading", "X"}, {"field", "mark"}});
  }
  if (object == "clients") return down("/clients/0", {{"name", "X"}});
  if (object == "crushing_orders") return down("/crushing_orders/0", nlohmann::json::object());
  if (object == "turns") return down("/crushing_orders/0/turns/0", {{"sample", "X"}});
  if (object == "machines" || object == "cleanings") down("/machines/0", {{"name", "X"}});
  if (object == "machines") return text;
  if (object == "cleanings") return down("/cleanings/0", {{"way", "brush"}});
  if (object == "check_weights" || object == "checks") {
    text["balances"] = {{{"name", "B"}}};
    down("/check_weights/0", {{"name", "X"}, {"nominal", "1 g"}, {"allowed", "1 mg"}});
    return object == "checks" ? down("/checks/0", {{"balance", "B"}, {"mass", "1 g"}}) : text;
  }
  if (object == "trays" || object == "controls") {
    down("/trays/0", {{"name", "T"}});
    return object == "controls" ? down("/controls/0", {{"position", 1}, {"control", "X"}}) : text;
  }
  if (object == "tray_moves") {
    text["trays"] = {{{"name", "T"}, {"controls", {{{"position", 1}, {"control", "X"}}}}}};
    return down("/tray_moves/0", {{"tray", "T"}, {"from", 1}, {"to", 2}, {"why", "X"}});
  }
  if (object == "sieves") return down("/sieves/0", {{"name", "75 µm"}});
  text["stacks"] = {{{"name", "S"}, {"sieves", "75 µm"}}};
  if (object == "stacks") {
    at += "/stacks/0";
    return text;
  }
  if (object == "places") return down("/places/0", {{"name", "X"}});
  if (object == "control_materials") return down("/control_materials/0", {{"name", "X"}, {"kind", "reference"}});
  if (object == "own_texts") return down("/own_texts/0", {{"language", "en"}, {"key", "custody.kept"}, {"words", "X {date}"}});
  if (object == "run_decisions") return down("/run_decisions/0", {{"run", "X"}, {"decision", "held"}});
  if (object == "lots") return down("/lots/0", {{"name", "X"}, {"kind", "lead"}});
  if (object == "pots") return down("/pots/0", {{"name", "X"}});
  if (object == "recipes") return down("/recipes/0", {{"name", "X"}});
  if (object == "furnace_runs" || object == "temperatures" || object == "proofs") {
    down("/furnace_runs/0", {{"name", "X"}, {"kind", "fusion"}});
    if (object == "temperatures") return down("/temperatures/0", {{"read_c", 900}});
    return object == "proofs" ? down("/proofs/0", nlohmann::json::object()) : text;
  }
  down("/consignments/0", {{"client", "C"}});
  if (object == "consignments") return text;
  if (object == "pieces") return down("/pieces/0", nlohmann::json::object());
  if (object == "hand_overs") return down("/hand_overs/0", {{"from", "A"}, {"to", "B"}});
  down("/samples/0", {{"mark", "A"}});
  if (object == "samples") return text;
  if (object == "photographs") return down("/photographs/0", {{"bytes", "cGl4ZWxz"}, {"width", 4}, {"height", 3}});
  if (object == "shares") return down("/composite_of/0", {{"sample", "X"}, {"mass", "1 g"}});
  if (object == "milling_lot") return down("/milling_lot", nlohmann::json::object());
  if (object == "steps") return down("/steps/0", {{"kind", "dry"}});
  if (object == "own_metal") return down("/own_metal/0", {{"what", "bead"}, {"fate", "kept"}});
  if (object == "told") return down("/told/0", {{"what", "gold"}, {"said", "1"}, {"to_whom", "B"}});
  if (object == "reducing_tests") return down("/reducing_tests/0", nlohmann::json::object());
  down("/portions/0", {{"purpose", "pan"}});
  if (object == "portions") return text;
  if (object == "pannings") return down("/pan_test/pannings/0", {{"kind", "first"}});
  if (object == "metallics") return down("/metallics", {{"coarse", {{"mass", "1 g"}}}, {"fine", {{"mass", "9 g"}}}});
  if (object == "charge_design") return down("/charge_design", nlohmann::json::object());
  if (object == "pan_test") return down("/pan_test", nlohmann::json::object());
  if (object == "sieve_analysis" || object == "cuts") {
    down("/sieve_analysis", {{"stack", "S"}});
    return object == "cuts" ? down("/cuts/0", {{"retained", "1 g"}}) : text;
  }
  down("/charge", nlohmann::json::object());
  if (object == "charge") return text;
  if (object == "flush_of") {
    text["machines"] = {{{"name", "M"}}};
    return down("/flush_of", {{"machine", "M"}});
  }
  if (object == "on_trays") return down("/on_trays/0", {{"tray", "T"}, {"position", 1}});
  down("/bead", nlohmann::json::object());
  if (object == "bead") return text;
  if (object == "density") return down("/density", {{"in_air", "20 mg"}, {"in_water", "18.7 mg"}});
  down("/weighings/0", {{"mass", "1 mg"}});
  return text;
}

// Every key that docs/records.md lists is read: a list of one number is refused as the wrong type for it, not as unknown.
TEST(Records, DocumentAndCodeAgree) {
  std::istringstream lines(file_text("docs/records.md"));
  const std::regex row(R"(^\| `(\w+)`( \*)? \|.*)");
  std::string line, object;
  int keys = 0;
  MemoryNotebook notebook;  // one for all: each text is refused whole
  while (std::getline(lines, line)) {
    if (line.starts_with("## ")) object = line.substr(3);
    std::smatch match;
    if (object.empty() || object == "The text" || !std::regex_match(line, match, row)) continue;
    ++keys;
    const std::string key = match[1];
    std::string at;
    nlohmann::json text = text_to(object, at);
    text[nlohmann::json::json_pointer(at)][key] = {1};
    const auto loaded = load_records(*notebook.journal, text.dump());
    ASSERT_FALSE(loaded.ok()) << object << "." << key;
    EXPECT_EQ(loaded.error().code, ErrorCode::wrong_type) << object << "." << key << ": " << loaded.error().detail;
    EXPECT_NE(loaded.error().field.find(key), std::string::npos) << loaded.error().field;
  }
  EXPECT_GT(keys, 110);
}

// A week of quality in the text: stocks, roles, a flush and its assay, decisions.
TEST(Records, Quality) {
  MemoryNotebook notebook;
  const auto loaded = load_records(*notebook.journal, R"({"format": "records", "version": 1,
    "people": [{"initials": "HM"}], "clients": [{"name": "C"}],
    "machines": [{"name": "jaw", "cleanings": [{"way": "flush", "flush_mass": "500", "cleaned_at": "2026-05-04T08:00+02:00"}]}],
    "furnace_runs": [{"name": "Monday", "kind": "fusion"}],
    "consignments": [{"client": "C", "samples": [{"mark": "A", "mass_received": "4 kg", "portions": [
      {"purpose": "fire", "mass": "20", "charge": {"fusion_run": "Monday"}},
      {"purpose": "fire", "mass": "20", "charge": {"duplicate": "pulp", "duplicate_of": "26-0001/1"}},
      {"purpose": "pan", "mass": "900", "pan_test": {}},
      {"purpose": "pan", "mass": "900", "pan_test": {"duplicate": "coarse", "duplicate_of": "26-0001/3"}}]}]}],
    "control_materials": [
      {"name": "quartz", "kind": "blank_rock", "origin": "own", "mass": "2 kg", "portions": [
        {"purpose": "fire", "mass": "50", "charge": {"fusion_run": "Monday", "bead": {"none_seen": true}}},
        {"purpose": "fire", "mass": "50", "charge": {"flush_of": {"machine": "jaw", "cleaned_at": "2026-05-04T08:00+02:00"}}}]},
      {"name": "pulp 5", "kind": "reference", "gold": "5.00", "gold_u": "0,12", "u_meaning": "expanded", "gold_sd": "0.2"}],
    "run_decisions": [{"run": "Monday", "decision": "held", "reason": "slag kept its lead", "decided_by": "HM"},
      {"run": "Monday", "decision": "accepted"}]})");
  ASSERT_TRUE(loaded.ok()) << loaded.error().field << ": " << loaded.error().detail;
  store::Connection& connection = *notebook.connection;
  namespace f = history::fields::charge;
  const auto role_of = [&](RecordId id) { return history::load_record(connection, history::Entity::charge, id)->text(f::role); };
  EXPECT_EQ(role_of(1), "");
  EXPECT_EQ(role_of(2), "duplicate_pulp");
  EXPECT_EQ(role_of(3), "blank_rock");
  EXPECT_EQ(role_of(4), "flush");
  EXPECT_EQ(history::load_record(connection, history::Entity::pan_test, 2)->whole(history::fields::pan_test::duplicate_of), 1);
  const auto pulp = controls::materials(connection)->at(1);
  EXPECT_NEAR(pulp.certified_gold()->u->in(unit::gram_per_tonne), 0.06, 1e-12);
  EXPECT_EQ(custody::sample(connection, pulp.stock)->number, "26-0003");
  const auto decided = *controls::decisions_of(connection, FurnaceRunId{1});
  ASSERT_EQ(decided.size(), 2u);
  EXPECT_EQ(decided[0].evidence, decided[1].evidence);
  EXPECT_FALSE(decided[1].evidence.empty());
}

TEST(Records, QualityRefusals) {
  const auto refused = [](const std::string& charge) {
    MemoryNotebook notebook;
    const auto loaded = load_records(*notebook.journal, R"({"format": "records", "version": 1, "clients": [{"name": "C"}],
      "consignments": [{"client": "C", "samples": [{"mark": "A", "mass_received": "4 kg", "portions": [
        {"purpose": "fire", "mass": "20", "charge": {}}, {"purpose": "fire", "mass": "20", "charge": )" +
                                                            charge + "}]}]}]}");
    return loaded.ok() ? std::string("taken") : std::string(contract_name(loaded.error().code)) + " " + loaded.error().field;
  };
  EXPECT_EQ(refused(R"({"duplicate": "pulp"})"), "missing_key consignments[0].samples[0].portions[1].charge.duplicate_of");
  EXPECT_EQ(refused(R"({"duplicate": "twin", "duplicate_of": "26-0001/1"})"),
            "out_of_range consignments[0].samples[0].portions[1].charge.duplicate");
  EXPECT_EQ(refused(R"({"duplicate": "pulp", "duplicate_of": "26-0001/7"})"),
            "not_found consignments[0].samples[0].portions[1].charge.duplicate_of");
  EXPECT_EQ(refused(R"({"duplicate": "field", "duplicate_of": "26-0001/1"})"),
            "inconsistent consignments[0].samples[0].portions[1].charge: charge.duplicate_of_id");
}

// A furnace day in the text: every new object is read.
TEST(Records, TheFurnace) {
  MemoryNotebook notebook;
  const auto loaded = load_records(*notebook.journal, R"({"format": "records", "version": 1,
    "people": [{"initials": "HM"}], "clients": [{"name": "C"}],
    "lots": [{"name": "litharge 3", "kind": "litharge", "silver": "2.1"}, {"name": "flux 1", "kind": "flux"}],
    "pots": [{"name": "K4", "millilitres": 250}],
    "recipes": [{"name": "quartz", "ore": "50", "litharge": "75", "flux_lot": "flux 1", "flux": "80"}],
    "furnace_runs": [{"name": "Monday", "kind": "cupellation", "set_c": 950,
      "temperatures": [{"read_at": "2026-05-04T10:00+02:00", "read_c": 930}],
      "proofs": [{"silver_in": "100", "bead": "97", "gold_out": "0"}]}],
    "consignments": [{"client": "C", "samples": [{"mark": "A", "mass_received": "4 kg",
      "reducing_tests": [{"key": "t", "ore": "3", "litharge": "50", "button": "16.5"}],
      "portions": [{"purpose": "fire", "mass": "20 g",
        "charge_design": {"ore_kind": "sulphide", "sulphides": "pyrite 40", "reducing_test": "t", "button_target": "28"},
        "charge": {"recipe": "quartz", "litharge": "80", "nitre": "12", "litharge_lot": "litharge 3", "pot": "K4",
          "cupellation_run": "Monday", "fusion_signs": "matte", "cupel_kind": "bone_ash", "cupel": "35",
          "bead": {"inquart": "1 mg", "parting_look": "whole"}}}]}]}]})");
  ASSERT_TRUE(loaded.ok()) << loaded.error().field << ": " << loaded.error().detail;
  const auto litharge = history::load_record(*notebook.connection, history::Entity::lot, 1);
  EXPECT_DOUBLE_EQ((*readings::figure_of(*litharge, history::fields::lot::silver))->grade().in(unit::gram_per_tonne), 21);
  const auto fused = history::load_record(*notebook.connection, history::Entity::charge, 1);
  EXPECT_EQ(fused->text(history::fields::charge::fusion_signs), "matte");
  EXPECT_EQ(fused->whole(history::fields::charge::cupellation_run), 1);
}

// What the client's pages rest on beside the tests.
TEST(Records, OwnWordsAndAMillingLot) {
  MemoryNotebook notebook;
  const auto loaded = load_records(*notebook.journal, R"({"format": "records", "version": 1,
    "settings": {"summary.language": "es"},
    "people": [{"initials": "HM"}], "clients": [{"name": "C", "language": "en"}],
    "own_texts": [{"language": "es", "key": "custody.kept", "words": "Se guarda hasta {date}."}],
    "consignments": [{"client": "C", "samples": [{"mark": "A", "mass_received": "4 kg",
      "milling_lot": {"milled_at": "2026-05-04T08:00+02:00", "milled_by": "HM", "mass": "812", "moisture": "4", "head": "18,5",
        "concentrate": "3", "concentrate_gold": "300", "sponge": "14", "bullion": "12.1", "bullion_fineness": "820",
        "tail_gold": "3.1", "owner_share": "70", "agreement": "a third to the mill", "remarks": "stamp mill"}}]}]})");
  ASSERT_TRUE(loaded.ok()) << loaded.error().field << ": " << loaded.error().detail;
  const auto lot = milling::lot_of(*notebook.connection, SampleId{1}).value();
  ASSERT_TRUE(lot);
  EXPECT_EQ(lot->mass->unit, "kg");
  EXPECT_DOUBLE_EQ(lot->bullion_fineness->value, 820);
  EXPECT_EQ(lab::own_texts(*notebook.connection, wording::Language::spanish)->at("custody.kept"), "Se guarda hasta {date}.");
  EXPECT_EQ(lab::settings(*notebook.connection)->summary_language, wording::Language::spanish);
  EXPECT_EQ(lab::client(*notebook.connection, ClientId{1})->language, "en");
  const auto odd = load_records(*notebook.journal, R"({"format": "records", "version": 1,
    "own_texts": [{"language": "es", "key": "custody.kept", "words": "Se guarda."}]})");
  EXPECT_EQ(odd.error().code, ErrorCode::missing_key);
}

TEST(Records, FlourAndNitreOfATextNeedTheirReason) {
  const auto text = [](const std::string& more) {
    return R"({"format": "records", "version": 1, "clients": [{"name": "C"}], "consignments": [{"client": "C", "samples":
      [{"mark": "A", "portions": [{"purpose": "fire", "mass": "20 g", "charge": {"flour": "2", "nitre": "3")" +
           more + "}}]}]}]}";
  };
  MemoryNotebook notebook;
  EXPECT_EQ(load_records(*notebook.journal, text("")).error().code, ErrorCode::conflict);
  EXPECT_TRUE(load_records(*notebook.journal, text(R"(, "flour_and_nitre": "roasted first")")).ok());
}

}  // namespace
}  // namespace prillbook::exchange
