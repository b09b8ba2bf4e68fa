// SPDX-License-Identifier: GPL-3.0-or-later
// What a gesture wrote, in the words of the bottom line: "22.014 mg for 26-0001 pan bead".
#pragma once

#include <QtCore/QString>

#include "core/history/journal.h"

namespace prillbook::program {

QString describe(store::Connection& connection, const history::Written& written);

}  // namespace prillbook::program
