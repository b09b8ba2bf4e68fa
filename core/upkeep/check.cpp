// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/upkeep/check.h"

#include <fmt/format.h>

#include "core/history/contents.h"
#include "core/history/record_sql.h"
#include "core/history/rows.h"
#include "core/history/search_index.h"
#include "core/history/values.h"
#include "core/readings/reading.h"
#include "core/upkeep/statements.h"

namespace prillbook::upkeep {
namespace {

using history::EntitySpec;
using history::Field;
using history::FieldKind;

constexpr long rows_between_looks = 4096;

// Whether a cell says something that its field can say; the history may carry the same wrong value as the table.
void check_cell(const EntitySpec& entity, const Field& field, RecordId record, const store::Value& value,
                store::FaultList& faults) {
  auto outcome = history::check_value(field, value);
  if (outcome && field.kind == FieldKind::reading && !store::is_null(value))
    if (const auto reading = readings::decode(std::get<std::string>(value), *field.measure); !reading) outcome = reading.error();
  if (!outcome) faults.add(fmt::format("{} {}.{}", entity.table, record, field.column), outcome.error().detail);
}

Result<void> check_cells(store::Connection& connection, store::FaultList& faults, const CheckControls& controls) {
  long rows = 0;
  bool stopped = false;
  for (const EntitySpec& entity : history::catalogue()) {
    if (stopped || faults.is_full()) break;
    PRILLBOOK_ASSIGN(const auto fields, history::held_fields(connection, entity));
    if (fields.empty()) continue;
    PRILLBOOK_TRY(connection.rows_derived(history::select_all_sql(entity, fields), {}, [&](const store::Row& row) {
      for (std::size_t i = 0; i < fields.size(); ++i)
        check_cell(entity, *fields[i], row.integer(0), row.value(static_cast<int>(i) + 1), faults);
      if (++rows % rows_between_looks == 0) stopped = controls.cancellation && controls.cancellation->requested();
      return !stopped && !faults.is_full();
    }));
  }
  if (stopped) return Error{ErrorCode::cancelled, "", "the check was stopped", {}};
  return {};
}

Result<void> check_history(store::Connection& connection, CheckReport& report, store::FaultList& faults,
                           const CheckControls& controls) {
  PRILLBOOK_ASSIGN(const history::ChainEnd end, history::verify_chain(connection, faults, controls));
  report.history_rows = end.rows;
  report.head = end.head;
  PRILLBOOK_ASSIGN(report.records, history::verify_replay(connection, faults, controls));
  return {};
}

Result<void> check_what_waits(store::Connection& connection, int version, store::FaultList& faults) {
  constexpr int first_with_them = 12;
  if (version < first_with_them) return {};
  return connection.rows(sql::lists_told_wrongly, {}, [&](const store::Row& row) {
    faults.add(fmt::format("{} {}", row.text(0), row.integer(1)), "does not say what the records say");
    return !faults.is_full();
  });
}

}  // namespace

Result<CheckReport> check_notebook(store::Connection& connection, const CheckControls& controls) {
  CheckReport report;
  store::FaultList faults;
  const auto whole = [&]() -> Result<void> {
    PRILLBOOK_ASSIGN(report.version, connection.version());
    PRILLBOOK_TRY(store::check_structure(connection, faults));
    PRILLBOOK_TRY(store::noting_damage(faults, "history", check_history(connection, report, faults, controls)));
    PRILLBOOK_TRY(store::noting_damage(faults, "tables", check_cells(connection, faults, controls)));
    PRILLBOOK_TRY(store::noting_damage(faults, "search", history::verify_search_index(connection, faults)));
    PRILLBOOK_TRY(store::noting_damage(faults, "what waits", check_what_waits(connection, report.version, faults)));
    return store::noting_damage(faults, "contents", history::verify_contents(connection, faults, controls));
  };
  PRILLBOOK_TRY(store::noting_damage(faults, "file", connection.snapshot(whole)));
  report.faults = faults.all();
  report.found = faults.found();
  return report;
}

Result<CheckReport> check_notebook(const std::string& path, const CheckControls& controls, const std::string& vfs) {
  PRILLBOOK_ASSIGN(const auto connection, store::Connection::open(path, store::Access::read_only, vfs));
  return check_notebook(*connection, controls);
}

Result<void> sound_or_error(const CheckReport& report, const std::string& path) {
  if (report.sound()) return {};
  const store::Fault& first = report.faults.front();
  return Error{ErrorCode::damaged,
               first.where,
               fmt::format("{}: {} {} ({} faults)", path, first.where, first.what, report.found),
               {path, first.where, first.what, std::to_string(report.found)}};
}

}  // namespace prillbook::upkeep
