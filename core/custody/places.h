// SPDX-License-Identifier: GPL-3.0-or-later
// Where the lab keeps things.
#pragma once

#include "core/base/id.h"
#include "core/history/journal.h"

namespace prillbook::custody {

struct Place {
  PlaceId id;
  std::string name;
};

// Errors: missing_key without a name; already_exists.
Result<PlaceId> add_place(history::Journal& journal, const std::string& name);
Result<PlaceId> add_place(history::ChangeSet& set, const std::string& name);
Result<std::vector<Place>> places(store::Connection& connection);
// Errors: not_found.
Result<PlaceId> place_by_name(store::Connection& connection, std::string_view name);

}  // namespace prillbook::custody
