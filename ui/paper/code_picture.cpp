// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/paper/code_picture.h"

#include <qrencode.h>

#include <QtGui/QPainter>
#include <memory>

namespace prillbook::paper {

Result<CodePicture> code_picture(const std::string& text) {
  struct Free {
    void operator()(QRcode* code) const { QRcode_free(code); }
  };
  const auto refused = [&](const char* reason) { return Error{ErrorCode::out_of_range, "code", reason, {text}}; };
  if (text.empty() || text.find('\0') != std::string::npos) return refused("there is no text for a code");
  // Level M bears the loss of a seventh of the code: dust and a crease.
  const std::unique_ptr<QRcode, Free> code(QRcode_encodeString(text.c_str(), 0, QR_ECLEVEL_M, QR_MODE_8, 1));
  if (!code) return refused("the text is too long for a code");
  CodePicture picture;
  picture.side = code->width;
  picture.dark.reserve(std::size_t(code->width) * std::size_t(code->width));
  for (int i = 0; i < code->width * code->width; ++i) picture.dark.push_back((code->data[i] & 1) != 0);
  return picture;
}

void paint_code(QPainter& painter, const CodePicture& code, const QRectF& square) {
  painter.save();
  painter.setRenderHint(QPainter::Antialiasing, false);
  painter.fillRect(square, Qt::white);
  const double module = square.width() / (code.side + 2 * CodePicture::margin);
  const auto edge = [&](double from, int index) { return from + (index + CodePicture::margin) * module; };
  for (int row = 0; row < code.side; ++row)
    for (int from = 0; from < code.side;) {
      int to = from;
      while (to < code.side && code.at(row, to)) ++to;
      if (to > from)
        painter.fillRect(QRectF(QPointF(edge(square.left(), from), edge(square.top(), row)),
                                QPointF(edge(square.left(), to), edge(square.top(), row + 1))),
                         Qt::black);
      from = to + 1;
    }
  painter.restore();
}

}  // namespace prillbook::paper
