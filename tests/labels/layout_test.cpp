// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/labels/layout.h"

#include <gmock/gmock.h>
#include <rapidcheck/gtest.h>

#include <filesystem>
#include <set>

#include "tests/support/files.h"

namespace prillbook::labels {
namespace {

std::string json(const std::string& change = "", const std::string& with = "") {
  std::string text = R"({"name":"own","paper":"a4","columns":3,"rows":8,"width_mm":70,"height_mm":37,"left_mm":0,"top_mm":0.5})";
  if (const auto at = text.find(change); !change.empty() && at != std::string::npos) text.replace(at, change.size(), with);
  return text;
}

TEST(Layouts, EveryFileIsReadAndFitsItsPage) {
  std::size_t files = 0;
  for (const auto& file : std::filesystem::directory_iterator(PRILLBOOK_SOURCE_DIR "/resources/labels")) {
    const auto layout = parse_layout(testing_support::file_text(file.path().string()));
    ASSERT_TRUE(layout.ok()) << file.path() << " " << layout.error().detail;
    EXPECT_EQ(layout->name, file.path().stem().string());
    EXPECT_EQ(layout_by_name(layout->name).value(), *layout);
    ++files;
  }
  EXPECT_EQ(layouts().size(), files);
  EXPECT_GE(files, 6u);
}

TEST(Layouts, AnUnknownNameIsToldWhatThereIs) {
  const auto layout = layout_by_name("a4-9x9");
  ASSERT_FALSE(layout.ok());
  EXPECT_EQ(layout.error().code, ErrorCode::not_found);
  EXPECT_THAT(layout.error().detail, testing::HasSubstr("a4-3x8"));
}

// ISO 216: A4 is 210 by 297 mm. Letter: 8 1/2 by 11 inches of 25.4 mm (ANSI Y14.1, from memory).
TEST(Layouts, PagesHaveTheirSize) {
  EXPECT_EQ(page_of(SheetPaper::a4).width, 210);
  EXPECT_EQ(page_of(SheetPaper::a4).height, 297);
  EXPECT_DOUBLE_EQ(page_of(SheetPaper::letter).width, 8.5 * 25.4);
  EXPECT_DOUBLE_EQ(page_of(SheetPaper::letter).height, 11 * 25.4);
}

struct Bad {
  const char* change;
  const char* with;
  ErrorCode code;
};

class BadLayout : public testing::TestWithParam<Bad> {};

TEST_P(BadLayout, IsRefused) {
  ASSERT_TRUE(parse_layout(json()).ok());
  const auto layout = parse_layout(json(GetParam().change, GetParam().with));
  ASSERT_FALSE(layout.ok()) << GetParam().with;
  EXPECT_EQ(layout.error().code, GetParam().code) << layout.error().detail;
}

INSTANTIATE_TEST_SUITE_P(EachKind, BadLayout,
                         testing::Values(Bad{"{", "", ErrorCode::malformed_json},
                                         Bad{"\"rows\":8", "\"rows\":0", ErrorCode::out_of_range},
                                         Bad{"\"rows\":8", "\"rows\":-1", ErrorCode::out_of_range},
                                         Bad{"\"rows\":8", "\"rows\":2.5", ErrorCode::out_of_range},
                                         Bad{"\"rows\":8", "\"rows\":1e9", ErrorCode::out_of_range},
                                         Bad{"\"rows\":8", "\"rows\":9", ErrorCode::inconsistent},
                                         Bad{"\"columns\":3", "\"columns\":4", ErrorCode::inconsistent},
                                         Bad{"\"columns\":3", "\"columns\":\"3\"", ErrorCode::wrong_type},
                                         Bad{"\"width_mm\":70", "\"width_mm\":20", ErrorCode::out_of_range},
                                         Bad{"\"height_mm\":37", "\"height_mm\":5", ErrorCode::out_of_range},
                                         Bad{"\"width_mm\":70", "\"width_mm\":-70", ErrorCode::out_of_range},
                                         Bad{"\"left_mm\":0", "\"left_mm\":-1", ErrorCode::out_of_range},
                                         Bad{"\"top_mm\":0.5", "\"top_mm\":20", ErrorCode::inconsistent},
                                         Bad{"\"top_mm\":0.5", "\"top_mm\":0.5,\"row_pitch_mm\":30", ErrorCode::conflict},
                                         Bad{"\"top_mm\":0.5", "\"top_mm\":0.5,\"gap\":1", ErrorCode::unknown_key},
                                         Bad{",\"top_mm\":0.5", "", ErrorCode::missing_key},
                                         Bad{"\"a4\"", "\"a3\"", ErrorCode::out_of_range}));

TEST(Spots, BeginWhereTheUsedPartEnds) {
  const Layout layout = layout_by_name("a4-3x8").value();
  const auto where = spots(layout, 3, 23).value();
  ASSERT_EQ(where.size(), 3u);
  EXPECT_EQ(where[0].sheet, 0);
  EXPECT_EQ(where[0].place, 23);
  EXPECT_EQ(where[1].place, 24);
  EXPECT_EQ(where[2].sheet, 1);
  EXPECT_EQ(where[2].place, 1);
  for (const int start : {0, -1, 25}) {
    const auto refused = spots(layout, 1, start);
    ASSERT_FALSE(refused.ok());
    EXPECT_EQ(refused.error().code, ErrorCode::out_of_range);
    EXPECT_EQ(refused.error().arguments.back(), "24");
  }
}

RC_GTEST_PROP(Spots, NoTwoLabelsShareAPlaceAndNoneLeavesThePage, ()) {
  const Layout layout = *rc::gen::elementOf(layouts());
  const int start = *rc::gen::inRange(1, layout.count() + 1);
  const auto count = *rc::gen::inRange<std::size_t>(1, 200);
  const auto where = spots(layout, count, start).value();
  std::set<std::pair<int, int>> seen;
  const Page page = page_of(layout.paper);
  for (const Spot& spot : where) {
    RC_ASSERT(seen.insert({spot.sheet, spot.place}).second);
    const Rectangle area = place_on(layout, spot.place);
    RC_ASSERT(area.left >= 0 && area.top >= 0);
    RC_ASSERT(area.left + area.width <= page.width + 0.1 && area.top + area.height <= page.height + 0.1);
  }
}

}  // namespace
}  // namespace prillbook::labels
