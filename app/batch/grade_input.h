// SPDX-License-Identifier: GPL-3.0-or-later
// The keys of a bead and its portion, shared by `grade` and the sides of `compare`, and how grades leave.
#pragma once

#include <string>

#include "app/batch/calc.h"
#include "core/assay/grade.h"
#include "core/json/json_input.h"

namespace prillbook::batch {

// Loss or moisture: 0 to below 100.
Result<std::optional<double>> optional_part(JsonInput& input, std::string_view key);

// Reads the keys of `grade`; does not call finish(), so that the caller may read more.
Result<GradeInput> read_grade_input(JsonInput& input);

// bead_to_grade with the errors' fields under the path of `input`.
Result<GradeResult> graded(const JsonInput& input, const GradeInput& read);

// An error of core, whose field is a key of `input`, with its whole path.
Error under(const JsonInput& input, Error error);

// NAME_g_t, NAME_ozt_st, NAME_ozt_lt.
void put_grade(Json& output, const std::string& name, Grade grade);

}  // namespace prillbook::batch
