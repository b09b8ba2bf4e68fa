// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include "core/exchange/record_loader.h"
#include "core/fire/design_record.h"
#include "core/fire/runs.h"

namespace prillbook::exchange {

using readings::cell_of;
using readings::Figure;
namespace fields = history::fields;

Result<void> Loader::lot(RecordReader reader) {
  namespace f = fields::lot;
  PRILLBOOK_ASSIGN(const std::string name, reader.text("name"));
  PRILLBOOK_ASSIGN(const std::string kind, reader.text("kind"));
  const auto made = fire::add_lot(set_, name, kind);
  if (!made) return reader.placed(made.error());
  PRILLBOOK_TRY(instant(reader, f::made_at, made->value));
  PRILLBOOK_ASSIGN(const PersonId by, reader.person("made_by"));
  if (by) PRILLBOOK_TRY(set_.set(f::made_by, made->value, cell_of(by)));
  PRILLBOOK_TRY(text(reader, f::mixture, made->value));
  PRILLBOOK_TRY(figure(reader, f::silver, made->value, "mg/100 g"));
  PRILLBOOK_TRY(instant(reader, f::used_up_at, made->value));
  PRILLBOOK_TRY(text(reader, f::remarks, made->value));
  return reader.finish();
}

Result<void> Loader::pot(RecordReader reader) {
  namespace f = fields::pot;
  PRILLBOOK_ASSIGN(const std::string name, reader.text("name"));
  const auto made = fire::add_pot(set_, name);
  if (!made) return reader.placed(made.error());
  PRILLBOOK_TRY(whole(reader, f::millilitres, made->value));
  PRILLBOOK_TRY(instant(reader, f::broken_at, made->value));
  PRILLBOOK_TRY(text(reader, f::remarks, made->value));
  return reader.finish();
}

Result<void> Loader::recipe(RecordReader reader) {
  namespace f = fields::recipe;
  PRILLBOOK_ASSIGN(const std::string name, reader.text("name"));
  const auto made = fire::add_recipe(set_, name);
  if (!made) return reader.placed(made.error());
  for (const history::Field* field : {&f::ore, &f::litharge, &f::soda_ash, &f::borax, &f::silica, &f::flour, &f::nitre, &f::flux})
    PRILLBOOK_TRY(figure(reader, *field, made->value, "g"));
  PRILLBOOK_ASSIGN(const LotId flux_lot, lot_named(reader, "flux_lot"));
  if (flux_lot) PRILLBOOK_TRY(set_.set(f::flux_lot, made->value, cell_of(flux_lot)));
  PRILLBOOK_TRY(text(reader, f::remarks, made->value));
  return reader.finish();
}

Result<void> Loader::furnace_run(RecordReader reader) {
  namespace f = fields::furnace_run;
  fire::NewRun fresh;
  PRILLBOOK_ASSIGN(fresh.name, reader.text("name"));
  PRILLBOOK_ASSIGN(fresh.kind, reader.text("kind"));
  PRILLBOOK_ASSIGN(fresh.by, reader.person("run_by"));
  const auto made = fire::start_run(set_, fresh);
  if (!made) return reader.placed(made.error());
  for (const history::Field* field : {&f::began_at, &f::ended_at}) PRILLBOOK_TRY(instant(reader, *field, made->value));
  for (const history::Field* field : {&f::set_c, &f::places}) PRILLBOOK_TRY(whole(reader, *field, made->value));
  PRILLBOOK_TRY(text(reader, f::remarks, made->value));
  PRILLBOOK_TRY(each(reader, "temperatures", [&](const RecordReader& one) { return temperature(one, *made); }));
  PRILLBOOK_TRY(each(reader, "proofs", [&](const RecordReader& one) { return proof(one, *made); }));
  return reader.finish();
}

Result<void> Loader::temperature(RecordReader reader, FurnaceRunId run) {
  fire::NewReading fresh{run, {}, {}, {}, {}};
  PRILLBOOK_ASSIGN(fresh.read_at, reader.instant("read_at"));
  PRILLBOOK_ASSIGN(fresh.set_c, reader.whole("set_c"));
  PRILLBOOK_ASSIGN(fresh.read_c, reader.whole("read_c"));
  PRILLBOOK_ASSIGN(fresh.remarks, reader.optional_text("remarks"));
  if (const auto made = fire::note_temperature(set_, fresh); !made) return reader.placed(made.error());
  return reader.finish();
}

Result<void> Loader::proof(RecordReader reader, FurnaceRunId run) {
  namespace f = fields::proof;
  const auto made = fire::add_proof(set_, run);
  if (!made) return reader.placed(made.error());
  PRILLBOOK_TRY(figure(reader, f::lead, made->value, "g"));
  for (const history::Field* field : {&f::gold_in, &f::silver_in, &f::bead, &f::gold_out})
    PRILLBOOK_TRY(figure(reader, *field, made->value, "mg"));
  PRILLBOOK_TRY(text(reader, f::remarks, made->value));
  return reader.finish();
}

Result<void> Loader::reducing_test(RecordReader reader, SampleId sample) {
  namespace f = fields::reducing_test;
  PRILLBOOK_ASSIGN(const auto key, reader.optional_text("key"));
  PRILLBOOK_ASSIGN(const PersonId by, reader.person("done_by"));
  const auto made = fire::start_reducing_test(set_, sample, by);
  if (!made) return reader.placed(made.error());
  if (key) reducing_tests_[*key] = *made;
  PRILLBOOK_TRY(instant(reader, f::done_at, made->value));
  for (const history::Field* field : {&f::ore, &f::litharge, &f::soda_ash, &f::button})
    PRILLBOOK_TRY(figure(reader, *field, made->value, "g"));
  PRILLBOOK_TRY(text(reader, f::remarks, made->value));
  PRILLBOOK_ASSIGN(const fire::ReducingTest held, fire::reducing_test(set_.connection(), *made));
  if (const auto power = fire::power_of(held); !power) return reader.placed(power.error());
  return reader.finish();
}

Result<void> Loader::charge_design(RecordReader reader, PortionId portion) {
  namespace f = fields::charge_design;
  for (const history::Field* field : {&f::ore_kind, &f::sulphides, &f::remarks}) {
    PRILLBOOK_ASSIGN(const auto words, reader.optional_text(field->column));
    if (!words) continue;
    if (const auto written = fire::set_design(set_, portion, *field, cell_of(words)); !written)
      return reader.placed(written.error());
  }
  for (const auto& [field, unit] :
       {std::pair(&f::silica_share, "%"), std::pair(&f::button_target, "g"), std::pair(&f::cupel, "g")}) {
    PRILLBOOK_ASSIGN(const Figure value, reader.figure(field->column, *field->measure, unit));
    if (value) PRILLBOOK_TRY(fire::set_design(set_, portion, *field, cell_of(value)));
  }
  PRILLBOOK_ASSIGN(const auto test, reader.optional_text("reducing_test"));
  if (test) {
    const auto found = reducing_tests_.find(*test);
    if (found == reducing_tests_.end())
      return reader.input().error(ErrorCode::not_found, "reducing_test", fmt::format("no test above has the key {}", *test));
    PRILLBOOK_TRY(fire::set_design(set_, portion, f::reducing_test, cell_of(found->second)));
  }
  return reader.finish();
}

Result<LotId> Loader::lot_named(RecordReader& reader, std::string_view key) {
  PRILLBOOK_ASSIGN(const auto name, reader.optional_text(key));
  if (!name) return LotId{};
  const auto found = fire::lot_by_name(set_.connection(), *name);
  if (!found) return reader.placed(found.error());
  return found->id;
}

// What stands with a charge about its flux, its pot and its cupel.
Result<void> Loader::at_the_furnace(RecordReader& reader, ChargeId id) {
  namespace f = fields::charge;
  PRILLBOOK_ASSIGN(const auto both, reader.optional_text("flour_and_nitre"));
  if (both) PRILLBOOK_TRY(fire::set_flour_and_nitre(set_, id, both));
  for (const history::Field* field : {&f::litharge, &f::soda_ash, &f::borax, &f::silica, &f::flour, &f::nitre, &f::flux}) {
    PRILLBOOK_ASSIGN(const Figure mass, reader.figure(field->column, Measure::mass, "g"));
    if (!mass) continue;
    if (const auto written = fire::set_reagent(set_, id, *field, mass); !written) return reader.placed(written.error());
  }
  for (const auto& [field, key] :
       {std::pair(&f::litharge_lot, "litharge_lot"), std::pair(&f::flux_lot, "flux_lot"), std::pair(&f::lead_lot, "lead_lot")}) {
    PRILLBOOK_ASSIGN(const LotId named, lot_named(reader, key));
    if (!named) continue;
    if (const auto written = fire::set_lot(set_, id, *field, named); !written) return reader.placed(written.error());
  }
  const auto refer = [&](const char* key, const history::Field& field, const auto& by_name) -> Result<void> {
    PRILLBOOK_ASSIGN(const auto name, reader.optional_text(key));
    if (!name) return {};
    const auto found = by_name(set_.connection(), *name);
    if (!found) return reader.placed(found.error());
    return set_.set(field, id.value, cell_of(found->id));
  };
  PRILLBOOK_TRY(refer("recipe", f::recipe, fire::recipe_by_name));
  PRILLBOOK_TRY(refer("pot", f::pot, fire::pot_by_name));
  PRILLBOOK_TRY(refer("fusion_run", f::fusion_run, fire::run_by_name));
  PRILLBOOK_TRY(refer("cupellation_run", f::cupellation_run, fire::run_by_name));
  for (const history::Field* field : {&f::lead_added, &f::cupel}) PRILLBOOK_TRY(figure(reader, *field, id.value, "g"));
  PRILLBOOK_TRY(text(reader, f::cupel_kind, id.value));
  for (const history::Field* field : {&f::fusion_signs, &f::cupellation_signs}) {
    PRILLBOOK_ASSIGN(const auto signs, reader.optional_text(field->column));
    if (!signs) continue;
    if (const auto written = fire::set_signs(set_, id, *field, *signs); !written) return reader.placed(written.error());
  }
  return {};
}

}  // namespace prillbook::exchange
