// SPDX-License-Identifier: GPL-3.0-or-later
// The pictures of the guide, from the running program with the demonstration in it on a fixed morning.
#pragma once

#include <QtCore/QString>

namespace prillbook::guide {

// Writes every picture that the guide shows into the folder; the names of those that could not be made.
QStringList make_pictures(const QString& folder);

}  // namespace prillbook::guide
