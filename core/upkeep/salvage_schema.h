// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <map>
#include <vector>

#include "core/base/result.h"
#include "core/history/catalogue.h"
#include "core/store/connection.h"

namespace prillbook::upkeep {

// The fields that each table of a version has, by ascending code.
using FieldsOf = std::map<history::Entity, std::vector<const history::Field*>>;

struct SchemaFound {
  int version = 0;
  FieldsOf fields;
};

// The version that the tables of a damaged notebook have; `told`, what its head says, decides between two that fit alike.
Result<SchemaFound> schema_that_fits(store::Connection& wreck, int told);

}  // namespace prillbook::upkeep
