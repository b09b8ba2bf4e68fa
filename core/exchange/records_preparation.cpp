// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include "core/custody/custody.h"
#include "core/exchange/record_loader.h"
#include "core/milling/composites.h"
#include "core/milling/machines.h"
#include "core/milling/plans.h"
#include "core/milling/steps.h"

namespace prillbook::exchange {

using readings::cell_of;
using readings::Figure;
namespace fields = history::fields;

Result<void> Loader::composite(RecordReader& reader, ConsignmentId consignment, const std::string& mark,
                               std::vector<RecordReader> shares) {
  milling::NewComposite fresh{consignment, mark, {}, {}, {}};
  PRILLBOOK_ASSIGN(fresh.done_at, reader.instant("done_at"));
  PRILLBOOK_ASSIGN(fresh.done_by, reader.person("done_by"));
  for (RecordReader& share : shares) {
    milling::NewShare one;
    PRILLBOOK_ASSIGN(const std::string from, share.text("sample"));
    PRILLBOOK_ASSIGN(one.mass, share.figure("mass", Measure::mass, "g"));
    PRILLBOOK_ASSIGN(one.share, share.figure("share", Measure::share, "%"));
    const auto found = samples_by_mark_.find(from);
    if (found == samples_by_mark_.end())
      return share.input().error(ErrorCode::not_found, "sample", fmt::format("no sample above has the mark {}", from));
    one.sample = found->second;
    PRILLBOOK_TRY(share.finish());
    fresh.shares.push_back(std::move(one));
  }
  const auto made = milling::make_composite(set_, fresh);
  if (!made) return reader.placed(made.error());
  samples_by_mark_.emplace(mark, made->sample);
  for (const history::Field* field :
       {&fields::sample::kind, &fields::sample::place, &fields::sample::expected, &fields::sample::remarks})
    PRILLBOOK_TRY(text(reader, *field, made->sample.value));
  return sample_rest(reader, made->sample);
}

Result<MachineId> Loader::machine_named(RecordReader& reader, std::string_view key) {
  PRILLBOOK_ASSIGN(const auto name, reader.optional_text(key));
  if (!name) return MachineId{};
  const auto found = milling::machine_by_name(set_.connection(), *name);
  if (!found) {
    Error error = found.error();
    error.field = reader.input().path_of(key);
    return error;
  }
  return found->id;
}

Result<void> Loader::machine(RecordReader reader) {
  namespace f = fields::machine;
  PRILLBOOK_ASSIGN(const std::string name, reader.text("name"));
  PRILLBOOK_ASSIGN(const auto retired_at, reader.instant("retired_at"));
  auto made =
      set_.make(history::Entity::machine, {{f::name, cell_of(std::optional(name))}, {f::retired_at, cell_of(retired_at)}});
  if (!made) return reader.placed(made.error());
  PRILLBOOK_TRY(text(reader, f::kind, *made));
  PRILLBOOK_TRY(text(reader, f::remarks, *made));
  PRILLBOOK_TRY(figure(reader, f::hold_up, *made, "g"));
  PRILLBOOK_TRY(each(reader, "cleanings", [&](const RecordReader& one) { return cleaning(one, MachineId{*made}); }));
  return reader.finish();
}

Result<void> Loader::cleaning(RecordReader reader, MachineId machine) {
  milling::NewCleaning fresh{machine, {}, {}, {}, {}, false, {}};
  PRILLBOOK_ASSIGN(fresh.way, reader.text("way"));
  PRILLBOOK_ASSIGN(fresh.cleaned_at, reader.instant("cleaned_at"));
  PRILLBOOK_ASSIGN(fresh.cleaned_by, reader.person("cleaned_by"));
  PRILLBOOK_ASSIGN(fresh.flush_mass, reader.figure("flush_mass", Measure::mass, "g"));
  PRILLBOOK_ASSIGN(fresh.kept, reader.input().flag("kept", false));
  PRILLBOOK_ASSIGN(fresh.remarks, reader.optional_text("remarks"));
  const auto id = milling::clean(set_, fresh);
  if (!id) return reader.placed(id.error());
  PRILLBOOK_ASSIGN(const Figure grade, reader.figure("flush_grade", Measure::grade, "g/t"));
  PRILLBOOK_ASSIGN(const Figure u, reader.figure("flush_grade_u", Measure::grade, "g/t"));
  PRILLBOOK_ASSIGN(const Figure barren, reader.figure("barren_grade", Measure::grade, "g/t"));
  if (grade || u || barren) {
    if (auto written = milling::set_flush_assay(set_, *id, grade, u, barren); !written) return reader.placed(written.error());
  }
  return reader.finish();
}

Result<void> Loader::step(RecordReader reader, SampleId sample, PortionId portion) {
  milling::NewStep fresh;
  fresh.sample = sample;
  fresh.portion = portion;
  PRILLBOOK_ASSIGN(fresh.kind, reader.text("kind"));
  PRILLBOOK_ASSIGN(fresh.method, reader.optional_text("method"));
  PRILLBOOK_ASSIGN(fresh.machine, machine_named(reader, "machine"));
  PRILLBOOK_ASSIGN(fresh.mass_in, reader.figure("mass_in", Measure::mass, "g"));
  PRILLBOOK_ASSIGN(fresh.mass_out, reader.figure("mass_out", Measure::mass, "g"));
  PRILLBOOK_ASSIGN(fresh.closed, reader.input().flag("closed", false));
  PRILLBOOK_ASSIGN(fresh.top_size, reader.figure("top_size", Measure::opening, "µm"));
  PRILLBOOK_ASSIGN(fresh.began_at, reader.instant("began_at"));
  PRILLBOOK_ASSIGN(fresh.done_at, reader.instant("done_at"));
  PRILLBOOK_ASSIGN(fresh.done_by, reader.person("done_by"));
  PRILLBOOK_ASSIGN(fresh.remarks, reader.optional_text("remarks"));
  PRILLBOOK_ASSIGN(std::vector<RecordReader> parts, reader.list("parts"));
  for (RecordReader& part : parts) {
    PRILLBOOK_ASSIGN(const portions::NewPortion head, portion_head(part, sample, portion));
    fresh.parts.push_back({head.purpose, head.mass, head.remarks});
  }
  if (fresh.kind == "composite")
    return reader.input().error(ErrorCode::out_of_range, "kind", "a composite is a sample with composite_of");
  const auto done = milling::do_step(set_, fresh);
  if (!done) return reader.placed(done.error());
  for (std::size_t i = 0; i < parts.size(); ++i) PRILLBOOK_TRY(portion_rest(parts[i], sample, done->parts[i]));
  return reader.finish();
}

Result<void> Loader::crushing_order(RecordReader reader) {
  PRILLBOOK_ASSIGN(const MachineId machine, machine_named(reader, "machine"));
  PRILLBOOK_ASSIGN(const PersonId by, reader.person("made_by"));
  PRILLBOOK_ASSIGN(const auto made_at, reader.instant("made_at"));
  PRILLBOOK_ASSIGN(std::vector<RecordReader> readers, reader.list("turns"));
  std::vector<milling::PlanPlace> places;
  for (RecordReader& one : readers) {
    milling::PlanPlace place;
    PRILLBOOK_ASSIGN(const std::string number, one.text("sample"));
    PRILLBOOK_ASSIGN(const auto flushes, one.whole("flushes"));
    PRILLBOOK_ASSIGN(place.flush_mass, one.figure("flush_mass", Measure::mass, "g"));
    const auto sample = custody::sample_by_number(set_.connection(), number);
    if (!sample) return one.placed(sample.error());
    place.sample = *sample;
    place.flushes = flushes.value_or(0);
    PRILLBOOK_TRY(one.finish());
    places.push_back(std::move(place));
  }
  if (const auto kept = milling::keep_plan(set_, machine, by, places, made_at); !kept) return reader.placed(kept.error());
  return reader.finish();
}

}  // namespace prillbook::exchange
