// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QtCore/QString>

namespace prillbook::guide {

// Writes guide.html, the pictures that it shows and guide.pdf into the folder, which is made where it is missing. What could
// not be made or read, a picture that the guide names and nobody has made among it.
QStringList make_pages(const QString& docs, const QString& folder);

}  // namespace prillbook::guide
