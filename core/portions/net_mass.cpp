// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/portions/net_mass.h"

#include <fmt/format.h>

#include "core/history/fields.h"
#include "core/history/record.h"
#include "core/portions/portions.h"
#include "core/units/units.h"

namespace prillbook::portions {
namespace {

namespace weighed_fields = history::fields::sample;

}  // namespace

Result<std::optional<Mass>> net_mass(const readings::Figure& gross, const readings::Figure& tare) {
  if (!gross || !tare) return std::optional<Mass>{};
  const Mass net = gross->mass() - tare->mass();
  if (net.in(unit::gram) <= 0)
    return Error{ErrorCode::inconsistent,
                 "sample.tare",
                 fmt::format("the empty bag ({}) weighs as much as the full one ({})", tare->typed, gross->typed),
                 {tare->typed, gross->typed}};
  return std::optional(net);
}

Result<void> set_gross_and_tare(history::ChangeSet& set, SampleId id, const readings::Figure& gross,
                                const readings::Figure& tare) {
  PRILLBOOK_ASSIGN(const auto net, net_mass(gross, tare));
  PRILLBOOK_TRY(set.set(weighed_fields::gross, id.value, readings::cell_of(gross)));
  PRILLBOOK_TRY(set.set(weighed_fields::tare, id.value, readings::cell_of(tare)));
  PRILLBOOK_ASSIGN(const auto record, history::load_record(set.connection(), history::Entity::sample, id.value));
  PRILLBOOK_ASSIGN(const readings::Figure received, readings::figure_of(record, weighed_fields::mass_received));
  const bool derived = received && received->answer == net_is_derived;
  if (received && !derived) return {};
  readings::Figure worked_out;
  if (net) {
    const MassInWords words = in_words(*net);
    PRILLBOOK_ASSIGN(worked_out, readings::parse(fmt::format("{} {}", words.number, words.unit),
                                                 {Measure::mass, "g", DecimalMark::point, false}));
    worked_out->answer = net_is_derived;
  }
  PRILLBOOK_TRY(set.set(weighed_fields::mass_received, id.value, readings::cell_of(worked_out)));
  return check_tree(set.connection(), id);
}

Result<void> set_gross_and_tare(history::Journal& journal, SampleId id, const readings::Figure& gross,
                                const readings::Figure& tare, const std::optional<std::string>& why) {
  return journal.record("enter sample.gross", [&](history::ChangeSet& set) -> Result<void> {
    if (why) set.because(*why);
    return set_gross_and_tare(set, id, gross, tare);
  });
}

}  // namespace prillbook::portions
