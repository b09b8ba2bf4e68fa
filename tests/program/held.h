// SPDX-License-Identifier: GPL-3.0-or-later
// What a notebook holds of the entries that a window had shown as accepted.
#pragma once

#include <set>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "tests/support/window_day.h"

namespace prillbook::program {

// Opens the notebook for writing, as the next start of the program would, looks it over and gives each entry of its history:
// its field and what was typed; a record that was made has its table alone. Errors: what opening gives; damaged where the
// check finds a fault.
Result<std::multiset<testing_support::Accepted>> held_entries(const std::string& path, const std::string& vfs = "");

// Those of `accepted` that are not among `held`, each as often as it is missing.
std::vector<testing_support::Accepted> missing(const std::vector<testing_support::Accepted>& accepted,
                                               std::multiset<testing_support::Accepted> held);

}  // namespace prillbook::program
