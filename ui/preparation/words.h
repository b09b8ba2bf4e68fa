// SPDX-License-Identifier: GPL-3.0-or-later
// Preparation in the words of the window.
#pragma once

#include <QtCore/QString>

#include "core/milling/mass_flow.h"
#include "core/results/machine_risk.h"
#include "ui/kit/figures.h"
#include "ui/kit/session.h"

namespace prillbook::ui {

QString step_word(std::string_view kind);       // "crush"
QString step_done_word(std::string_view kind);  // "crushed"
QString method_word(std::string_view method);
QString way_word(std::string_view way);
Figure mass_figure(Mass mass, DecimalMark mark);
QString mass_words(Mass mass, DecimalMark mark);
QString grade_words(Grade grade, DecimalMark mark);    // to two digits that count, with its unit
QString number_words(double value, DecimalMark mark);  // to two digits that count
QString basis_word(results::GradeBasis basis);
QString hold_up_words(const results::MachineState& state, DecimalMark mark);
// What was refused at Preparation, as a sentence for the place where it stands.
QString preparation_sentence(const Error& error);

}  // namespace prillbook::ui
