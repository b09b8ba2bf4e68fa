// SPDX-License-Identifier: GPL-3.0-or-later
// A day's notebook as a file, to be damaged: its bytes, and what it holds.
#pragma once

#include <gtest/gtest.h>

#include <string>

#include "core/exchange/notebook_dump.h"
#include "core/store/backup.h"
#include "tests/support/files.h"
#include "tests/support/lab_day.h"
#include "tests/support/notebook.h"

namespace prillbook::testing_support {

class DayOnDisk : public testing::Test {
 protected:
  TempFolder folder;
  std::string path = folder.file("lab.prillbook");
  std::string bytes;
  std::string dump;

  void SetUp() override {
    {
      SteppingClock clock(Instant{});
      const auto connection = store::Connection::create(path).value();
      const auto journal = history::Journal::open(*connection, clock).value();
      const auto day = lab_day();
      for (std::size_t i = 0; i < day.size(); ++i) ASSERT_TRUE(do_gesture(*journal, clock, day, i).ok());
      dump = exchange::dump_notebook(*connection).value();
    }
    bytes = file_text(path);
  }
  // Other bytes in the place of the notebook, and nothing left beside it.
  void put(const std::string& text) {
    store::discard(path);
    write_file(path, text);
  }
};

}  // namespace prillbook::testing_support
