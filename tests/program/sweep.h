// SPDX-License-Identifier: GPL-3.0-or-later
// The whole window with the demonstration in it, view by view: every station with its first records in hand and everything
// unfolded, every page over them.
#pragma once

#include <QtCore/QString>
#include <functional>
#include <vector>

#include "app/program/desk.h"

namespace prillbook::program {

// Called with each view once it is laid out; `name` says which it is: "Furnace, row 2".
using Look = std::function<void(ui::MainWindow& window, const QString& name)>;

void go_round(ui::MainWindow& window, const Look& look);

// What a hand or a screen reader finds to complain of in the view; a sentence each.
QStringList without_name(const ui::MainWindow& window);
QStringList not_reached_by_tab(ui::MainWindow& window);
QStringList turned_by_wheel(const ui::MainWindow& window);
QStringList keys_given_twice(const ui::MainWindow& window);
QStringList too_faint(ui::MainWindow& window);
QStringList cut_off(const ui::MainWindow& window);

}  // namespace prillbook::program
