// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QtCore/QString>

#include "core/base/result.h"

namespace prillbook::ui {

// What an error means to the person who typed, in one translated sentence, with the arguments of the error in it.
// Never empty.
QString sentence(const Error& error);
// The same where a file other than the notebook could not be written.
QString file_sentence(const Error& error, const QString& path);

inline QString to_qt(std::string_view text) { return QString::fromUtf8(text.data(), qsizetype(text.size())); }
// Where a line may break in a sentence, figures stay whole: "13.8 ± 2.2 g/t" keeps its blanks together.
QString unbroken(const QString& sentence);
inline std::string to_core(const QString& text) { return text.toStdString(); }

}  // namespace prillbook::ui
