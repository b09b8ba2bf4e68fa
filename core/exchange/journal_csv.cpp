// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/journal_csv.h"

#include <array>
#include <cerrno>
#include <fstream>

#include "core/exchange/csv.h"
#include "core/store/part_file.h"

namespace prillbook::exchange {
namespace {

constexpr std::size_t lines_at_once = 1000;

using EntryCells = std::array<std::string, 12>;

EntryCells entry_heads() {
  return {"entry", "change_set", "when", "who", "gesture", "kind", "record", "field", "old", "new", "why", "standing"};
}

EntryCells entry_cells(versions::Names& names, const versions::Version& version) {
  const history::HistoryRow& row = version.row;
  const versions::Words words = versions::words_of(names, row);
  return {std::to_string(row.id),
          std::to_string(row.change_set),
          to_iso(row.when),
          not_run(row.who),
          not_run(row.gesture),
          words.kind,
          not_run(words.record),
          words.field,
          not_run(words.old_text),
          not_run(words.new_text),
          not_run(row.why.value_or("")),
          versions::standing_name(version)};
}

Result<JournalList> write_entries(store::Connection& connection, const versions::JournalFilter& filter, std::ostream& out,
                                  const Cancellation* cancellation) {
  JournalList list;
  versions::JournalReader reader(connection, filter);
  versions::Names names(connection);
  for (bool end = false; !end && out;) {
    if (cancellation && cancellation->requested()) return Error{ErrorCode::cancelled, "", "the list was stopped", {}};
    PRILLBOOK_ASSIGN(const auto page, reader.next(lines_at_once));
    for (const versions::Version& version : page.versions) out << csv_record(entry_cells(names, version));
    list.lines += std::int64_t(page.versions.size());
    end = page.end;
  }
  return list;
}

}  // namespace

Result<JournalList> write_journal(store::Connection& connection, const versions::JournalFilter& filter, const std::string& path,
                                  const Cancellation* cancellation) {
  std::ofstream out(store::part_path(path), std::ios::binary | std::ios::trunc);
  if (!out) return store::file_fault(errno, path);
  out << csv_record(entry_heads());
  auto list = write_entries(connection, filter, out, cancellation);
  out.close();
  if (list && !out) list = store::file_fault(errno ? errno : ENOSPC, path);
  if (!list) {
    store::drop_part(path);
    return list;
  }
  PRILLBOOK_TRY(store::finish_part(path));
  return list;
}

}  // namespace prillbook::exchange
