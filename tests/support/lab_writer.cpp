// SPDX-License-Identifier: GPL-3.0-or-later
// lab_writer FILE: writes gestures until it is killed and tells of each accepted one, "change-set hash", on a line.
#include <fmt/format.h>
#include <unistd.h>

#include <string>

#include "core/history/fields.h"
#include "core/history/journal.h"
#include "core/store/writer_lock.h"

namespace {

using namespace prillbook;

Result<void> write_for_ever(const std::string& path) {
  SystemClock clock;
  PRILLBOOK_ASSIGN(const auto lock, store::WriterLock::take(path, clock.now()));
  PRILLBOOK_ASSIGN(const auto connection, store::Connection::open(path, store::Access::read_write));
  PRILLBOOK_ASSIGN(const auto journal, history::Journal::open(*connection, clock));
  std::int64_t change_set = 0;
  journal->listen([&](const history::Written& written) { change_set = written.change_set; });
  for (;;) {
    const auto added = journal->record("add clients", [](history::ChangeSet& set) -> Result<void> {
      for (int i = 0; i < 3; ++i)
        PRILLBOOK_TRY(set.make(history::Entity::client, {{history::fields::client::name, "Larch Adit Syndicate"},
                                                         {history::fields::client::remarks, std::string(500, 'r')}}));
      return {};
    });
    if (!added) return added;
    const std::string line = fmt::format("{} {}\n", change_set, history::hex(journal->head()));
    if (write(STDOUT_FILENO, line.data(), line.size()) < 0) return {};
  }
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 2) return 2;
  const auto outcome = write_for_ever(argv[1]);
  if (!outcome) fmt::print(stderr, "{}\n", outcome.error().detail);
  return 1;
}
