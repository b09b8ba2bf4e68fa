// SPDX-License-Identifier: GPL-3.0-or-later
// What a charge or a pan test stands for: an ordinary one, or a control of those beside it.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "core/base/id.h"
#include "core/history/journal.h"

namespace prillbook::controls {

enum class Role { ordinary, reference, blank_rock, blank_flux, duplicate_field, duplicate_coarse, duplicate_pulp, flush };
std::string_view role_name(Role role);      // as stored; empty for ordinary
Role role_named(std::string_view name);     // ordinary for a name that is none
std::string_view role_in_words(Role role);  // "rock blank", "coarse duplicate"
inline bool is_duplicate(Role role) {
  return role == Role::duplicate_field || role == Role::duplicate_coarse || role == Role::duplicate_pulp;
}

// What the portion makes of its charge: the kind of the material whose stock it was cut from. A pan test of flux alone is
// none: ordinary.
Result<Role> role_of_portion(store::Connection& connection, PortionId portion);

// The charge is the duplicate of another, or is no duplicate where `of` is none. Errors: inconsistent: itself, or a duplicate
// of it; a field duplicate within one sample; a coarse or pulp duplicate of another sample (field charge.duplicate_of_id);
// out_of_range where `role` is no duplicate.
Result<void> set_duplicate(history::Journal& journal, ChargeId charge, ChargeId of, Role role);
Result<void> set_duplicate(history::ChangeSet& set, ChargeId charge, ChargeId of, Role role);
Result<void> set_duplicate(history::Journal& journal, PanTestId test, PanTestId of, Role role);
Result<void> set_duplicate(history::ChangeSet& set, PanTestId test, PanTestId of, Role role);

// The charge is the assay of what came out of a machine at a flush. Errors: inconsistent where that cleaning is no flush.
Result<void> set_flush(history::ChangeSet& set, ChargeId charge, CleaningId cleaning);
Result<void> set_flush(history::Journal& journal, ChargeId charge, CleaningId cleaning);

// "26-0003/2": its portion's charge or pan test. Errors: not_found (field as given).
Result<ChargeId> charge_by_label(store::Connection& connection, std::string_view label, std::string_view field);
Result<PanTestId> pan_test_by_label(store::Connection& connection, std::string_view label, std::string_view field);

}  // namespace prillbook::controls
