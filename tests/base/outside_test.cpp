// SPDX-License-Identifier: GPL-3.0-or-later
// The program keeps to itself: no other process, no network, and no statement to the notebook put together from texts.
#include <gmock/gmock.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <string_view>

#include "tests/support/source_tree.h"

namespace prillbook::testing_support {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;
using testing::SizeIs;
using Finds = bool (*)(std::string_view line);

std::vector<std::string> lines_with(const std::vector<SourceFile>& files, Finds finds) {
  std::vector<std::string> found;
  for (const SourceFile& file : files) {
    std::string_view text = file.text;
    for (int line = 1; !text.empty(); ++line) {
      const std::size_t end = text.find('\n');
      if (finds(text.substr(0, end))) found.push_back(file.path + ":" + std::to_string(line));
      text.remove_prefix(end == std::string_view::npos ? text.size() : end + 1);
    }
  }
  return found;
}

bool of_a_word(char c) { return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '_'; }

bool calls(std::string_view line, std::string_view name) {
  for (std::size_t at = line.find(name); at != std::string_view::npos; at = line.find(name, at + 1)) {
    const std::size_t after = line.find_first_not_of(' ', at + name.size());
    if ((at == 0 || !of_a_word(line[at - 1])) && after != std::string_view::npos && line[after] == '(') return true;
  }
  return false;
}

bool reaches_outside(std::string_view line) {
  static constexpr std::array names{
      "QProcess",  "QNetwork",      "QTcp",       "QUdp",   "QSsl",        "QLocalSocket", "QLocalServer", "QDesktopServices",
      "QLibrary(", "QPluginLoader", "QWebSocket", "<netdb", "<sys/socket", "<curl/",       "<spawn.h>"};
  static constexpr std::array functions{"system",       "popen",  "fork",   "vfork",       "execl",         "execlp",
                                        "execle",       "execv",  "execvp", "execve",      "execvpe",       "posix_spawn",
                                        "posix_spawnp", "socket", "dlopen", "getaddrinfo", "gethostbyname", "wordexp"};
  return std::any_of(names.begin(), names.end(), [&](const char* name) { return line.find(name) != std::string_view::npos; }) ||
         std::any_of(functions.begin(), functions.end(), [&](const char* name) { return calls(line, name); });
}

// A text of the code that begins as a statement does: in capitals, as this project writes them, or in small letters with
// more words behind.
std::size_t statement_in(std::string_view line) {
  static constexpr std::array begins{"SELECT", "INSERT",     "UPDATE",    "DELETE",         "REPLACE",     "CREATE",
                                     "DROP",   "ALTER",      "ATTACH",    "DETACH",         "PRAGMA",      "COMMIT",
                                     "BEGIN",  "ROLLBACK",   "VACUUM",    "WITH",           "insert into", "delete from",
                                     "pragma", "drop table", "select * ", "attach database"};
  for (std::size_t quote = line.find('"'); quote != std::string_view::npos; quote = line.find('"', quote + 1)) {
    const std::size_t at = line.find_first_not_of(' ', quote + 1);
    if (at == std::string_view::npos) break;
    const auto text = line.substr(at);
    for (const std::string_view word : begins)
      if (text.starts_with(word) && (text.size() == word.size() || !of_a_word(text[word.size()]) || word.ends_with(' ')))
        return at;
  }
  return std::string_view::npos;
}

bool holds_statement(std::string_view line) { return statement_in(line) != std::string_view::npos; }

bool fills_statement(std::string_view line) {
  const std::size_t at = statement_in(line);
  return at != std::string_view::npos && line.find_first_of("{+", at) != std::string_view::npos;
}

bool speaks_to_sqlite(std::string_view line) {
  return line.find("SQLite::") != std::string_view::npos || line.find("sqlite3_") != std::string_view::npos;
}

TEST(OutsideRules, FindWhatTheyShould) {
  EXPECT_THAT(lines_with({{"a.cpp", "int a;\nQProcess::execute(x);\nstd::system (\"ls\");\napp.exec();\nfilesystem(a);\n"}},
                         reaches_outside),
              ElementsAre("a.cpp:2", "a.cpp:3"));
  EXPECT_THAT(lines_with({{"a.cpp", "run(\"select * from sample where id = \" + id);\ntr(\"Update\");\nf(\"DELETE FROM {}\");"}},
                         holds_statement),
              ElementsAre("a.cpp:1", "a.cpp:3"));
  EXPECT_THAT(lines_with({{"a.cpp", "run(\"PRAGMA x\");\nrun(\"PRAGMA \" + x);\n"}}, fills_statement), ElementsAre("a.cpp:2"));
}

TEST(Program, StartsNoProcessAndKnowsNoNetwork) {
  const auto files = source_tree({"core", "ui", "app"});
  ASSERT_GT(files.size(), 300u);
  EXPECT_THAT(lines_with(files, reaches_outside), IsEmpty());
  EXPECT_EQ(project_text("CMakeLists.txt").find("Network"), std::string::npos);
  EXPECT_EQ(project_text("app/build/layers.cmake").find("Network"), std::string::npos);
}

// Statements stand in the .sql files, with places for values. Two write some themselves: `store` the settings of a
// connection, and record_sql what follows from the one table of columns: names of tables and columns, never a value.
TEST(Program, PutsNoStatementTogetherFromTexts) {
  std::vector<SourceFile> store, others;
  for (SourceFile& file : source_tree({"core", "ui", "app"}))
    if (file.path.starts_with("core/store/"))
      store.push_back(std::move(file));
    else if (file.path != "core/history/record_sql.cpp")
      others.push_back(std::move(file));
  EXPECT_THAT(lines_with(others, holds_statement), IsEmpty());
  EXPECT_THAT(lines_with(others, speaks_to_sqlite), IsEmpty()) << "only the store speaks to SQLite";
  EXPECT_THAT(lines_with(store, fills_statement), SizeIs(1)) << "the version of the schema, a number of our own";
}

}  // namespace
}  // namespace prillbook::testing_support
