// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/tables/encoding.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "core/base/text.h"

namespace prillbook::tables {
namespace {

std::string wide(std::u16string_view text, bool little) {
  std::string bytes;
  for (const char16_t unit : text) {
    const char low = static_cast<char>(unit & 0xFF), high = static_cast<char>(unit >> 8);
    bytes += little ? low : high;
    bytes += little ? high : low;
  }
  return bytes;
}

// Source: CP1252.TXT, "cp1252 to Unicode table", table version 2.01, Unicode Consortium
// (unicode.org/Public/MAPPINGS/VENDORS/MICSFT/WINDOWS); 0: listed there as undefined.
constexpr char32_t published[32] = {0x20AC, 0,      0x201A, 0x0192, 0x201E, 0x2026, 0x2020, 0x2021, 0x02C6, 0x2030, 0x0160,
                                    0x2039, 0x0152, 0,      0x017D, 0,      0,      0x2018, 0x2019, 0x201C, 0x201D, 0x2022,
                                    0x2013, 0x2014, 0x02DC, 0x2122, 0x0161, 0x203A, 0x0153, 0,      0x017E, 0x0178};

TEST(Windows1252, IsThePublishedTable) {
  for (unsigned byte = 0; byte < 256; ++byte) {
    const char32_t wanted = byte >= 0x80 && byte < 0xA0 ? published[byte - 0x80] : byte;
    EXPECT_EQ(letter_of_windows_1252(static_cast<unsigned char>(byte)), wanted) << byte;
  }
}

TEST(Decode, FindsTheEncodingAndSaysIt) {
  struct Case {
    std::string bytes;
    Encoding encoding;
    std::string text;
  };
  for (const Case& one :
       {Case{"mark;kg", Encoding::utf8, "mark;kg"}, Case{"\xEF\xBB\xBFm\xC3\xA4rk", Encoding::utf8, "märk"},
        Case{"H\xF6lle \x80", Encoding::windows_1252, "Hölle €"}, Case{"H\xC3\xB6lle", Encoding::utf8, "Hölle"},
        Case{"\xFF\xFE" + wide(u"mö €", true), Encoding::utf16_le, "mö €"},
        Case{"\xFE\xFF" + wide(u"mö €", false), Encoding::utf16_be, "mö €"},
        Case{wide(u"mark;mass;place", true), Encoding::utf16_le, "mark;mass;place"},
        Case{wide(u"mark;mass;place", false), Encoding::utf16_be, "mark;mass;place"},
        Case{"\xFF\xFE" + wide(u"\xD83D\xDC8E", true), Encoding::utf16_le, "💎"}, Case{"", Encoding::utf8, ""}}) {
    const auto decoded = decode(one.bytes);
    ASSERT_TRUE(decoded.ok()) << one.text;
    EXPECT_EQ(decoded->encoding, one.encoding) << one.text;
    EXPECT_EQ(decoded->text, one.text);
  }
}

TEST(Decode, WhatIsNoLetterStaysToBeSeen) {
  EXPECT_EQ(decode("a\x81z", Encoding::windows_1252)->text, "a\xEF\xBF\xBDz");
  EXPECT_EQ(decode("a\xFFz", Encoding::utf8)->text, "a\xEF\xBF\xBDz");
  EXPECT_EQ(decode("\xFF\xFE" + wide(u"a\xD800"
                                     u"b",
                                     true))
                ->text,
            "a\xEF\xBF\xBD"
            "b");
  EXPECT_EQ(decode("\xFF\xFE" + wide(u"a", true) + "b")->text, "a\xEF\xBF\xBD");
}

TEST(Decode, RefusesZeroBytesWithTheirLine) {
  const auto refused = decode(std::string_view("a\nb\nc\0d", 7));
  ASSERT_FALSE(refused.ok());
  EXPECT_EQ(refused.error().code, ErrorCode::inconsistent);
  EXPECT_EQ(refused.error().field, "nul");
  EXPECT_EQ(refused.error().arguments.front(), "3");
}

TEST(Decode, RefusesAFileAboveTheLimit) {
  const std::string large(largest_file + 1, 'x');
  const auto refused = decode(large);
  ASSERT_FALSE(refused.ok());
  EXPECT_EQ(refused.error().field, "file_size");
  EXPECT_TRUE(decode(std::string_view(large).substr(1)).ok());
}

RC_GTEST_PROP(Decode, AnyBytesGiveTextOrARefusal, (std::string bytes)) {
  for (const auto as : {std::optional<Encoding>{}, std::optional(Encoding::utf8), std::optional(Encoding::utf16_le),
                        std::optional(Encoding::utf16_be), std::optional(Encoding::windows_1252)}) {
    const auto decoded = decode(bytes, as);
    RC_ASSERT(!decoded.ok() || is_utf8(decoded->text));
  }
}

TEST(EncodingNames, LeadBack) {
  for (const Encoding encoding : encodings) EXPECT_EQ(encoding_by_name(encoding_name(encoding)), encoding);
  EXPECT_FALSE(encoding_by_name("latin-9"));
}

}  // namespace
}  // namespace prillbook::tables
