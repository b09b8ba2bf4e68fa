// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/custody/own_metal.h"

#include "core/history/fields.h"
#include "core/history/record.h"

namespace prillbook::custody {
namespace {

namespace own_metal_fields = history::fields::own_metal;
namespace told_fields = history::fields::told_figure;
using history::Entity;
using history::Record;
using readings::cell_of;

}  // namespace

Result<OwnMetalId> give_back(history::ChangeSet& set, const NewOwnMetal& metal) {
  namespace f = own_metal_fields;
  if (metal.fate == "returned" && trimmed(metal.to_whom.value_or("")).empty())
    return refusal(ErrorCode::missing_key, "own_metal.to_whom", "say who took it: the name stands for the signature");
  PRILLBOOK_ASSIGN(const RecordId id, set.make(Entity::own_metal, {{f::sample, cell_of(metal.sample)},
                                                                   {f::what, cell_of(std::optional(metal.what))},
                                                                   {f::fate, cell_of(std::optional(metal.fate))},
                                                                   {f::mass, cell_of(metal.mass)},
                                                                   {f::happened_at, to_iso(metal.at.value_or(set.when()))},
                                                                   {f::to_whom, cell_of(metal.to_whom)},
                                                                   {f::written_by, cell_of(metal.written_by)},
                                                                   {f::remarks, cell_of(metal.remarks)}}));
  return OwnMetalId{id};
}

Result<OwnMetalId> give_back(history::Journal& journal, const NewOwnMetal& metal) {
  return journal.record_for<OwnMetalId>("write own metal", [&](history::ChangeSet& set) { return give_back(set, metal); });
}

Result<std::vector<OwnMetal>> own_metal_of(history::Source source, SampleId sample) {
  namespace f = own_metal_fields;
  PRILLBOOK_ASSIGN(const auto records, history::load_referring(source, f::sample, sample.value));
  std::vector<OwnMetal> list;
  for (const Record& record : records) {
    OwnMetal metal;
    metal.id = OwnMetalId{record.id()};
    metal.sample = sample;
    metal.what = record.text(f::what);
    metal.fate = record.text(f::fate);
    PRILLBOOK_ASSIGN(metal.mass, readings::figure_of(record, f::mass));
    PRILLBOOK_ASSIGN(metal.at, parse_iso(record.text(f::happened_at)));
    metal.to_whom = record.optional_text(f::to_whom);
    metal.remarks = record.optional_text(f::remarks);
    metal.written_by = record.reference<PersonId>(f::written_by);
    list.push_back(std::move(metal));
  }
  return list;
}

Result<ToldFigureId> tell_figure(history::ChangeSet& set, const NewToldFigure& told) {
  namespace f = told_fields;
  PRILLBOOK_ASSIGN(const RecordId id, set.make(Entity::told_figure, {{f::sample, cell_of(told.sample)},
                                                                     {f::what, cell_of(std::optional(told.what))},
                                                                     {f::said, cell_of(std::optional(told.said))},
                                                                     {f::to_whom, cell_of(std::optional(told.to_whom))},
                                                                     {f::told_at, to_iso(told.at.value_or(set.when()))},
                                                                     {f::told_by, cell_of(told.told_by)},
                                                                     {f::remarks, cell_of(told.remarks)}}));
  return ToldFigureId{id};
}

Result<ToldFigureId> tell_figure(history::Journal& journal, const NewToldFigure& told) {
  return journal.record_for<ToldFigureId>("write told figure", [&](history::ChangeSet& set) { return tell_figure(set, told); });
}

Result<std::vector<ToldFigure>> told_figures_of(history::Source source, SampleId sample) {
  namespace f = told_fields;
  PRILLBOOK_ASSIGN(const auto records, history::load_referring(source, f::sample, sample.value));
  std::vector<ToldFigure> list;
  for (const Record& record : records) {
    PRILLBOOK_ASSIGN(const Instant at, parse_iso(record.text(f::told_at)));
    list.push_back({ToldFigureId{record.id()}, sample, record.text(f::what), record.text(f::said), record.text(f::to_whom), at,
                    record.reference<PersonId>(f::told_by), record.optional_text(f::remarks)});
  }
  return list;
}

}  // namespace prillbook::custody
