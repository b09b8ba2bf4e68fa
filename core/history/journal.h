// SPDX-License-Identifier: GPL-3.0-or-later
// The way in: every change of a notebook is written here together with its history rows, in one transaction.
#pragma once

#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/clock.h"
#include "core/base/id.h"
#include "core/base/result.h"
#include "core/history/catalogue.h"
#include "core/history/chain.h"
#include "core/store/connection.h"

namespace prillbook::history {

using store::Value;

// A field and what it is to hold.
struct Setting {
  const Field& field;
  Value value;
};

struct Change {
  Entity entity;
  RecordId record;
  std::int64_t field;  // 0: made
};

// What one gesture wrote; listeners get it after the commit.
struct Written {
  std::int64_t change_set = 0;
  std::string gesture;
  std::string who;
  Instant when;
  std::vector<Change> changes;
};

class Journal;

// One gesture being written. Handed out by Journal::record only.
class ChangeSet {
 public:
  // Makes a record; fields not named are absent. Errors: missing_key (a required field), out_of_range (a choice),
  // inconsistent (a reference or a rule of the schema), already_exists (a number that is taken).
  Result<RecordId> make(Entity entity, const std::vector<Setting>& settings);
  // Writes one field; nothing is written where the value is the same. Errors as make; not_found.
  Result<void> set(const Field& field, RecordId record, Value value);
  store::Connection& connection();
  const Instant& when() const { return written_.when; }
  // The reason that stands beside every row written from here on; none again with nullopt.
  void because(std::optional<std::string> why) { why_ = std::move(why); }

 private:
  friend class Journal;
  ChangeSet(Journal& journal, std::string gesture, std::optional<std::int64_t> takes_back);
  Result<void> append(Entity entity, RecordId record, std::int64_t field, Value old_value, Value new_value);

  Journal& journal_;
  Written written_;
  std::optional<std::int64_t> takes_back_;
  std::optional<std::string> why_;
  std::map<Entity, RecordId> next_ids_;  // 0: not asked yet; nobody else can write while the gesture is
};

class Journal {
 public:
  // `connection` and `clock` must outlive the journal. Errors: damaged where the end of the history can't be read.
  static Result<std::unique_ptr<Journal>> open(store::Connection& connection, Clock& clock);

  store::Connection& connection() { return connection_; }
  Clock& clock() { return clock_; }
  // Initials that stand beside entries from now on; empty until somebody has said who works.
  void set_author(std::string initials) { author_ = std::move(initials); }
  const std::string& author() const { return author_; }

  // Runs `write` in one transaction. Where it returns an error the notebook is as before, but for one: the field
  // "commit_done" says that the gesture stands in the file, and that a disk which reported a fault may lose it in a power cut.
  Result<void> record(std::string_view gesture, const std::function<Result<void>(ChangeSet&)>& write);
  // The same for a write that gives a value.
  template <class T, class Write>
  Result<T> record_for(std::string_view gesture, Write&& write) {
    std::optional<T> made;
    PRILLBOOK_TRY(record(gesture, [&](ChangeSet& set) -> Result<void> {
      PRILLBOOK_ASSIGN(made, write(set));
      return {};
    }));
    return *std::move(made);
  }

  // Takes back the newest change set of this session, or puts back what was taken back, as new rows.
  // Errors: not_found where there is nothing, changed_since where a later change stands in the way.
  Result<Written> undo();
  Result<Written> redo();
  bool can_undo() const { return !undoable_.empty(); }
  bool can_redo() const { return !redoable_.empty(); }

  using Listener = std::function<void(const Written&)>;
  // The listener stays for the life of the journal.
  void listen(Listener listener) { listeners_.push_back(std::move(listener)); }

  // Hash of the newest history row; all zero for a notebook without history.
  const Hash& head() const { return head_; }

 private:
  friend class ChangeSet;
  Journal(store::Connection& connection, Clock& clock) : connection_(connection), clock_(clock) {}
  Result<void> read_end();
  Result<Written> write(std::string_view gesture, std::optional<std::int64_t> takes_back,
                        const std::function<Result<void>(ChangeSet&)>& body);
  Result<Written> revert(std::int64_t change_set, std::string_view gesture);

  store::Connection& connection_;
  Clock& clock_;
  std::string author_;
  std::vector<Listener> listeners_;
  Hash head_{};
  bool has_search_ = false;
  std::int64_t last_row_ = 0;
  std::int64_t last_change_set_ = 0;
  std::vector<std::int64_t> undoable_;
  std::vector<std::int64_t> redoable_;
};

// Hash of the newest history row, read from the file; all zero where there is none.
Result<Hash> head_of(store::Connection& connection);

// The fields of a newly made record as they stand in the history: {"2":"26-0001","4":12}, by code, absent ones left out.
std::string made_text(const std::vector<Setting>& settings);

}  // namespace prillbook::history
