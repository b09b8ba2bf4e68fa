// SPDX-License-Identifier: GPL-3.0-or-later
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <nlohmann/json.hpp>
#include <sstream>

#include "app/batch/run.h"
#include "core/labels/label.h"
#include "core/labels/layout.h"
#include "tests/support/notebook.h"

namespace prillbook::batch {
namespace {

struct Answer {
  int status;
  std::string out;
  nlohmann::json json() const { return nlohmann::json::parse(out, nullptr, false); }
};

class NotebookVerbs : public testing::Test {
 protected:
  testing_support::TempFolder folder;
  std::string file = folder.file("lab.prillbook");
  int start_painted = 0;

  Answer call(const std::vector<std::string>& arguments, const std::string& input = "") {
    std::istringstream in(input);
    std::ostringstream out, err;
    SteppingClock clock = testing_support::monday_morning();
    World world{
        in,
        out,
        err,
        clock,
        [](const summary::Report&, const std::string& path) -> Result<void> {
          std::ofstream(path) << "painted";
          return {};
        },
        [this](const std::vector<labels::Label>&, const labels::Layout&, int start, const std::string& path) -> Result<void> {
          start_painted = start;
          std::ofstream(path) << "labels";
          return {};
        },
        [](const std::vector<std::string>& names, bool letter, const std::string& path) -> Result<void> {
          std::ofstream(path) << (letter ? "letter " : "a4 ") << (names.empty() ? "all" : names.front());
          return {};
        }};
    const int status = run(arguments, world);
    return {status, out.str()};
  }
  std::string code(const Answer& answer) { return answer.json()["error"]["code"].get<std::string>(); }
  void write(const std::string& path, const std::string& text) { std::ofstream(path, std::ios::binary) << text; }
  std::string read(const std::string& path) {
    std::ifstream stream(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(stream), {}};
  }
};

TEST_F(NotebookVerbs, NewThenCheck) {
  EXPECT_EQ(call({"notebook", "new", file}).status, 0);
  const Answer checked = call({"notebook", "check", file});
  EXPECT_EQ(checked.status, 0);
  EXPECT_EQ(checked.json()["sound"], true);
  const Answer again = call({"notebook", "new", file});
  EXPECT_EQ(again.status, 1);
  EXPECT_EQ(code(again), "conflict");
}

TEST_F(NotebookVerbs, TheDemonstrationIsTheSameEveryTime) {
  ASSERT_EQ(call({"notebook", "demo", file}).status, 0);
  const std::string second = folder.file("second.prillbook");
  ASSERT_EQ(call({"notebook", "demo", second}).status, 0);
  EXPECT_EQ(call({"notebook", "dump", file}).out, call({"notebook", "dump", second}).out);
}

TEST_F(NotebookVerbs, ADumpRestoresToItself) {
  ASSERT_EQ(call({"notebook", "demo", file}).status, 0);
  const std::string dump = call({"notebook", "dump", file}).out;
  const std::string from = folder.file("dump.json"), restored = folder.file("restored.prillbook");
  write(from, dump);
  ASSERT_EQ(call({"notebook", "restore", restored, "--from", from}).status, 0);
  EXPECT_EQ(call({"notebook", "dump", restored}).out, dump);
  EXPECT_EQ(call({"notebook", "restore", folder.file("third.prillbook")}, "{").status, 1);
}

TEST_F(NotebookVerbs, ABackupIsSound) {
  ASSERT_EQ(call({"notebook", "demo", file}).status, 0);
  const std::string copy = folder.file("copy.prillbook");
  ASSERT_EQ(call({"notebook", "backup", file, copy}).status, 0);
  EXPECT_EQ(call({"notebook", "check", copy}).status, 0);
  EXPECT_EQ(call({"notebook", "backup", file, copy}).status, 1) << "an older backup is not overwritten";
}

TEST_F(NotebookVerbs, ASealedBackupIsTheSameNotebookAgain) {
  ASSERT_EQ(call({"notebook", "demo", file}).status, 0);
  const std::string copy = folder.file("copy.sealed"), again = folder.file("again.prillbook"), words = folder.file("words");
  std::ofstream(words) << "the adit is wet in May\n";
  ASSERT_EQ(call({"notebook", "backup", file, copy, "--passphrase-file", words}).status, 0);
  EXPECT_EQ(call({"notebook", "check", copy}).status, 3) << "nobody reads it without";
  EXPECT_EQ(call({"notebook", "restore", again, "--from", copy}).json()["error"]["field"], "--passphrase-file");
  ASSERT_EQ(call({"notebook", "restore", again, "--from", copy, "--passphrase-file", words}).status, 0);
  EXPECT_EQ(call({"notebook", "dump", again}).out, call({"notebook", "dump", file}).out);
  EXPECT_EQ(call({"notebook", "restore", again, "--from", copy, "--passphrase-file", words}).status, 1)
      << "it stands there already";
}

TEST_F(NotebookVerbs, LoadReadsFromInputOrFileAndIsAllOrNothing) {
  ASSERT_EQ(call({"notebook", "new", file}).status, 0);
  const std::string good = R"({"format":"records","version":1,"clients":[{"name":"C"}],
    "consignments":[{"client":"C","samples":[{"mark":"A","mass_received":"1 kg"}]}]})";
  EXPECT_EQ(call({"notebook", "load", file}, good).json()["samples"], 1);
  const Answer refused =
      call({"notebook", "load", file}, R"({"format":"records","version":1,"clients":[{"name":"D"},{"name":""}]})");
  EXPECT_EQ(refused.status, 1);
  EXPECT_EQ(refused.json()["error"]["field"], "clients[1]: client.name");
  EXPECT_EQ(call({"notebook", "load", file, "--from", folder.file("absent.json")}).status, 3);
}

TEST_F(NotebookVerbs, FindingsOfOneSampleOrAll) {
  ASSERT_EQ(call({"notebook", "demo", file}).status, 0);
  const auto all = call({"notebook", "findings", file}).json()["findings"];
  EXPECT_GE(all.size(), 4u);
  const auto one = call({"notebook", "findings", file, "--sample", "26-0004"}).json()["findings"];
  std::vector<std::string> rules;
  for (const auto& finding : one) rules.push_back(finding["rule"]);
  EXPECT_THAT(rules, testing::UnorderedElementsAre("gold_left_behind", "short_on_arrival", "leaking_bag"));
  EXPECT_EQ(call({"notebook", "findings", file, "--sample", "99-0001"}).status, 3);
}

// Samples are read a page at a time; what one says may not hang on which others are read with it.
TEST_F(NotebookVerbs, ASampleIsReadAmongOthersAsItIsByItself) {
  ASSERT_EQ(call({"notebook", "demo", file}).status, 0);
  std::map<std::string, nlohmann::json> together;
  const auto all = call({"notebook", "findings", file}).json()["findings"];
  for (const auto& finding : all) together[finding["sample"].get<std::string>()].push_back(finding);
  EXPECT_GT(together.size(), 5u);
  for (const auto& [sample, findings] : together)
    EXPECT_EQ(call({"notebook", "findings", file, "--sample", sample}).json()["findings"], findings) << sample;
}

TEST_F(NotebookVerbs, SummaryInEachForm) {
  ASSERT_EQ(call({"notebook", "demo", file}).status, 0);
  const std::string pdf = folder.file("s.pdf"), xlsx = folder.file("s.xlsx"), csv = folder.file("s.csv");
  const Answer made =
      call({"notebook", "summary", file, "--client", "Larkspur Syndicate", "--pdf", pdf, "--xlsx", xlsx, "--csv", csv});
  ASSERT_EQ(made.status, 0) << made.out;
  EXPECT_EQ(made.json()["samples"], 5);
  EXPECT_EQ(read(pdf), "painted");
  EXPECT_EQ(read(xlsx).substr(0, 2), "PK");
  EXPECT_NE(read(csv).find("26-0001"), std::string::npos);
  EXPECT_EQ(call({"notebook", "summary", file, "--sample", "26-0004", "--sample", "26-0005", "--csv", csv}).json()["samples"], 2);
}

TEST_F(NotebookVerbs, SummaryRefusesWhatItCanNotTell) {
  ASSERT_EQ(call({"notebook", "demo", file}).status, 0);
  const std::string csv = folder.file("s.csv");
  EXPECT_EQ(call({"notebook", "summary", file, "--client", "Nobody", "--csv", csv}).status, 3);
  EXPECT_EQ(code(call({"notebook", "summary", file, "--csv", csv})), "missing_key");
  EXPECT_EQ(code(call({"notebook", "summary", file, "--sample", "26-0001", "--sample", "26-0004", "--csv", csv})), "conflict")
      << "two clients";
  EXPECT_FALSE(std::filesystem::exists(csv));
  EXPECT_EQ(code(call({"notebook", "summary", file, "--client", "Wren Tallow"})), "missing_key");
  ASSERT_EQ(call({"notebook", "load", file}, R"({"format":"records","version":1,"clients":[{"name":"Wren Tallow"}]})").status, 0);
  const Answer ambiguous = call({"notebook", "summary", file, "--client", "Wren Tallow", "--csv", csv});
  EXPECT_EQ(ambiguous.status, 1);
  EXPECT_EQ(code(ambiguous), "ambiguous");
  EXPECT_EQ(call({"notebook", "summary", file, "--client", "3", "--csv", csv}).status, 0) << "the id tells them apart";
  EXPECT_EQ(code(call({"notebook", "summary", file, "--client", "3", "--csv", folder.file("no/such/folder.csv")})), "not_found");
}

TEST_F(NotebookVerbs, CustodyRecordOfASampleOrAConsignment) {
  ASSERT_EQ(call({"notebook", "demo", file}).status, 0);
  const std::string pdf = folder.file("c.pdf");
  const Answer made = call({"notebook", "custody", file, "--sample", "26-0004", "--out", pdf});
  ASSERT_EQ(made.status, 0) << made.out;
  EXPECT_EQ(made.json()["pdf"], pdf);
  EXPECT_EQ(read(pdf), "painted");
  EXPECT_EQ(call({"notebook", "custody", file, "--consignment", "26-C02", "--out", pdf}).status, 0);
  EXPECT_EQ(code(call({"notebook", "custody", file, "--out", pdf})), "missing_key");
  EXPECT_EQ(code(call({"notebook", "custody", file, "--sample", "26-0004"})), "missing_key");
  EXPECT_EQ(code(call({"notebook", "custody", file, "--sample", "26-0004", "--consignment", "26-C02", "--out", pdf})),
            "conflict");
  EXPECT_EQ(call({"notebook", "custody", file, "--sample", "99-0001", "--out", pdf}).status, 3);
  EXPECT_EQ(call({"notebook", "custody", file, "--consignment", "99-C01", "--out", pdf}).status, 3);
}

TEST_F(NotebookVerbs, FaultsOfTheFileExitWithThree) {
  EXPECT_EQ(call({"notebook", "check", folder.file("absent.prillbook")}).status, 3);
  write(file, std::string(4096, 'x'));
  const Answer no_notebook = call({"notebook", "check", file});
  EXPECT_EQ(no_notebook.status, 3);
  EXPECT_EQ(code(no_notebook), "not_a_notebook");
  for (const char* verb : {"dump", "findings", "load"}) EXPECT_EQ(call({"notebook", verb, file}, "{}").status, 3) << verb;
}

TEST_F(NotebookVerbs, ReadingVerbsLeaveNoFileBehind) {
  ASSERT_EQ(call({"notebook", "demo", file}).status, 0);
  for (const char* verb : {"check", "dump", "findings"}) EXPECT_EQ(call({"notebook", verb, file}).status, 0) << verb;
  int files = 0;
  for ([[maybe_unused]] const auto& entry : std::filesystem::directory_iterator(folder.path())) ++files;
  EXPECT_EQ(files, 1);
}

TEST_F(NotebookVerbs, LabelsAreGatheredAndHandedToThePainter) {
  ASSERT_EQ(call({"notebook", "demo", file}).status, 0);
  const std::string pdf = folder.file("labels.pdf");
  const std::vector<std::string> usual{"notebook", "labels", file, "--sample", "26-0001", "--layout", "a4-3x8", "--out", pdf};
  const Answer done = call(usual);
  ASSERT_EQ(done.status, 0) << done.out;
  EXPECT_EQ(done.json()["codes"][0], "PB1:S:26-0001");
  EXPECT_EQ(done.json()["sheets"], 1);
  EXPECT_EQ(read(pdf), "labels");
  EXPECT_EQ(start_painted, 1);
  std::vector<std::string> later = usual;
  later.insert(later.end(), {"--start", "24", "--what", "bag"});
  EXPECT_EQ(call(later).status, 0);
  EXPECT_EQ(start_painted, 24);
  later[10] = "25";
  EXPECT_EQ(code(call(later)), "out_of_range");
}

TEST_F(NotebookVerbs, LabelsRefuseWhatIsNotThere) {
  ASSERT_EQ(call({"notebook", "demo", file}).status, 0);
  const std::string pdf = folder.file("labels.pdf");
  EXPECT_EQ(code(call({"notebook", "labels", file, "--layout", "a4-3x8", "--out", pdf})), "missing_key");
  EXPECT_EQ(code(call({"notebook", "labels", file, "--sample", "26-0001", "--out", pdf})), "missing_key");
  EXPECT_EQ(code(call({"notebook", "labels", file, "--sample", "26-0001", "--layout", "a4-3x8"})), "missing_key");
  EXPECT_EQ(code(call({"notebook", "labels", file, "--sample", "99-1", "--layout", "a4-3x8", "--out", pdf})), "not_found");
  EXPECT_EQ(code(call({"notebook", "labels", file, "--sample", "26-0001", "--layout", "a9", "--out", pdf})), "out_of_range");
  EXPECT_EQ(
      code(call({"notebook", "labels", file, "--sample", "26-0001", "--layout", "a4-3x8", "--what", "crate", "--out", pdf})),
      "out_of_range");
  EXPECT_EQ(code(call({"notebook", "labels", file, "--consignment", "26-C01", "--sample", "26-0001", "--layout", "a4-3x8",
                       "--out", pdf})),
            "conflict");
  EXPECT_EQ(code(call({"notebook", "labels", file, "--consignment", "99-C1", "--layout", "a4-3x8", "--out", pdf})), "not_found");
  EXPECT_EQ(
      code(call({"notebook", "labels", file, "--sample", "26-0001", "--layout-file", folder.file("none.json"), "--out", pdf})),
      "not_found");
  const std::string grid = folder.file("grid.json");
  write(grid, R"({"name":"own","paper":"a4","columns":2,"rows":3,"width_mm":90,"height_mm":90,"left_mm":10,"top_mm":10})");
  const Answer own = call({"notebook", "labels", file, "--consignment", "26-C01", "--layout-file", grid, "--out", pdf});
  EXPECT_EQ(own.status, 0) << own.out;
  write(grid, R"({"name":"own","paper":"a4","columns":3,"rows":3,"width_mm":90,"height_mm":90,"left_mm":10,"top_mm":10})");
  EXPECT_EQ(code(call({"notebook", "labels", file, "--consignment", "26-C01", "--layout-file", grid, "--out", pdf})),
            "inconsistent");
}

TEST_F(NotebookVerbs, BenchSheetsNeedNoNotebook) {
  const std::string pdf = folder.file("sheets.pdf");
  const Answer done = call({"notebook", "bench-sheets", "--out", pdf, "--paper", "letter", "--sheet", "pan-test"});
  ASSERT_EQ(done.status, 0) << done.out;
  EXPECT_EQ(read(pdf), "letter pan-test");
  EXPECT_EQ(code(call({"notebook", "bench-sheets"})), "missing_key");
  EXPECT_EQ(code(call({"notebook", "bench-sheets", "--out", pdf, "--paper", "a3"})), "out_of_range");
}

TEST_F(NotebookVerbs, AWrongCallExitsWithTwo) {
  for (const std::vector<std::string>& arguments : {std::vector<std::string>{"notebook"},
                                                    {"notebook", "burn", file},
                                                    {"notebook", "check"},
                                                    {"calc"},
                                                    {"calc", "grade", "--colour"}}) {
    const Answer answer = call(arguments);
    EXPECT_EQ(answer.status, 2) << arguments.back();
    EXPECT_EQ(code(answer), "unknown_verb");
  }
  EXPECT_EQ(call({"calc", "nothing"}).status, 2);
}

TEST_F(NotebookVerbs, CalcReadsInputOrFile) {
  const std::string input = R"({"value": 1, "from": "ozt_st", "to": "g_t"})";
  EXPECT_DOUBLE_EQ(call({"calc", "convert"}, input).json()["value"], 240.0 / 7);
  const std::string path = folder.file("in.json");
  write(path, input);
  EXPECT_DOUBLE_EQ(call({"calc", "convert", "--in", path}).json()["value"], 240.0 / 7);
  const Answer refused = call({"calc", "convert"}, "{");
  EXPECT_EQ(refused.status, 1);
  EXPECT_EQ(code(refused), "malformed_json");
}

struct ImportVerb : NotebookVerbs {
  std::string list = folder.file("Heron Creek.csv");
  Answer import(std::vector<std::string> more = {}) {
    std::vector<std::string> words{"notebook", "import", file, "--csv", list, "--as", "samples"};
    words.insert(words.end(), more.begin(), more.end());
    return call(words);
  }
};

TEST_F(ImportVerb, EntersAClientsListAndSaysHowItWasRead) {
  ASSERT_EQ(call({"notebook", "demo", file}).status, 0);
  list = PRILLBOOK_SOURCE_DIR "/sample-data/client-list.csv";
  const auto clients = nlohmann::json::parse(call({"notebook", "dump", file}).out)["tables"]["client"];
  const Answer done = import({"--client", clients[0]["name"].get<std::string>()});
  ASSERT_EQ(done.status, 0) << done.out;
  const auto json = done.json();
  EXPECT_EQ(json["samples"], 10);
  EXPECT_EQ(json["client"], clients[0]["name"]);
  EXPECT_EQ(json["encoding"], "windows-1252");
  EXPECT_EQ(json["delimiter"], "semicolon");
  EXPECT_EQ(json["decimal"], "comma");
  EXPECT_EQ(json["columns"][4]["heading"], "Weight (kg)");
  EXPECT_EQ(json["columns"][4]["field"], "mass_declared");
  EXPECT_EQ(json["columns"][4]["unit"], "kg");
  EXPECT_EQ(call({"notebook", "check", file}).status, 0);
  const Answer again = import({"--consignment", json["consignment"].get<std::string>()});
  EXPECT_EQ(again.json()["warnings"].size(), 10u) << "the same marks once more";
  EXPECT_EQ(again.json()["consignment"], json["consignment"]);
}

TEST_F(ImportVerb, WhoseListItIs) {
  write(list, "mark\nA\n");
  ASSERT_EQ(call({"notebook", "new", file}).status, 0);
  EXPECT_EQ(import().json()["client"], "Heron Creek") << "an empty notebook takes the name of the file";
  EXPECT_EQ(import().json()["client"], "Heron Creek") << "the only client is meant";
  EXPECT_EQ(code(import({"--client", "Nobody"})), "not_found");
  EXPECT_EQ(code(import({"--consignment", "99-C1"})), "not_found");
  EXPECT_EQ(code(import({"--consignment", "26-C01", "--client", "1"})), "conflict");
  ASSERT_EQ(import({"--client", "1"}).status, 0);
  std::filesystem::remove(file);
  ASSERT_EQ(call({"notebook", "demo", file}).status, 0);
  EXPECT_EQ(code(import()), "ambiguous");
}

TEST_F(ImportVerb, RefusesWholeListsAndLeavesTheNotebookAsItWas) {
  ASSERT_EQ(call({"notebook", "new", file}).status, 0);
  const std::string before = call({"notebook", "dump", file}).out;
  struct Case {
    const char* text;
    const char* code;
    const char* field;
  };
  for (const Case& one :
       {Case{"mark,mass (kg)\nA,1\nB,-1\n", "out_of_range", "rows[1].mass_declared"},
        Case{"mark,mass (kg)\nA,\"1\n", "inconsistent", "quote"}, Case{"mark;mass (kg)\nA;1,234\n", "ambiguous", "--decimal"},
        Case{"", "missing_key", "rows"}, Case{"mark\n", "missing_key", "rows"},
        Case{"mass (kg)\n1\n", "missing_key", "rows[0].mark"}, Case{"mark,kind\nA,pebble\n", "out_of_range", "rows[0].kind"}}) {
    write(list, one.text);
    const Answer answer = import();
    EXPECT_EQ(answer.status, 1) << one.text;
    EXPECT_EQ(code(answer), one.code) << one.text;
    EXPECT_EQ(answer.json()["error"]["field"], one.field) << one.text;
  }
  EXPECT_EQ(call({"notebook", "dump", file}).out, before);
  write(list, "mark;mass (kg)\nA;1,234\n");
  EXPECT_EQ(import({"--decimal", "comma"}).json()["samples"], 1);
  EXPECT_EQ(code(import({"--decimal", "dash"})), "out_of_range");
  EXPECT_EQ(code(import({"--encoding", "morse"})), "out_of_range");
  EXPECT_EQ(code(import({"--delimiter", "dash"})), "out_of_range");
}

TEST_F(ImportVerb, AWrongCallOrNoFile) {
  ASSERT_EQ(call({"notebook", "new", file}).status, 0);
  EXPECT_EQ(call({"notebook", "import", file}).status, 2);
  write(list, "mark\nA\n");
  EXPECT_EQ(code(call({"notebook", "import", file, "--csv", list, "--as", "beads"})), "out_of_range");
  std::filesystem::remove(list);
  EXPECT_EQ(import().status, 3);
}

}  // namespace
}  // namespace prillbook::batch
