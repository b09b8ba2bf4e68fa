// SPDX-License-Identifier: GPL-3.0-or-later
#include <gtest/gtest.h>

#include <filesystem>
#include <nlohmann/json.hpp>
#include <sstream>

#include "app/batch/run.h"
#include "tests/support/files.h"
#include "tests/support/notebook.h"

namespace prillbook::batch {
namespace {

struct Said {
  int status;
  nlohmann::json json;
};

class CopiesVerbs : public testing::Test {
 protected:
  testing_support::TempFolder folder;
  std::string file = folder.file("lab.prillbook");
  SteppingClock clock = testing_support::monday_morning();

  void SetUp() override { ASSERT_EQ(call({"notebook", "demo", file}).status, 0); }
  Said call(const std::vector<std::string>& arguments) {
    std::istringstream in;
    std::ostringstream out, err;
    World world{in, out, err, clock, {}, {}, {}, {}};
    const int status = run(arguments, world);
    return {status, nlohmann::json::parse(out.str(), nullptr, false)};
  }
};

TEST_F(CopiesVerbs, TakenListedComparedAndRestored) {
  const Said taken = call({"notebook", "take-copy", file});
  ASSERT_EQ(taken.status, 0) << taken.json;
  const std::string copy = taken.json["copy"];
  EXPECT_FALSE(call({"notebook", "take-copy", file}).json.contains("copy")) << "nothing new";
  const Said list = call({"notebook", "copies", file});
  ASSERT_EQ(list.json["copies"].size(), 1u);
  EXPECT_EQ(list.json["copies"][0]["kind"], "taken");
  EXPECT_EQ(list.json["copies"][0]["copy"], copy);
  const std::string rows = folder.file("rows.csv");
  testing_support::write_file(rows, "mark\r\nN drive\r\n");
  ASSERT_EQ(call({"notebook", "import", file, "--csv", rows, "--as", "samples", "--client", "1"}).status, 0);
  const Said parts = call({"notebook", "compare-copy", file, copy});
  ASSERT_EQ(parts.status, 0) << parts.json;
  EXPECT_TRUE(parts.json["related"]);
  EXPECT_EQ(parts.json["only_in_notebook"]["gestures"], 1);
  EXPECT_EQ(parts.json["only_in_notebook"]["made"]["sample"], 1);
  EXPECT_EQ(parts.json["only_in_copy"]["entries"], 0);
  const Said restored = call({"notebook", "restore-copy", file, "--from", copy});
  ASSERT_EQ(restored.status, 0) << restored.json;
  EXPECT_TRUE(std::filesystem::exists(restored.json["kept"].get<std::string>()));
  EXPECT_EQ(call({"notebook", "compare-copy", file, copy}).json["only_in_notebook"]["entries"], 0);
}

TEST_F(CopiesVerbs, SealedCopyNeedsItsPassphrase) {
  const std::string words = folder.file("words"), sealed = folder.file("sealed");
  testing_support::write_file(words, "correct horse\n");
  ASSERT_EQ(call({"notebook", "backup", file, sealed, "--passphrase-file", words}).status, 0);
  EXPECT_EQ(call({"notebook", "compare-copy", file, sealed}).json["error"]["code"], "missing_key");
  EXPECT_EQ(call({"notebook", "restore-copy", file, "--from", sealed, "--passphrase-file", words}).status, 0);
  EXPECT_FALSE(std::filesystem::exists(file + ".opened")) << "what it was opened into is gone";
}

TEST_F(CopiesVerbs, JournalAsAList) {
  const std::string list = folder.file("journal.csv");
  const Said all = call({"notebook", "journal", file, "--csv", list});
  ASSERT_EQ(all.status, 0) << all.json;
  const Said portions = call({"notebook", "journal", file, "--csv", list, "--kind", "portion", "--by", "HM"});
  EXPECT_GT(portions.json["entries"], 0);
  EXPECT_LT(portions.json["entries"], all.json["entries"]);
  EXPECT_EQ(call({"notebook", "journal", file, "--csv", list, "--from", "2999-01-01"}).json["entries"], 0);
  EXPECT_EQ(call({"notebook", "journal", file, "--csv", list, "--kind", "cauldron"}).json["error"]["code"], "unknown_key");
  EXPECT_EQ(call({"notebook", "journal", file, "--csv", list, "--from", "soon"}).json["error"]["field"], "from");
}

TEST_F(CopiesVerbs, SalvageOfASoundNotebookLosesNothing) {
  const std::string saved = folder.file("saved.prillbook");
  const Said salvaged = call({"notebook", "salvage", file, saved});
  ASSERT_EQ(salvaged.status, 0) << salvaged.json;
  EXPECT_TRUE(salvaged.json["whole"]) << salvaged.json;
  EXPECT_EQ(call({"notebook", "check", saved}).json["head"], call({"notebook", "check", file}).json["head"]);
  EXPECT_EQ(call({"notebook", "salvage", file, saved}).status, 1) << "never over another file";
}

}  // namespace
}  // namespace prillbook::batch
