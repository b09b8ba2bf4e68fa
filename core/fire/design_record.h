// SPDX-License-Identifier: GPL-3.0-or-later
// What the charge of a portion is designed from; kept with the portion, so that the design can be made again.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/base/number.h"
#include "core/fire/charge_record.h"
#include "core/fire/lots.h"

namespace prillbook::fire {

struct Design {
  ChargeDesignId id;
  PortionId portion;
  std::optional<std::string> ore_kind, sulphides, remarks;
  readings::Figure silica_share, button_target, cupel;
  ReducingTestId test;
};

// The design of a portion, made where there is none yet.
Result<ChargeDesignId> design_for(history::ChangeSet& set, PortionId portion);
Result<std::optional<Design>> design_of(store::Connection& connection, PortionId portion);

// Writes one field of the design of a portion. Errors: those of the field; sulphides as read_sulphides.
Result<void> set_design(history::Journal& journal, PortionId portion, const history::Field& field, const history::Value& value);
Result<void> set_design(history::ChangeSet& set, PortionId portion, const history::Field& field, const history::Value& value);

// "pyrite 40, galena 5 %": sulphides by name or trade name with their share in per cent. Errors: out_of_range (a name that is
// none), not_a_number, ambiguous_mark, missing_key (no share).
Result<std::vector<SulphideShare>> read_sulphides(std::string_view text, DecimalMark preferred);

// What design_charge takes. The reducing power is that of the test named; without a wanted button the usual one.
// Errors: missing_key (the portion is not weighed, field portion.mass; the test is not weighed out), and as read_sulphides.
Result<ChargeInput> charge_input(store::Connection& connection, PortionId portion, DecimalMark preferred);

// What was weighed into a charge.
Mixture mixture_of(const Charge& charge);

}  // namespace prillbook::fire
