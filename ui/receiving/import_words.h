// SPDX-License-Identifier: GPL-3.0-or-later
// What is said about a client's list, in the language of the window.
#pragma once

#include <QtCore/QString>

#include "core/intake/sample_list.h"

namespace prillbook::ui {

// Why a file can't be read as a list, in one sentence.
QString list_sentence(const Error& error);
// Why a row has to be looked at: one sentence, and the word or two that stand in the cell.
QString note_sentence(const intake::RowNote& note);
QString note_word(const intake::RowNote& note);

QString list_field_words(intake::ListField field);              // "Mass declared"; "passed over"
QString column_use_words(const intake::ColumnUse& use);         // "Mass declared, kg"
QString encoding_words(tables::Encoding encoding);              // "Windows-1252"
QString delimiter_words(char delimiter);                        // "semicolon"
QString mark_words(DecimalMark mark);                           // "comma"
QString count_words(std::size_t samples, std::size_t refused);  // "142 samples, 3 rows need a look"

}  // namespace prillbook::ui
