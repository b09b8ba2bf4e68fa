// SPDX-License-Identifier: GPL-3.0-or-later
// Reads docs/layers.txt and compares #include lines with it. Faults are sentences for a person; an empty list is good.
#pragma once

#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "tests/support/source_tree.h"

namespace prillbook::testing_support {

struct LayerRow {
  std::string layer;                   // the folder, "core/units"
  std::vector<std::string> layers;     // project layers it may include besides itself
  std::vector<std::string> libraries;  // outside libraries, by their names in app/build/layers.cmake
};

struct Include {
  std::string header;
  bool angled = false;
  int line = 0;  // from 1
};

using Faults = std::vector<std::string>;
// The Qt module that holds a header ("QtWidgets" for "QLabel"), or nothing where Qt has no such header.
using QtModule = std::function<std::string(std::string_view header)>;

// Rows in the order of the text; a line that is neither a comment nor three columns goes to `faults`.
std::vector<LayerRow> parse_layers(std::string_view text, Faults& faults);

// A row twice, a row that names itself or a layer not above it (so rows are ordered and hold no circle), core that
// reaches for ui, app or Qt, ui that reaches for app, a library without a name known here.
Faults row_faults(const std::vector<LayerRow>& rows);

// A folder with sources but no row, a row without such a folder.
Faults folder_faults(const std::vector<LayerRow>& rows, const std::vector<SourceFile>& files);

// Includes in the order of the text. One whose header is no literal has an empty header.
std::vector<Include> includes_of(std::string_view text);

// Includes that the row of the file's folder does not allow, and those nobody knows. Files without a row are passed over.
Faults include_faults(const std::vector<LayerRow>& rows, const std::vector<SourceFile>& files, const QtModule& qt_module);

// Looks a header up in Qt's include folder: "QLabel", "QtWidgets/QLabel" and "qlabel.h" are all of QtWidgets.
QtModule qt_module_in(const std::string& include_folder);

}  // namespace prillbook::testing_support
