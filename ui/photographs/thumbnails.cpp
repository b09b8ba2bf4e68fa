// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/photographs/thumbnails.h"

#include "ui/photographs/preparer.h"

namespace prillbook::ui {

QImage Thumbnails::of(const attachments::Attachment& attachment) {
  const QByteArray key = QByteArray::fromStdString(attachment.hash);
  if (const QImage* kept = kept_.object(key)) return *kept;
  ++read_;
  const auto bytes = attachments::bytes_of(connection_, attachment);
  QImage small = bytes.ok() ? decoded(*bytes, {2 * side, 2 * side}) : QImage();
  kept_.insert(key, new QImage(small));
  return small;
}

}  // namespace prillbook::ui
