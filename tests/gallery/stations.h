// SPDX-License-Identifier: GPL-3.0-or-later
// Invented stations for the gallery.
#pragma once

#include <QtCore/QStringList>
#include <vector>

#include "ui/kit/session.h"
#include "ui/window/main_window.h"

namespace prillbook::ui::gallery {

std::vector<StationPlace> way(Session& session);
std::vector<StationPlace> beside(Session& session);
std::vector<Found> find(const QString& typed, int most);
// Brings the page that the arguments name into view and types what belongs there.
void open(MainWindow& window, const QStringList& arguments);

}  // namespace prillbook::ui::gallery
