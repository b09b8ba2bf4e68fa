// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/upkeep/sealed.h"

#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>

#include "tests/support/notebook.h"

namespace prillbook::upkeep {
namespace {

namespace fs = std::filesystem;

constexpr const char* words = "the adit is wet in May";

class SealedTest : public testing::Test {
 protected:
  testing_support::TempFolder folder;
  std::string plain = folder.file("lab.prillbook"), copy = folder.file("lab.sealed"), opened = folder.file("opened.prillbook");

  static std::string read(const std::string& path) {
    std::ifstream file(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), {}};
  }
  static void write(const std::string& path, const std::string& bytes) { std::ofstream(path, std::ios::binary) << bytes; }
  std::size_t files() { return std::size_t(std::distance(fs::directory_iterator(folder.path()), fs::directory_iterator())); }
};

TEST_F(SealedTest, WhatIsSealedOpensAgainAtEveryLength) {
  for (const std::size_t length : {std::size_t(0), std::size_t(1), std::size_t(65535), std::size_t(65536), std::size_t(150000)}) {
    std::string bytes(length, '\0');
    for (std::size_t i = 0; i < length; ++i) bytes[i] = char(i * 7 % 251);
    write(plain, bytes);
    fs::remove(copy), fs::remove(opened);
    ASSERT_TRUE(seal(plain, copy, words).ok()) << length;
    EXPECT_TRUE(is_sealed(copy));
    EXPECT_FALSE(is_sealed(plain));
    ASSERT_TRUE(unseal(copy, opened, words).ok()) << length;
    EXPECT_EQ(read(opened), bytes) << length;
  }
}

TEST_F(SealedTest, NothingOfTheNotebookCanBeReadInTheCopyAndTwoCopiesDiffer) {
  write(plain, "SQLite format 3, client Larch Adit Syndicate");
  ASSERT_TRUE(seal(plain, copy, words).ok());
  ASSERT_TRUE(seal(plain, folder.file("again.sealed"), words).ok());
  EXPECT_EQ(read(copy).find("Larch"), std::string::npos);
  EXPECT_NE(read(copy), read(folder.file("again.sealed")));
  EXPECT_EQ(fs::status(copy).permissions() & (fs::perms::group_all | fs::perms::others_all), fs::perms::none);
}

TEST_F(SealedTest, AnotherPassphraseOpensNothingAndLeavesNothing) {
  write(plain, std::string(1000, 'x'));
  ASSERT_TRUE(seal(plain, copy, words).ok());
  const auto before = files();
  const auto other = unseal(copy, opened, "the adit is dry in May");
  ASSERT_FALSE(other.ok());
  EXPECT_EQ(other.error().field, "passphrase");
  EXPECT_EQ(files(), before);
  EXPECT_EQ(seal(plain, folder.file("short.sealed"), "gold").error().code, ErrorCode::too_small);
}

TEST_F(SealedTest, AChangedOrCutCopyIsRefused) {
  write(plain, std::string(140000, 'x'));
  ASSERT_TRUE(seal(plain, copy, words).ok());
  const std::string whole = read(copy);
  const std::string broken = folder.file("broken.sealed");
  // The salt, the head of the stream, each of the three pieces, the last byte.
  for (const std::size_t at : {std::size_t(40), std::size_t(60), std::size_t(100), std::size_t(70000), whole.size() - 1}) {
    std::string bytes = whole;
    bytes[at] = char(bytes[at] ^ 1);
    write(broken, bytes);
    EXPECT_FALSE(unseal(broken, opened, words).ok()) << at;
    EXPECT_FALSE(fs::exists(opened)) << at;
  }
  for (const std::size_t length : {std::size_t(0), std::size_t(30), std::size_t(75), std::size_t(75 + 65553), whole.size() - 1}) {
    write(broken, whole.substr(0, length));
    EXPECT_FALSE(unseal(broken, opened, words).ok()) << length;
  }
  write(broken, whole + "x");
  EXPECT_EQ(unseal(broken, opened, words).error().code, ErrorCode::damaged);
}

TEST_F(SealedTest, AFileThatAsksForTooMuchWorkIsRefusedAtOnce) {
  write(plain, "x");
  ASSERT_TRUE(seal(plain, copy, words).ok());
  std::string bytes = read(copy);
  bytes[19 + 8 + 6] = '\x7f';  // memory, its seventh byte
  write(copy, bytes);
  EXPECT_EQ(unseal(copy, opened, words).error().code, ErrorCode::out_of_range);
}

TEST_F(SealedTest, WhatStandsThereAlreadyStays) {
  write(plain, "x"), write(copy, "older");
  EXPECT_EQ(seal(plain, copy, words).error().code, ErrorCode::already_exists);
  EXPECT_EQ(read(copy), "older");
  EXPECT_EQ(seal(folder.file("nowhere"), folder.file("y"), words).error().code, ErrorCode::not_found);
}

}  // namespace
}  // namespace prillbook::upkeep
