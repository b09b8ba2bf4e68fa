// SPDX-License-Identifier: GPL-3.0-or-later
// Rock that counts as damp lost no water where it was sieved.
#include <fmt/format.h>

#include "core/findings/sieve_evidence.h"
#include "core/findings/wording.h"
#include "core/units/units.h"

namespace prillbook::findings {
namespace {

constexpr double fine_um = 1000;  // damp rock does not go through finer sieves: it was dry when it was weighed on them

bool is_fine(const results::SizeResult& size) {
  return !size.curve->rows.empty() && size.curve->rows.back().opening < Opening(fine_um, unit::micrometre);
}

// Cut from the rock itself, with no drying before: its grades have the moisture taken off.
bool counts_as_damp(const results::SampleRecord& record, PortionId id) {
  const portions::Portion* portion = record.portion(id);
  return portion && !record.cut_dry(*portion) && !record.pan_product_of(id) && !record.fraction_of(id);
}

}  // namespace

std::optional<Finding> moisture_not_found(const Scene& scene) {
  const readings::Figure& moisture = scene.record.sample.moisture;
  if (!moisture || moisture->state != readings::State::measured || !(moisture->value > 0)) return std::nullopt;
  return first_of_analyses(scene, [&](const sieves::Analysis&, const results::SizeResult& size) -> std::optional<Finding> {
    if (!size.curve || !is_fine(size) || !counts_as_damp(scene.record, size.portion)) return std::nullopt;
    if (moisture->value - size.curve->loss_pct <= scene.record.settings.moisture_apart_pct) return std::nullopt;
    const std::string loss = per_cent(size.curve->loss_pct, scene.record.settings.decimal_mark);
    const std::string water = typed_with_unit(*moisture);
    Finding finding = about_sieves(scene, "moisture_not_found", Severity::caution);
    finding.seen = fmt::format("{} is taken off as moisture and no drying is written; yet {} lost only {} from bag to sieves.",
                               water, size.label, loss);
    finding.why =
        "Damp rock would have lost its water there. If it was dry when it was cut, every grade reads too high by as much.";
    finding.to_do =
        "If the rock was dried before, write the drying with its masses. Else look how the moisture was got: the loss divided "
        "by the wet mass, not by the dry.";
    finding.source = "common practice, no source";
    finding.evidence = {{"moisture", water, history::Entity::sample, scene.record.sample.id.value},
                        of_analysis(size, "loss", loss)};
    return finding;
  });
}

}  // namespace prillbook::findings
