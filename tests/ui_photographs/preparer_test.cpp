// SPDX-License-Identifier: GPL-3.0-or-later
// Files as cameras and strangers make them; built here byte by byte.
#include "ui/photographs/preparer.h"

#include <gmock/gmock.h>

#include <QtCore/QBuffer>
#include <QtGui/QPainter>

#include "core/history/contents.h"
#include "tests/support/window_hand.h"

namespace prillbook::ui {
namespace {

using attachments::Wish;
using testing_support::WithApplication;

QImage picture(int width, int height) {
  QImage image(width, height, QImage::Format_RGB32);
  image.fill(QColor(120, 90, 60));
  QPainter(&image).fillRect(QRect(0, 0, width / 2, height / 2), QColor(230, 200, 40));
  return image;
}

std::string file_of(const QImage& image, const char* format, int quality = 90) {
  QByteArray bytes;
  QBuffer buffer(&bytes);
  buffer.open(QIODevice::WriteOnly);
  EXPECT_TRUE(image.save(&buffer, format, quality));
  return bytes.toStdString();
}

void put16(std::string& to, unsigned value) {
  to += char(value & 0xFF);
  to += char(value >> 8 & 0xFF);
}
void put32(std::string& to, unsigned value) {
  put16(to, value & 0xFFFF);
  put16(to, value >> 16);
}
void entry(std::string& to, unsigned tag, unsigned type, unsigned count, const std::string& value) {
  put16(to, tag);
  put16(to, type);
  put32(to, count);
  to += value;
  to.append(4 - value.size(), '\0');
}
std::string number32(unsigned value) {
  std::string text;
  put32(text, value);
  return text;
}

// A JPEG with an APP1 segment of EXIF that holds a GPS directory: tag 0x8825 points to it, tag 1 is the latitude's
// hemisphere, tag 2 the latitude in degrees, minutes and seconds (Exif 2.32, sections 4.6.2 and 4.6.6, from memory).
std::string with_gps(const std::string& jpeg, unsigned orientation = 1) {
  std::string tiff = "II";
  put16(tiff, 42);
  put32(tiff, 8);
  put16(tiff, 2);
  std::string turned;
  put16(turned, orientation);
  entry(tiff, 0x0112, 3, 1, turned);
  const unsigned gps_at = 8 + 2 + 2 * 12 + 4;
  entry(tiff, 0x8825, 4, 1, number32(gps_at));
  put32(tiff, 0);
  put16(tiff, 2);
  entry(tiff, 1, 2, 2, std::string("N\0", 2));
  const unsigned degrees_at = gps_at + 2 + 2 * 12 + 4;
  entry(tiff, 2, 5, 3, number32(degrees_at));
  put32(tiff, 0);
  for (const unsigned part : {47u, 12u, 33u}) {
    put32(tiff, part);
    put32(tiff, 1);
  }
  const std::string body = std::string("Exif\0\0", 6) + tiff;
  const std::size_t length = body.size() + 2;
  std::string segment = "\xFF\xE1";
  segment += char(length >> 8 & 0xFF);
  segment += char(length & 0xFF);
  return jpeg.substr(0, 2) + segment + body + jpeg.substr(2);
}

std::string png_with_text(const QImage& image) {
  QImage spoken = image;
  spoken.setText("Location", "47.209 N 13.377 E");
  return file_of(spoken, "png");
}

struct Preparing : WithApplication, testing::Test {
  PicturePreparer preparer;
};

TEST_F(Preparing, ThePlaceIsLeftBehind) {
  const std::string file = with_gps(file_of(picture(300, 200), "jpg"));
  ASSERT_NE(file.find("Exif"), std::string::npos);
  ASSERT_FALSE(QImage::fromData(QByteArray::fromStdString(file)).isNull()) << "the file is a picture before";
  const auto made = preparer.prepare(file, {});
  ASSERT_TRUE(made.ok()) << made.error().detail;
  EXPECT_EQ(made->bytes.find("Exif"), std::string::npos);
  EXPECT_EQ(made->bytes.find(std::string("\x25\x88", 2) + number32(0x10004).substr(0, 2)), std::string::npos)
      << "the tag of the GPS directory";
  EXPECT_EQ(made->bytes.find("\xFF\xE1"), std::string::npos) << "no APP1 segment at all";
  EXPECT_FALSE(made->original);
  EXPECT_EQ(made->width, 300);
  EXPECT_FALSE(QImage::fromData(QByteArray::fromStdString(made->bytes)).isNull());
}

TEST_F(Preparing, TextsOfAPngAreLeftBehind) {
  const std::string file = png_with_text(picture(60, 40));
  ASSERT_NE(file.find("47.209"), std::string::npos);
  const auto made = preparer.prepare(file, {});
  ASSERT_TRUE(made.ok());
  EXPECT_EQ(made->bytes.find("47.209"), std::string::npos);
}

TEST_F(Preparing, WhatIsKeptOnPurposeIsKeptAsItCame) {
  const std::string file = with_gps(file_of(picture(3000, 200), "jpg"));
  const auto made = preparer.prepare(file, {2000, true});
  ASSERT_TRUE(made.ok());
  EXPECT_EQ(made->bytes, file);
  EXPECT_TRUE(made->original);
  EXPECT_EQ(made->width, 3000);
}

TEST_F(Preparing, IsScaledDownAndNeverUp) {
  EXPECT_EQ(preparer.prepare(file_of(picture(4000, 3000), "jpg"), {})->width, 2000);
  EXPECT_EQ(preparer.prepare(file_of(picture(4000, 3000), "jpg"), {})->height, 1500);
  EXPECT_EQ(preparer.prepare(file_of(picture(300, 4000), "png"), {})->height, 2000);
  EXPECT_EQ(preparer.prepare(file_of(picture(300, 200), "png"), {})->width, 300);
  EXPECT_EQ(preparer.prepare(file_of(picture(300, 200), "png"), Wish{100, false})->width, 100);
}

// Orientation 6: the camera was turned; the picture is shown turned by a quarter (Exif 2.32, tag 274, from memory).
TEST_F(Preparing, IsTurnedUpright) {
  const auto made = preparer.prepare(with_gps(file_of(picture(300, 200), "jpg"), 6), {});
  ASSERT_TRUE(made.ok());
  EXPECT_EQ(made->width, 200);
  EXPECT_EQ(made->height, 300);
}

TEST_F(Preparing, WhatIsNoImageIsRefused) {
  for (const std::string& file :
       {std::string(), std::string("no picture"), std::string(5000, '\0'), std::string("\xFF\xD8\xFF"),
        std::string("<svg xmlns='http://www.w3.org/2000/svg' width='9' height='9'/>"), std::string("%PDF-1.7\n")}) {
    const auto made = preparer.prepare(file, {});
    ASSERT_FALSE(made.ok()) << file.substr(0, 10);
    EXPECT_TRUE(made.error().code == ErrorCode::wrong_type || made.error().code == ErrorCode::damaged);
  }
}

TEST_F(Preparing, AFileCutShortIsRefused) {
  for (const char* format : {"jpg", "png"}) {
    const std::string whole = file_of(picture(400, 300), format);
    for (const std::size_t kept : {whole.size() - 12, whole.size() / 2, std::size_t{40}}) {
      const auto made = preparer.prepare(whole.substr(0, kept), {});
      EXPECT_FALSE(made.ok()) << format << " " << kept << " of " << whole.size();
    }
  }
}

TEST_F(Preparing, EveryCutAndEveryFlippedByteIsSurvived) {
  const std::string whole = with_gps(file_of(picture(64, 48), "jpg"));
  for (std::size_t at = 0; at < whole.size(); at += 7) {
    std::string broken = whole;
    broken[at] = char(broken[at] ^ 0x55);
    const auto made = preparer.prepare(broken, {});
    if (made.ok()) {
      EXPECT_FALSE(QImage::fromData(QByteArray::fromStdString(made->bytes)).isNull()) << at;
    }
    (void)preparer.prepare(whole.substr(0, at), {});
  }
}

// The checksum of a chunk of a PNG (PNG specification, annex D).
unsigned checksum(std::string_view bytes) {
  unsigned sum = 0xFFFFFFFF;
  for (const char c : bytes) {
    sum ^= static_cast<unsigned char>(c);
    for (int bit = 0; bit < 8; ++bit) sum = sum & 1 ? 0xEDB88320 ^ (sum >> 1) : sum >> 1;
  }
  return ~sum;
}

// A few bytes that say they are a picture of so many pixels each way.
std::string png_that_claims(unsigned side) {
  std::string file = file_of(picture(8, 8), "png");
  const auto put = [&](std::size_t at, unsigned value) {
    for (int i = 0; i < 4; ++i) file[at + std::size_t(i)] = char(value >> (24 - 8 * i) & 0xFF);
  };
  put(16, side);
  put(20, side);
  put(29, checksum(std::string_view(file).substr(12, 17)));
  return file;
}

TEST_F(Preparing, AHugePictureIsRefusedBeforeItIsDecoded) {
  EXPECT_TRUE(preparer.prepare(png_that_claims(8), {}).ok()) << "the checksum is right";
  for (const unsigned side : {10'000u, 20'000u, 60'000u, 2'000'000'000u}) {
    const auto made = preparer.prepare(png_that_claims(side), {});
    ASSERT_FALSE(made.ok()) << side;
    if (side > 1'000'000) continue;  // more than the format's reader takes for a picture
    EXPECT_EQ(made.error().code, ErrorCode::out_of_range) << made.error().detail;
    EXPECT_EQ(made.error().arguments.size(), 2u) << "what it has and the limit";
  }
}

TEST_F(Preparing, AHugeBitmapIsRefused) {
  std::string bomb = file_of(picture(8, 8), "bmp");
  for (const std::size_t at : {std::size_t{18}, std::size_t{22}}) {
    bomb[at] = char(0x20);  // 20 000 by 20 000
    bomb[at + 1] = char(0x4E);
    bomb[at + 2] = bomb[at + 3] = 0;
  }
  EXPECT_FALSE(preparer.prepare(bomb, {}).ok());
}

TEST_F(Preparing, ALargeFileThatCanBeDecodedIsScaledDown) {
  const std::string file = file_of(picture(2500, 2500), "bmp");
  ASSERT_GT(file.size(), history::most_content_bytes);
  const auto made = preparer.prepare(file, {});
  ASSERT_TRUE(made.ok()) << made.error().detail;
  EXPECT_LT(made->bytes.size(), std::size_t{1'000'000});
  const auto kept = preparer.prepare(file, {2000, true});
  ASSERT_FALSE(kept.ok()) << "as it is, it does not go in";
  EXPECT_EQ(kept.error().code, ErrorCode::out_of_range);
  EXPECT_THAT(kept.error().arguments, testing::ElementsAre("18.8 MB", "16.8 MB"));
}

TEST_F(Preparing, AFileBeyondTheLimitIsNotLookedAt) {
  const auto made = preparer.prepare(std::string(std::size_t(attachments::most_file_bytes) + 1, '\0'), {});
  ASSERT_FALSE(made.ok());
  EXPECT_EQ(made.error().code, ErrorCode::out_of_range);
}

TEST_F(Preparing, WhatCanBeSeenThroughIsWhite) {
  QImage glass(20, 20, QImage::Format_ARGB32);
  glass.fill(Qt::transparent);
  const auto made = preparer.prepare(file_of(glass, "png"), {});
  ASSERT_TRUE(made.ok());
  EXPECT_GT(QImage::fromData(QByteArray::fromStdString(made->bytes)).pixelColor(10, 10).lightness(), 250);
}

}  // namespace
}  // namespace prillbook::ui
