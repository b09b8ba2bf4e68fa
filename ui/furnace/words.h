// SPDX-License-Identifier: GPL-3.0-or-later
// What a designed charge says, in the words of the furnace.
#pragma once

#include <QtCore/QString>
#include <QtCore/QStringList>

#include "core/base/number.h"
#include "core/fire/practice.h"

namespace prillbook::ui {

QString warning_words(ChargeWarning warning);
// "litharge 75 g": one line a reagent, with what was weighed and what the recipe would have beside it.
QStringList mixture_lines(const Charge& design, const Mixture& weighed, const Mixture* recipe, DecimalMark mark);
// What the button should weigh, by practice and by theory, and the silicate degree.
QString button_line(const Charge& charge, DecimalMark mark);
// Where each figure of the design comes from.
QStringList source_lines(const ChargeInput& input);
QString grams(Mass mass, DecimalMark mark);

}  // namespace prillbook::ui
