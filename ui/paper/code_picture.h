// SPDX-License-Identifier: GPL-3.0-or-later
// The QR code of a text (ISO/IEC 18004, by libqrencode).
#pragma once

#include <QtCore/QRectF>
#include <string>
#include <vector>

#include "core/base/result.h"

class QPainter;

namespace prillbook::paper {

struct CodePicture {
  int side = 0;                     // modules, without the margin
  std::vector<bool> dark;           // row by row
  static constexpr int margin = 4;  // light modules on each side, as the standard asks

  bool at(int row, int column) const { return dark[std::size_t(row) * std::size_t(side) + std::size_t(column)]; }
};

// Errors: out_of_range for a text that is empty or too long for a code.
Result<CodePicture> code_picture(const std::string& text);

// Fills `square`, margin and all; sharp edges whatever the painter is set to.
void paint_code(QPainter& painter, const CodePicture& code, const QRectF& square);

}  // namespace prillbook::paper
