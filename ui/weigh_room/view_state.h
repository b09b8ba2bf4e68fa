// SPDX-License-Identifier: GPL-3.0-or-later
// How the weigh room was left: kept with the user's settings, never in the notebook.
#pragma once

#include <QtCore/QString>
#include <string>

namespace prillbook::ui::view_state {

std::string unit();  // "mg" or "g", taken by a bare number
void keep_unit(const std::string& unit);

bool large();  // type for eyes a metre away
void keep_large(bool large);

QString balance();  // by name; empty where none was chosen
void keep_balance(const QString& name);

}  // namespace prillbook::ui::view_state
