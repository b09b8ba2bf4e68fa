// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/clock.h"

#include <gtest/gtest.h>

namespace prillbook {
namespace {

TEST(Clock, IsoRoundTripKeepsTheOffset) {
  const auto instant = parse_iso("2026-05-04T09:30:15.250+02:00");
  ASSERT_TRUE(instant.ok());
  EXPECT_EQ(to_iso(*instant), "2026-05-04T09:30:15.250+02:00");
  EXPECT_EQ(local_date(*instant), "2026-05-04");
  EXPECT_EQ(local_time(*instant), "09:30");
}

// RFC 3339 section 5.8: 1996-12-19T16:39:57-08:00 is 1996-12-20T00:39:57Z.
TEST(Clock, RfcExampleIsTheSameInstant) {
  EXPECT_EQ(parse_iso("1996-12-19T16:39:57-08:00")->utc_ms, parse_iso("1996-12-20T00:39:57Z")->utc_ms);
}

TEST(Clock, RefusesWhatIsNoTime) {
  for (const char* text : {"", "2026-02-30T10:00Z", "2026-05-04T25:00Z", "2026-05-04T10:00", "yesterday", "2026-05-04T10:00+15:00"})
    EXPECT_FALSE(parse_iso(text).ok()) << text;
}

}  // namespace
}  // namespace prillbook
