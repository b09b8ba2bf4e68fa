// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QtCore/QCache>
#include <QtGui/QImage>

#include "core/attachments/attachments.h"

namespace prillbook::ui {

// Small pictures, kept by the hash of what they show: a list drawn again reads nothing from the notebook.
class Thumbnails {
 public:
  static constexpr int side = 72;
  static constexpr int most = 200;

  explicit Thumbnails(store::Connection& connection) : connection_(connection), kept_(most) {}
  // A null image where the bytes can't be read.
  QImage of(const attachments::Attachment& attachment);
  int read_count() const { return read_; }  // how often the notebook was asked

 private:
  store::Connection& connection_;
  QCache<QByteArray, QImage> kept_;
  int read_ = 0;
};

}  // namespace prillbook::ui
