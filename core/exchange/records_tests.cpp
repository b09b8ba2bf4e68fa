// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include "core/exchange/record_loader.h"
#include "core/fire/charge_record.h"
#include "core/gravity/metallics_record.h"
#include "core/gravity/pan_test.h"
#include "core/gravity/panning.h"
#include "core/lab/lab.h"
#include "core/weighing/bead.h"
#include "core/weighing/in_water.h"

namespace prillbook::exchange {

using readings::cell_of;
using readings::Figure;
namespace fields = history::fields;

Result<portions::NewPortion> Loader::portion_head(RecordReader& reader, SampleId sample, PortionId parent) {
  portions::NewPortion fresh{sample, parent, {}, {}, {}, {}, {}};
  PRILLBOOK_ASSIGN(fresh.purpose, reader.text("purpose"));
  PRILLBOOK_ASSIGN(fresh.mass, reader.figure("mass", Measure::mass, "g"));
  PRILLBOOK_ASSIGN(const BalanceId balance, reader.balance("balance"));
  PRILLBOOK_ASSIGN(fresh.remarks, reader.optional_text("remarks"));
  if (fresh.mass && balance) {
    auto on_balance = lab::on_balance(set_.connection(), *fresh.mass, balance);
    if (!on_balance) return reader.placed(on_balance.error());
    fresh.mass = *std::move(on_balance);
  }
  return fresh;
}

Result<void> Loader::portion(RecordReader reader, SampleId sample, PortionId parent) {
  PRILLBOOK_ASSIGN(portions::NewPortion fresh, portion_head(reader, sample, parent));
  PRILLBOOK_ASSIGN(fresh.cut_at, reader.instant("cut_at"));
  PRILLBOOK_ASSIGN(fresh.cut_by, reader.person("cut_by"));
  const auto id = portions::cut(set_, fresh);
  if (!id) return reader.placed(id.error());
  return portion_rest(reader, sample, *id);
}

Result<void> Loader::portion_rest(RecordReader& reader, SampleId sample, PortionId id) {
  PRILLBOOK_TRY(tests_of(reader, sample, id));
  return reader.finish();
}

// What was done with a portion, and what was cut from it.
Result<void> Loader::tests_of(RecordReader& reader, SampleId sample, PortionId portion_id) {
  ++loaded_.portions;
  PRILLBOOK_ASSIGN(const auto pan, reader.object("pan_test"));
  if (pan) PRILLBOOK_TRY(pan_test(*pan, portion_id));
  PRILLBOOK_ASSIGN(const auto design, reader.object("charge_design"));
  if (design) PRILLBOOK_TRY(charge_design(*design, portion_id));
  PRILLBOOK_ASSIGN(const auto fire, reader.object("charge"));
  if (fire) PRILLBOOK_TRY(charge(*fire, portion_id));
  PRILLBOOK_ASSIGN(const auto screened, reader.object("metallics"));
  if (screened) PRILLBOOK_TRY(metallics(*screened, sample, portion_id));
  PRILLBOOK_ASSIGN(const auto sieved, reader.object("sieve_analysis"));
  if (sieved) PRILLBOOK_TRY(sieve_analysis(*sieved, sample, portion_id));
  PRILLBOOK_TRY(each(reader, "steps", [&](const RecordReader& one) { return step(one, sample, portion_id); }));
  return each(reader, "portions", [&](const RecordReader& one) { return portion(one, sample, portion_id); });
}

Result<void> Loader::pan_test(RecordReader reader, PortionId portion) {
  namespace f = fields::pan_test;
  gravity::NewPanTest fresh{portion, {}, {}, {}};
  PRILLBOOK_ASSIGN(fresh.panned_at, reader.instant("panned_at"));
  PRILLBOOK_ASSIGN(fresh.panned_by, reader.person("panned_by"));
  PRILLBOOK_ASSIGN(fresh.grind, reader.figure("grind", Measure::opening, "µm"));
  const auto started = gravity::start_pan_test(set_, fresh);
  if (!started) return reader.placed(started.error());
  ++loaded_.pan_tests;
  const RecordId id = started->test.value;
  PRILLBOOK_TRY(figure(reader, f::largest_colour, id, "µm"));
  PRILLBOOK_TRY(figure(reader, f::free_gold, id, "mg"));
  PRILLBOOK_TRY(figure(reader, f::magnetite, id, "g"));
  for (const history::Field* field : {&f::colours_coarse, &f::colours_middle, &f::colours_fine}) {
    PRILLBOOK_ASSIGN(const auto count, reader.whole(field->column));
    if (count) PRILLBOOK_TRY(set_.set(*field, id, *count));
  }
  PRILLBOOK_TRY(each(reader, "pannings", [&](const RecordReader& one) { return panning(one, started->test); }));
  for (const history::Field* field :
       {&f::colours, &f::black_sand, &f::sulphides, &f::bead_by, &f::mercury, &f::spoiled, &f::excluded, &f::remarks})
    PRILLBOOK_TRY(text(reader, *field, id));
  PRILLBOOK_TRY(role_of_pan_test(reader, started->test));
  PRILLBOOK_TRY(on_trays(reader, {{}, started->bead, {}}));
  PRILLBOOK_ASSIGN(const auto its_bead, reader.object("bead"));
  if (its_bead) PRILLBOOK_TRY(bead(*its_bead, started->bead));
  return reader.finish();
}

Result<void> Loader::panning(RecordReader reader, PanTestId test) {
  gravity::NewPanning fresh{test, {}, {}, {}, {}};
  PRILLBOOK_ASSIGN(fresh.kind, reader.text("kind"));
  PRILLBOOK_ASSIGN(fresh.panned_at, reader.instant("panned_at"));
  PRILLBOOK_ASSIGN(fresh.panned_by, reader.person("panned_by"));
  PRILLBOOK_ASSIGN(fresh.concentrate, reader.figure("concentrate", Measure::mass, "g"));
  const auto made = gravity::add_panning(set_, fresh);
  if (!made) return reader.placed(made.error());
  PRILLBOOK_TRY(text(reader, fields::panning::remarks, made->value));
  return reader.finish();
}

// The coarse and the fine part are portions of their own: charges and portions stand under them.
Result<void> Loader::metallics(RecordReader reader, SampleId sample, PortionId portion) {
  gravity::NewMetallics fresh{portion, {}, {}, {}, {}, {}};
  PRILLBOOK_ASSIGN(fresh.screen, reader.figure("screen", Measure::opening, "µm"));
  PRILLBOOK_ASSIGN(fresh.screened_at, reader.instant("screened_at"));
  PRILLBOOK_ASSIGN(fresh.screened_by, reader.person("screened_by"));
  PRILLBOOK_ASSIGN(auto coarse, reader.object("coarse"));
  PRILLBOOK_ASSIGN(auto fine, reader.object("fine"));
  const auto weighed = [&](RecordReader& part) -> Result<Figure> {
    PRILLBOOK_ASSIGN(Figure mass, part.figure("mass", Measure::mass, "g"));
    PRILLBOOK_ASSIGN(const BalanceId balance, part.balance("balance"));
    if (!mass || !balance) return mass;
    auto on_balance = lab::on_balance(set_.connection(), *mass, balance);
    if (!on_balance) return part.placed(on_balance.error());
    return Figure{*std::move(on_balance)};
  };
  if (coarse) {
    PRILLBOOK_ASSIGN(fresh.coarse, weighed(*coarse));
  }
  if (fine) {
    PRILLBOOK_ASSIGN(fresh.fine, weighed(*fine));
  }
  const auto made = gravity::start_metallics(set_, fresh);
  if (!made) return reader.placed(made.error());
  PRILLBOOK_TRY(text(reader, fields::metallics::remarks, made->id.value));
  PRILLBOOK_TRY(portion_rest(*coarse, sample, made->coarse));
  PRILLBOOK_TRY(portion_rest(*fine, sample, made->fine));
  return reader.finish();
}

Result<void> Loader::charge(RecordReader reader, PortionId portion) {
  namespace f = fields::charge;
  fire::NewCharge fresh{portion, {}, {}, {}, {}, {}};
  PRILLBOOK_ASSIGN(fresh.fired_at, reader.instant("fired_at"));
  PRILLBOOK_ASSIGN(fresh.fired_by, reader.person("fired_by"));
  PRILLBOOK_ASSIGN(fresh.collector, reader.figure("collector", Measure::mass, "mg"));
  PRILLBOOK_ASSIGN(fresh.blank, reader.figure("blank", Measure::mass, "mg"));
  PRILLBOOK_ASSIGN(const auto key, reader.optional_text("key"));
  PRILLBOOK_ASSIGN(const auto repeat_of, reader.optional_text("repeat_of"));
  if (repeat_of) {
    const auto found = charges_.find(*repeat_of);
    if (found == charges_.end())
      return reader.input().error(ErrorCode::not_found, "repeat_of", fmt::format("no charge above has the key {}", *repeat_of));
    fresh.repeat_of = found->second;
  }
  const auto started = fire::start_charge(set_, fresh);
  if (!started) return reader.placed(started.error());
  ++loaded_.charges;
  if (key) charges_[*key] = started->charge;
  const RecordId id = started->charge.value;
  PRILLBOOK_TRY(at_the_furnace(reader, started->charge));
  PRILLBOOK_TRY(figure(reader, f::button, id, "g"));
  PRILLBOOK_TRY(figure(reader, f::slag_metal, id, "mg"));
  PRILLBOOK_TRY(figure(reader, f::cupel_metal, id, "mg"));
  PRILLBOOK_TRY(figure(reader, f::slag_gold, id, "mg"));
  PRILLBOOK_TRY(figure(reader, f::cupel_gold, id, "mg"));
  PRILLBOOK_TRY(figure(reader, f::gold_loss, id, "%"));
  PRILLBOOK_TRY(figure(reader, f::silver_loss, id, "%"));
  for (const history::Field* field : {&f::slag_look, &f::spoiled, &f::excluded, &f::remarks})
    PRILLBOOK_TRY(text(reader, *field, id));
  PRILLBOOK_TRY(role_of_charge(reader, started->charge));
  PRILLBOOK_TRY(on_trays(reader, {started->charge, {}, {}}));
  PRILLBOOK_ASSIGN(const auto its_bead, reader.object("bead"));
  if (its_bead) PRILLBOOK_TRY(bead(*its_bead, started->bead));
  return reader.finish();
}

Result<void> Loader::bead(RecordReader reader, BeadId id) {
  namespace f = fields::bead;
  PRILLBOOK_ASSIGN(const bool none_seen, reader.input().flag("none_seen", false));
  if (none_seen) PRILLBOOK_TRY(set_.set(f::none_seen, id.value, std::int64_t{1}));
  PRILLBOOK_TRY(each(reader, "weighings", [&](const RecordReader& one) { return weighing(one, id, weighing::of_bead); }));
  PRILLBOOK_TRY(each(reader, "gold", [&](const RecordReader& one) { return weighing(one, id, weighing::of_gold); }));
  PRILLBOOK_ASSIGN(const auto method, reader.optional_text("fineness_method"));
  PRILLBOOK_ASSIGN(const Figure fineness, reader.figure("fineness", Measure::fineness, "‰"));
  PRILLBOOK_ASSIGN(const Figure uncertainty, reader.figure("fineness_u", Measure::fineness, "‰"));
  PRILLBOOK_ASSIGN(const auto density, reader.object("density"));
  if (density && (method || fineness || uncertainty))
    return reader.input().error(ErrorCode::conflict, "density", "the fineness comes from the two weights where these are given");
  if (density) {
    PRILLBOOK_TRY(in_water(*density, id));
  } else if (auto written = weighing::set_fineness(set_, id, method, fineness, uncertainty); !written) {
    return reader.placed(written.error());
  }
  PRILLBOOK_TRY(figure(reader, f::inquart, id.value, "mg"));
  PRILLBOOK_TRY(figure(reader, f::residual_silver, id.value, "%"));
  PRILLBOOK_TRY(text(reader, f::parting_look, id.value));
  PRILLBOOK_ASSIGN(const auto melted_into, reader.optional_text("melted_into"));
  if (melted_into) {
    const auto found = charges_.find(*melted_into);
    if (found == charges_.end())
      return reader.input().error(ErrorCode::not_found, "melted_into",
                                  fmt::format("no charge above has the key {}", *melted_into));
    PRILLBOOK_ASSIGN(const weighing::Bead other, weighing::bead_of(set_.connection(), found->second));
    if (const auto melted = weighing::melt_into(set_, id, other.id); !melted) return reader.placed(melted.error());
  }
  PRILLBOOK_TRY(text(reader, f::look, id.value));
  PRILLBOOK_TRY(text(reader, f::remarks, id.value));
  return reader.finish();
}

Result<void> Loader::in_water(RecordReader reader, BeadId id) {
  PRILLBOOK_ASSIGN(const Figure air, reader.figure("in_air", Measure::mass, "mg"));
  PRILLBOOK_ASSIGN(const Figure water, reader.figure("in_water", Measure::mass, "mg"));
  for (const auto& [figure, name] : {std::pair(&air, "in_air"), std::pair(&water, "in_water")})
    if (!*figure) return reader.input().error(ErrorCode::missing_key, name, reader.input().path_of(name) + " is missing");
  PRILLBOOK_ASSIGN(const BalanceId balance, reader.balance("balance"));
  if (const auto written = weighing::weigh_in_water(set_, id, {*air, *water, balance}); !written)
    return reader.placed(written.error());
  return reader.finish();
}

Result<void> Loader::weighing(RecordReader reader, BeadId bead, std::string_view what) {
  PRILLBOOK_ASSIGN(const Figure mass, reader.figure("mass", Measure::mass, "mg"));
  PRILLBOOK_ASSIGN(const Figure gross, reader.figure("gross", Measure::mass, "mg"));
  PRILLBOOK_ASSIGN(const Figure tare, reader.figure("tare", Measure::mass, "mg"));
  if (!mass && !gross && !tare)
    return reader.input().error(ErrorCode::missing_key, "mass", reader.input().path_of("mass") + " is missing");
  if (mass && (gross || tare))
    return reader.input().error(ErrorCode::conflict, "mass", "the mass comes from gross and tare where these are given");
  weighing::NewWeighing fresh{bead, std::string(what), mass.value_or(readings::Reading()), {}, {}, {}};
  fresh.gross = gross;
  fresh.tare = tare;
  PRILLBOOK_ASSIGN(const auto tray, reader.optional_text("tray"));
  PRILLBOOK_ASSIGN(const auto position, reader.whole("position"));
  if (tray) {
    const auto named = trays::tray_by_name(set_.connection(), *tray);
    if (!named) return reader.placed(named.error());
    fresh.tray = *named;
    fresh.position = position.value_or(0);
  }
  PRILLBOOK_ASSIGN(fresh.balance, reader.balance("balance"));
  PRILLBOOK_ASSIGN(fresh.weighed_at, reader.instant("weighed_at"));
  PRILLBOOK_ASSIGN(fresh.weighed_by, reader.person("weighed_by"));
  const auto id = weighing::weigh(set_, fresh);
  if (!id) return reader.placed(id.error());
  ++loaded_.weighings;
  for (const history::Field* field : {&fields::weighing::excluded, &fields::weighing::raw})
    PRILLBOOK_TRY(text(reader, *field, id->value));
  return reader.finish();
}

}  // namespace prillbook::exchange
