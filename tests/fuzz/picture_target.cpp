// SPDX-License-Identifier: GPL-3.0-or-later
#include <QtCore/QCoreApplication>
#include <algorithm>

#include "tests/fuzz/targets.h"
#include "ui/photographs/preparer.h"

namespace prillbook::fuzz {
namespace {

// Where Qt finds what reads pictures, it asks the application.
void need_core_application() {
  if (QCoreApplication::instance()) return;
  static int count = 1;
  static char name[] = "fuzz";
  static char* words[] = {name, nullptr};
  static auto* const application = new QCoreApplication(count, words);
  (void)application;
}

}  // namespace

void picture(std::string_view bytes) {
  need_core_application();
  ui::PicturePreparer preparer;
  const auto prepared = preparer.prepare(bytes, {64, false});
  if (!prepared) return;
  demand(std::max(prepared->width, prepared->height) <= 64, "a picture is scaled down");
  demand(prepared->bytes.find("Exif") == std::string::npos, "what the camera wrote beside it is gone");
  demand(!ui::decoded(prepared->bytes, {64, 64}).isNull(), "what was made can be read");
}

}  // namespace prillbook::fuzz
