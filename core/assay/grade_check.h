// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/assay/grade.h"

namespace prillbook {

// Refuses single values out of range and keys that exclude or need each other; the errors of bead_to_grade() that
// need no computation.
Result<void> check_grade_input(const GradeInput& input);

}  // namespace prillbook
