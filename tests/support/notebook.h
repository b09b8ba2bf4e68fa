// SPDX-License-Identifier: GPL-3.0-or-later
// A notebook for a test: in a folder of its own that goes with the test, or in memory.
#pragma once

#include <gtest/gtest.h>

#include <filesystem>
#include <memory>
#include <string>

#include "core/base/clock.h"
#include "core/history/journal.h"
#include "core/store/connection.h"

namespace prillbook::testing_support {

class TempFolder {
 public:
  TempFolder() {
    std::string pattern = (std::filesystem::temp_directory_path() / "prillbook-test-XXXXXX").string();
    path_ = mkdtemp(pattern.data());
  }
  ~TempFolder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
  }
  TempFolder(const TempFolder&) = delete;
  TempFolder& operator=(const TempFolder&) = delete;

  std::string file(const std::string& name) const { return (path_ / name).string(); }
  const std::filesystem::path& path() const { return path_; }

 private:
  std::filesystem::path path_;
};

// 2026-05-04 09:00 at +02:00, one second further at every call.
inline SteppingClock monday_morning() { return SteppingClock(*parse_iso("2026-05-04T09:00:00.000+02:00")); }

struct MemoryNotebook {
  SteppingClock clock = monday_morning();
  std::unique_ptr<store::Connection> connection = store::Connection::in_memory().value();
  std::unique_ptr<history::Journal> journal = history::Journal::open(*connection, clock).value();

  MemoryNotebook() { journal->set_author("HM"); }
};

struct FileNotebook {
  TempFolder folder;
  std::string path = folder.file("lab.prillbook");
  SteppingClock clock = monday_morning();
  std::unique_ptr<store::Connection> connection = store::Connection::create(path).value();
  std::unique_ptr<history::Journal> journal = history::Journal::open(*connection, clock).value();

  FileNotebook() { journal->set_author("HM"); }
};

}  // namespace prillbook::testing_support
