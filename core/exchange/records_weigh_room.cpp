// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include "core/exchange/record_loader.h"
#include "core/fire/runs.h"
#include "core/weighing/check_weights.h"

namespace prillbook::exchange {

namespace fields = history::fields;

Result<void> Loader::check_weight(RecordReader reader) {
  PRILLBOOK_ASSIGN(const std::string name, reader.text("name"));
  PRILLBOOK_ASSIGN(const readings::Figure nominal, reader.figure("nominal", Measure::mass, "g"));
  PRILLBOOK_ASSIGN(const readings::Figure allowed, reader.figure("allowed", Measure::mass, "mg"));
  if (!nominal || !allowed)
    return reader.input().error(ErrorCode::missing_key, nominal ? "allowed" : "nominal",
                                "a check weight needs its mass and limit");
  const auto made = weighing::add_check_weight(set_, name, *nominal, *allowed);
  if (!made) return reader.placed(made.error());
  PRILLBOOK_TRY(text(reader, fields::check_weight::remarks, made->value));
  PRILLBOOK_TRY(each(reader, "checks", [&](const RecordReader& one) { return check_weighing(one, *made); }));
  return reader.finish();
}

Result<void> Loader::check_weighing(RecordReader reader, CheckWeightId weight) {
  weighing::NewCheckWeighing fresh{{}, weight, {}, {}, {}, {}};
  PRILLBOOK_ASSIGN(fresh.balance, reader.balance("balance"));
  PRILLBOOK_ASSIGN(const readings::Figure mass, reader.figure("mass", Measure::mass, "g"));
  if (!mass) return reader.input().error(ErrorCode::missing_key, "mass", reader.input().path_of("mass") + " is missing");
  fresh.mass = *mass;
  PRILLBOOK_ASSIGN(fresh.weighed_at, reader.instant("weighed_at"));
  PRILLBOOK_ASSIGN(fresh.weighed_by, reader.person("weighed_by"));
  PRILLBOOK_ASSIGN(fresh.raw, reader.optional_text("raw"));
  const auto made = weighing::weigh_check(set_, fresh);
  if (!made) return reader.placed(made.error());
  for (const history::Field* field : {&fields::check_weighing::excluded, &fields::check_weighing::remarks})
    PRILLBOOK_TRY(text(reader, *field, made->value));
  return reader.finish();
}

Result<void> Loader::tray(RecordReader reader) {
  trays::NewTray fresh;
  PRILLBOOK_ASSIGN(fresh.name, reader.text("name"));
  PRILLBOOK_ASSIGN(const auto kind, reader.optional_text("kind"));
  if (kind && !trays::find_kind(*kind))
    return reader.input().error(ErrorCode::out_of_range, "kind", fmt::format("'{}' is no kind of tray", *kind));
  if (kind) fresh.kind = *trays::find_kind(*kind);
  PRILLBOOK_ASSIGN(const auto rows, reader.whole("rows"));
  PRILLBOOK_ASSIGN(const auto columns, reader.whole("columns"));
  fresh.grid = {rows.value_or(fresh.grid.rows), columns.value_or(fresh.grid.columns)};
  const auto made = trays::lay_out(set_, fresh);
  if (!made) return reader.placed(made.error());
  PRILLBOOK_TRY(text(reader, fields::tray::remarks, made->value));
  PRILLBOOK_ASSIGN(const auto run, reader.optional_text("run"));
  if (run) {
    const auto named = fire::run_by_name(set_.connection(), *run);
    if (!named) return reader.placed(named.error());
    if (const auto loaded = trays::load_into(set_, *made, named->id); !loaded) return reader.placed(loaded.error());
  }
  PRILLBOOK_TRY(each(reader, "controls", [&](RecordReader one) -> Result<void> {
    PRILLBOOK_ASSIGN(const auto position, one.whole("position"));
    PRILLBOOK_ASSIGN(const std::string control, one.text("control"));
    const auto placed = trays::place(set_, *made, position.value_or(0), {{}, {}, control});
    if (!placed) return one.placed(placed.error());
    return one.finish();
  }));
  return reader.finish();
}

// What changed its position on a tray, or two that changed places.
Result<void> Loader::tray_move(RecordReader reader) {
  PRILLBOOK_ASSIGN(const std::string name, reader.text("tray"));
  const auto tray = trays::tray_by_name(set_.connection(), name);
  if (!tray) return reader.placed(tray.error());
  PRILLBOOK_ASSIGN(const auto from, reader.whole("from"));
  PRILLBOOK_ASSIGN(const auto to, reader.whole("to"));
  PRILLBOOK_ASSIGN(const std::string why, reader.text("why"));
  PRILLBOOK_ASSIGN(const trays::Tray held, trays::tray(set_.connection(), *tray));
  const bool taken = held.at(to.value_or(0));
  const auto written = taken ? trays::swap(set_, *tray, from.value_or(0), to.value_or(0), why)
                             : trays::move(set_, *tray, from.value_or(0), to.value_or(0), why);
  set_.because(std::nullopt);
  if (!written) return reader.placed(written.error());
  return reader.finish();
}

// Where a charge, or the bead of a pan test, stands.
Result<void> Loader::on_trays(RecordReader& reader, const trays::Thing& thing) {
  return each(reader, "on_trays", [&](RecordReader one) -> Result<void> {
    PRILLBOOK_ASSIGN(const std::string name, one.text("tray"));
    PRILLBOOK_ASSIGN(const auto position, one.whole("position"));
    const auto tray = trays::tray_by_name(set_.connection(), name);
    if (!tray) return one.placed(tray.error());
    const auto placed = trays::place(set_, *tray, position.value_or(0), thing);
    if (!placed) return one.placed(placed.error());
    return one.finish();
  });
}

}  // namespace prillbook::exchange
