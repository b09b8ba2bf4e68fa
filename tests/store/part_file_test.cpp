// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/part_file.h"

#include <gtest/gtest.h>

#include <filesystem>

#include "tests/support/files.h"
#include "tests/support/notebook.h"

namespace prillbook::store {
namespace {

namespace fs = std::filesystem;
using testing_support::file_text;

struct PartFile : testing::Test {
  testing_support::TempFolder folder;
  std::string one = folder.file("one"), other = folder.file("other");

  std::size_t files() const {
    const fs::directory_iterator all(folder.path());
    return std::size_t(std::distance(begin(all), end(all)));
  }
};

TEST_F(PartFile, AWholeFileTakesTheNameOfTheOldOne) {
  ASSERT_TRUE(write_whole(one, "old").ok());
  ASSERT_TRUE(write_whole(one, "new").ok());
  EXPECT_EQ(file_text(one), "new");
  EXPECT_EQ(files(), 1u);
}

TEST_F(PartFile, WhereThereIsNoFolderItSaysSo) {
  const auto written = write_whole(folder.file("no/such/folder"), "text");
  ASSERT_FALSE(written.ok());
  EXPECT_EQ(written.error().code, ErrorCode::not_found);
  EXPECT_EQ(files(), 0u);
}

TEST_F(PartFile, AFolderOfThatNameIsLeftAlone) {
  fs::create_directory(one);
  EXPECT_FALSE(write_whole(one, "text").ok());
  EXPECT_TRUE(fs::is_directory(one));
  EXPECT_EQ(files(), 1u);
}

TEST_F(PartFile, AFolderThatCanNotBeReadTakesFiles) {
  {
    const testing_support::ClosedToReaders closed(folder.path());
    std::error_code code;
    const fs::directory_iterator look(folder.path(), code);
    ASSERT_TRUE(code) << "the folder is not closed";
    const auto written = write_whole(one, "text");
    EXPECT_TRUE(written.ok()) << written.error().detail;
  }
  EXPECT_EQ(file_text(one), "text");
}

TEST_F(PartFile, AnExistingFileIsMovedOverOnlyWhereThatIsWanted) {
  ASSERT_TRUE(write_whole(one, "1").ok());
  ASSERT_TRUE(write_whole(other, "2").ok());
  const auto moved = move_into_place(one, other, false);
  ASSERT_FALSE(moved.ok());
  EXPECT_EQ(moved.error().code, ErrorCode::already_exists);
  EXPECT_EQ(file_text(one) + file_text(other), "12");
  ASSERT_TRUE(move_into_place(one, other, true).ok());
  EXPECT_EQ(file_text(other), "1");
  EXPECT_EQ(files(), 1u);
}

TEST_F(PartFile, TwoFilesChangeTheirNames) {
  ASSERT_TRUE(write_whole(one, "1").ok());
  ASSERT_TRUE(write_whole(other, "2").ok());
  ASSERT_TRUE(change_places(one, other).ok());
  EXPECT_EQ(file_text(one) + file_text(other), "21");
  const auto changed = change_places(one, folder.file("gone"));
  ASSERT_FALSE(changed.ok());
  EXPECT_EQ(changed.error().code, ErrorCode::not_found);
  EXPECT_EQ(file_text(one) + file_text(other), "21");
  EXPECT_EQ(files(), 2u);
}

}  // namespace
}  // namespace prillbook::store
