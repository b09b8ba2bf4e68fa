// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/milling/milling_lots.h"

#include "core/custody/custody.h"
#include "core/history/fields.h"
#include "core/history/record.h"

namespace prillbook::milling {
namespace {

namespace lot_fields = history::fields::milling_lot;

Result<MillingLot> lot_from(const history::Record& record) {
  MillingLot lot;
  lot.id = MillingLotId{record.id()};
  lot.sample = record.reference<SampleId>(lot_fields::sample);
  lot.milled_by = record.reference<PersonId>(lot_fields::milled_by);
  if (const auto at = record.optional_text(lot_fields::milled_at)) {
    PRILLBOOK_ASSIGN(lot.milled_at, parse_iso(*at));
  }
  const std::pair<readings::Figure*, const history::Field*> figures[]{{&lot.mass, &lot_fields::mass},
                                                                      {&lot.moisture, &lot_fields::moisture},
                                                                      {&lot.head, &lot_fields::head},
                                                                      {&lot.concentrate, &lot_fields::concentrate},
                                                                      {&lot.concentrate_gold, &lot_fields::concentrate_gold},
                                                                      {&lot.sponge, &lot_fields::sponge},
                                                                      {&lot.bullion, &lot_fields::bullion},
                                                                      {&lot.bullion_fineness, &lot_fields::bullion_fineness},
                                                                      {&lot.tail_gold, &lot_fields::tail_gold},
                                                                      {&lot.owner_share, &lot_fields::owner_share}};
  for (const auto& [figure, field] : figures) {
    PRILLBOOK_ASSIGN(*figure, readings::figure_of(record, *field));
  }
  lot.agreement = record.optional_text(lot_fields::agreement);
  lot.remarks = record.optional_text(lot_fields::remarks);
  return lot;
}

}  // namespace

Result<MillingLotId> begin_lot(history::ChangeSet& set, SampleId sample) {
  PRILLBOOK_ASSIGN(const custody::Sample held, custody::sample(set.connection(), sample));
  PRILLBOOK_ASSIGN(const auto before, lot_of(set.connection(), sample));
  if (before)
    return Error{ErrorCode::already_exists, "milling_lot", held.number + " stands for a milling lot already", {held.number}};
  auto made = set.make(history::Entity::milling_lot, {{lot_fields::sample, readings::cell_of(sample)}});
  if (!made) return made.error();
  return MillingLotId{*made};
}

Result<MillingLotId> begin_lot(history::Journal& journal, SampleId sample) {
  return journal.record_for<MillingLotId>("begin milling lot", [&](history::ChangeSet& set) { return begin_lot(set, sample); });
}

Result<std::optional<MillingLot>> lot_of(store::Connection& connection, SampleId sample) {
  PRILLBOOK_ASSIGN(const auto records, history::load_referring(connection, lot_fields::sample, sample.value));
  if (records.empty()) return std::optional<MillingLot>();
  PRILLBOOK_ASSIGN(MillingLot lot, lot_from(records.front()));
  return std::optional(std::move(lot));
}

}  // namespace prillbook::milling
