// SPDX-License-Identifier: GPL-3.0-or-later
// The tables of Lab set-up. The first steps of an empty lab show fewer columns.
// The four tables of Lab set-up. The first steps of an empty lab show fewer columns.
#pragma once

#include "ui/setup/record_table.h"

namespace prillbook::ui {

enum class Columns { all, needed };

RecordTable* people_table(Session& session, Columns columns);
RecordTable* balances_table(Session& session, Columns columns);
RecordTable* machines_table(Session& session);
RecordTable* clients_table(Session& session, Columns columns);
RecordTable* sieves_table(Session& session);
RecordTable* places_table(Session& session);
RecordTable* lots_table(Session& session);
RecordTable* pots_table(Session& session);
RecordTable* recipes_table(Session& session);

}  // namespace prillbook::ui
