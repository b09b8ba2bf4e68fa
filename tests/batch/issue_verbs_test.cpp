// SPDX-License-Identifier: GPL-3.0-or-later
// The verbs of numbered summaries, from the draft to the check of a file.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fstream>
#include <sstream>

#include "app/batch/run.h"
#include "core/json/json_input.h"
#include "core/summary/report.h"
#include "tests/support/files.h"
#include "tests/support/notebook.h"

namespace prillbook::batch {
namespace {

class IssueVerbs : public testing::Test {
 protected:
  testing_support::TempFolder folder;
  std::string file = folder.file("lab.prillbook"), pdf = folder.file("one.pdf");
  int painted = 0;

  IssueVerbs() { EXPECT_EQ(call({"notebook", "demo", file})["notebook"], file); }
  nlohmann::json call(const std::vector<std::string>& arguments) {
    std::istringstream in;
    std::ostringstream out, err;
    SteppingClock clock = testing_support::monday_morning();
    World world{in, out, err, clock, {}};
    world.paint_pdf = [this](const summary::Report& report, bool letter) -> Result<std::string> {
      return fmt::format("{} {} {}", report.title, letter, ++painted);
    };
    run(arguments, world);
    return nlohmann::json::parse(out.str(), nullptr, false);
  }
  std::string draft() {
    const auto made = call({"notebook", "draft-summary", file, "--sample", "26-0001", "--paper", "letter"});
    EXPECT_TRUE(made.contains("number")) << made.dump();
    return made.value("number", "");
  }
};

TEST_F(IssueVerbs, FromTheDraftToTheCheckOfTheFile) {
  const std::string number = draft();
  const auto issued = call({"notebook", "issue-summary", file, number, "--by", "HM", "--pdf", pdf});
  ASSERT_EQ(issued.value("state", ""), "issued") << issued.dump();
  const auto known = call({"notebook", "verify-summary", file, pdf});
  EXPECT_EQ(known["issued_here"], true);
  EXPECT_EQ(known["number"], number);
  EXPECT_EQ(known["amended"], false);
  EXPECT_EQ(known["signature"], "none");
  const std::string again = folder.file("again.pdf");
  call({"notebook", "print-summary", file, number, "--pdf", again});
  EXPECT_EQ(testing_support::file_text(again), testing_support::file_text(pdf));
  EXPECT_EQ(painted, 1);
  const auto next = call({"notebook", "amend-summary", file, number, "--changed", "a bead", "--why", "a slip"});
  EXPECT_EQ(next["takes_the_place_of"], number);
  call({"notebook", "issue-summary", file, next["number"], "--by", "HM"});
  const auto amended = call({"notebook", "verify-summary", file, pdf});
  EXPECT_EQ(amended["amended"], true);
  EXPECT_EQ(amended["amended_by"][0]["why"], "a slip");
  EXPECT_EQ(call({"notebook", "summaries", file})["summaries"].size(), 2u);
  EXPECT_EQ(call({"notebook", "check", file})["sound"], true);
}

TEST_F(IssueVerbs, AStrangersFileIsNotOurs) {
  std::ofstream(pdf) << "%PDF-1.4 forged";
  EXPECT_EQ(call({"notebook", "verify-summary", file, pdf})["issued_here"], false);
  EXPECT_EQ(call({"notebook", "verify-summary", file, folder.file("none.pdf")})["error"]["code"], "not_found");
}

TEST_F(IssueVerbs, ASignedSummaryNamesItsKey) {
  const std::string key = folder.file("lab.key"), passphrase = folder.file("passphrase");
  std::ofstream(passphrase) << "a long passphrase\n";
  const auto made = call({"notebook", "lab-key", key, "--passphrase-file", passphrase});
  ASSERT_TRUE(made.contains("public_key")) << made.dump();
  EXPECT_EQ(call({"notebook", "lab-key", key, "--passphrase-file", passphrase})["error"]["code"], "conflict")
      << "never written over";
  const std::string number = draft();
  const auto issued = call(
      {"notebook", "issue-summary", file, number, "--by", "HM", "--pdf", pdf, "--key", key, "--passphrase-file", passphrase});
  EXPECT_EQ(issued["public_key"], made["public_key"]) << issued.dump();
  EXPECT_EQ(call({"notebook", "verify-summary", file, pdf})["signature"], "valid");
}

TEST_F(IssueVerbs, WhatIsWrongIsRefused) {
  EXPECT_EQ(call({"notebook", "draft-summary", file})["error"]["code"], "missing_key");
  EXPECT_EQ(call({"notebook", "draft-summary", file, "--sample", "26-0001", "--paper", "a3"})["error"]["code"], "out_of_range");
  EXPECT_EQ(call({"notebook", "issue-summary", file, "26-S99", "--by", "HM"})["error"]["code"], "not_found");
  EXPECT_EQ(call({"notebook", "issue-summary", file, draft(), "--by", "QQ"})["error"]["code"], "not_found");
}

}  // namespace
}  // namespace prillbook::batch
