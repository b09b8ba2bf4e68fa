// SPDX-License-Identifier: GPL-3.0-or-later
// Is the file a sound database with the schema its version should have? What the values say is looked at elsewhere:
// SQLite's own check passes many a changed figure.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"
#include "core/store/connection.h"

namespace prillbook::store {

struct Fault {
  std::string where;  // "history 12", "sample 7.mass_received", "schema", "file"
  std::string what;   // English

  friend bool operator==(const Fault&, const Fault&) = default;
};

// Faults as they are found, up to a limit: a file that is damaged all over is not told line by line.
class FaultList {
 public:
  static constexpr std::size_t most = 200;
  void add(std::string where, std::string what);
  bool is_full() const { return faults_.size() >= most; }
  bool empty() const { return faults_.empty(); }
  const std::vector<Fault>& all() const { return faults_; }
  // How many were found altogether.
  std::size_t found() const { return found_; }

 private:
  std::vector<Fault> faults_;
  std::size_t found_ = 0;
};

// Runs one part of a check. A file too damaged to be read on is a fault of the notebook; other errors end the check.
Result<void> noting_damage(FaultList& faults, std::string_view where, const Result<void>& outcome);

// integrity_check, foreign_key_check, application_id, and the schema text against what the migrations give for this
// user_version. Errors: newer_version, cancelled and faults of the disk; damage is in the list.
Result<void> check_structure(Connection& connection, FaultList& faults);

// Names of the columns of a table, in order; empty where there is no such table.
Result<std::vector<std::string>> columns_of(Connection& connection, const std::string& table);

}  // namespace prillbook::store
