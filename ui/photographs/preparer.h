// SPDX-License-Identifier: GPL-3.0-or-later
// Files made ready for the notebook: read within bounds, turned upright, scaled down, and written anew as JPEG, which
// leaves behind what the camera wrote beside the picture, the place among it.
#pragma once

#include <QtGui/QImage>

#include "core/attachments/attachments.h"

namespace prillbook::ui {

class PicturePreparer : public attachments::Preparer {
 public:
  // Decoding never takes more memory than this, in MB.
  static constexpr int decoding_limit_mb = 256;
  // A side longer than this is no photograph.
  static constexpr int longest_side = 30'000;

  // Errors: out_of_range (arguments: what it has, the limit), damaged (cut short or broken), wrong_type (no image).
  Result<attachments::Prepared> prepare(std::string_view file, const attachments::Wish& wish) override;
};

// A picture from the clipboard; the same errors.
Result<attachments::Prepared> prepare_picture(QImage picture, const attachments::Wish& wish);

// For showing: no larger than asked for. A null image where the bytes are no picture.
QImage decoded(const std::string& bytes, const QSize& at_most);

}  // namespace prillbook::ui
