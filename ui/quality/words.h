// SPDX-License-Identifier: GPL-3.0-or-later
// Roles, verdicts and states of loads in the words of the window.
#pragma once

#include <QtCore/QString>

#include "core/results/run_controls.h"

namespace prillbook::ui {

QString role_word(controls::Role role);
QString kind_word(const std::string& material_kind);  // "rock blank"
QString verdict_word(results::ControlVerdict verdict);
QString standing_word(const results::RunControls& run);
// "outside, 1-3s · 0.24 ± 0.08 g/t gold · allowed: at most 0.1 g/t".
QString control_line(const results::ControlResult& control);

}  // namespace prillbook::ui
