// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/photographs/preparer.h"

#include <QtCore/QBuffer>
#include <QtGui/QImageReader>
#include <QtGui/QImageWriter>
#include <QtGui/QPainter>
#include <algorithm>
#include <cmath>

#include "core/history/contents.h"

namespace prillbook::ui {
namespace {

using attachments::Prepared;
using attachments::Wish;

constexpr int jpeg_quality = 88;
constexpr double megabyte = 1e6;

std::string in_megabytes(double bytes) { return QString::number(bytes / megabyte, 'f', 1).toStdString() + " MB"; }

Error too_large(std::string what, std::string limit) {
  Error error{ErrorCode::out_of_range, "attachment", what + " is more than is taken: " + limit, {}};
  error.arguments = {std::move(what), std::move(limit)};
  return error;
}

Error no_image() { return {ErrorCode::wrong_type, "attachment", "the file holds no image that can be read", {}}; }
Error broken() { return {ErrorCode::damaged, "attachment", "the image is cut short or broken", {}}; }

QByteArray bytes_of(std::string_view file) { return QByteArray::fromRawData(file.data(), qsizetype(file.size())); }

// A JPEG that ends before its end mark and a PNG without its last chunk are decoded in part by the readers: what is
// missing would be grey in the notebook for ever.
bool is_cut_short(std::string_view file, const QByteArray& format) {
  if (format == "jpeg")
    return file.substr(file.size() > 4096 ? file.size() - 4096 : 0).find("\xFF\xD9") == std::string_view::npos;
  if (format == "png") return file.substr(file.size() > 4096 ? file.size() - 4096 : 0).find("IEND") == std::string_view::npos;
  return false;
}

Result<void> check_size(const QSize& size) {
  if (!size.isValid()) return {};  // told only after decoding
  const int longer = std::max(size.width(), size.height());
  if (longer > PicturePreparer::longest_side)
    return too_large(std::to_string(longer) + " pixels", std::to_string(PicturePreparer::longest_side) + " pixels");
  return {};
}

double decoded_bytes(const QSize& size) { return size.isValid() ? 4.0 * size.width() * size.height() : 0; }

constexpr double decoding_limit = PicturePreparer::decoding_limit_mb * 1024.0 * 1024.0;
// What a reader that scales while it decodes is still given to read.
constexpr double scaled_decoding_limit = 5 * decoding_limit;

// Sets the reader to what can be decoded within the limit. A JPEG can be scaled down on the way.
Result<void> fit_decoding(QImageReader& reader, const Wish& wish) {
  const QSize size = reader.size();
  PRILLBOOK_TRY(check_size(size));
  const double needed = decoded_bytes(size);
  if (needed <= decoding_limit) return {};
  const bool scales = reader.format() == "jpeg" && !wish.keep_original && needed <= scaled_decoding_limit;
  if (!scales) return too_large(in_megabytes(needed) + " of pixels", in_megabytes(decoding_limit));
  const int side = int(std::clamp(wish.long_side_px, 16.0, 8000.0));
  reader.setScaledSize(size.scaled(side, side, Qt::KeepAspectRatio).expandedTo({1, 1}));
  return {};
}

Result<QImage> read_picture(std::string_view file, const Wish& wish) {
  QByteArray bytes = bytes_of(file);
  QBuffer buffer(&bytes);
  buffer.open(QIODevice::ReadOnly);
  QImageReader reader(&buffer);
  reader.setDecideFormatFromContent(true);
  reader.setAutoTransform(true);
  QImageReader::setAllocationLimit(PicturePreparer::decoding_limit_mb);
  if (!reader.canRead()) return no_image();
  const QByteArray format = reader.format();
  if (format == "svg" || format == "svgz" || format == "pdf") return no_image();  // drawings can reach out of themselves
  PRILLBOOK_TRY(fit_decoding(reader, wish));
  if (is_cut_short(file, format)) return broken();
  QImage picture = reader.read();
  if (picture.isNull()) return reader.error() == QImageReader::InvalidDataError ? broken() : no_image();
  return picture;
}

// Pixels alone: texts, colour profiles and the rest of the file stay behind. What can be seen through is white.
QImage painted_anew(const QImage& picture) {
  QImage ground(picture.size(), QImage::Format_RGB32);
  ground.fill(Qt::white);
  QPainter(&ground).drawImage(0, 0, picture);
  return ground;
}

}  // namespace

Result<Prepared> prepare_picture(QImage picture, const Wish& wish) {
  if (picture.isNull()) return no_image();
  PRILLBOOK_TRY(check_size(picture.size()));
  const int longer = std::max(picture.width(), picture.height());
  const int side = int(std::clamp(wish.long_side_px, 16.0, double(PicturePreparer::longest_side)));
  if (longer > side) picture = picture.scaled(side, side, Qt::KeepAspectRatio, Qt::SmoothTransformation);
  QByteArray bytes;
  QBuffer buffer(&bytes);
  buffer.open(QIODevice::WriteOnly);
  QImageWriter writer(&buffer, "jpeg");
  writer.setQuality(jpeg_quality);
  const QImage bare = painted_anew(picture);
  if (!writer.write(bare)) return no_image();
  return Prepared{bytes.toStdString(), bare.width(), bare.height(), false};
}

Result<Prepared> PicturePreparer::prepare(std::string_view file, const Wish& wish) {
  if (file.size() > std::size_t(attachments::most_file_bytes))
    return too_large(in_megabytes(double(file.size())), in_megabytes(double(attachments::most_file_bytes)));
  PRILLBOOK_ASSIGN(const QImage picture, read_picture(file, wish));
  if (!wish.keep_original) return prepare_picture(picture, wish);
  if (file.size() > history::most_content_bytes)
    return too_large(in_megabytes(double(file.size())), in_megabytes(double(history::most_content_bytes)));
  return Prepared{std::string(file), picture.width(), picture.height(), true};
}

QImage decoded(const std::string& bytes, const QSize& at_most) {
  QByteArray raw = bytes_of(bytes);
  QBuffer buffer(&raw);
  buffer.open(QIODevice::ReadOnly);
  QImageReader reader(&buffer);
  reader.setAutoTransform(true);
  QImageReader::setAllocationLimit(PicturePreparer::decoding_limit_mb);
  const QSize size = reader.size();
  if (size.isValid() && (size.width() > at_most.width() || size.height() > at_most.height()))
    reader.setScaledSize(size.scaled(at_most, Qt::KeepAspectRatio).expandedTo({1, 1}));
  return reader.read();
}

}  // namespace prillbook::ui
