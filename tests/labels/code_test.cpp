// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/labels/code.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "core/fire/charge_record.h"
#include "core/labels/statements.h"
#include "tests/support/records.h"

namespace prillbook::labels {
namespace {

using history::Entity;

TEST(LabelCode, SaysWhatItStandsFor) {
  EXPECT_EQ(code_text({CodeKind::sample, "26-0003", 0}), "PB1:S:26-0003");
  EXPECT_EQ(code_text({CodeKind::portion, "26-0003", 2}), "PB1:P:26-0003/2");
  EXPECT_EQ(code_text({CodeKind::charge, "26-0003", 12}), "PB1:C:26-0003/12");
  EXPECT_EQ(code_text({CodeKind::consignment, "26-C01", 0}), "PB1:K:26-C01");
}

TEST(LabelCode, IsReadWhateverTheCaseOfItsHead) {
  EXPECT_EQ(parse_code("  pb1:s:26-0003 ").value(), (Code{CodeKind::sample, "26-0003", 0}));
  EXPECT_EQ(parse_code("PB1:p:26-0003/2").value(), (Code{CodeKind::portion, "26-0003", 2}));
}

TEST(LabelCode, ANumberMayHoldColonsAndSlashes) {
  EXPECT_EQ(parse_code("PB1:S:26/0003").value().number, "26/0003");
  EXPECT_EQ(parse_code("PB1:P:26/0003:b/4").value(), (Code{CodeKind::portion, "26/0003:b", 4}));
}

struct Refused {
  const char* text;
  ErrorCode code;
};

class LabelCodeRefused : public testing::TestWithParam<Refused> {};

TEST_P(LabelCodeRefused, WithItsReason) {
  const auto read = parse_code(GetParam().text);
  ASSERT_FALSE(read.ok()) << GetParam().text;
  EXPECT_EQ(read.error().code, GetParam().code) << read.error().detail;
  EXPECT_FALSE(read.error().detail.empty());
}

INSTANTIATE_TEST_SUITE_P(
    EachKind, LabelCodeRefused,
    testing::Values(Refused{"", ErrorCode::wrong_type}, Refused{"26-0003", ErrorCode::wrong_type},
                    Refused{"PB:S:26-0003", ErrorCode::wrong_type}, Refused{"PBX:S:26-0003", ErrorCode::wrong_type},
                    Refused{"PB2:S:26-0003", ErrorCode::newer_version}, Refused{"PB12:S:26-0003", ErrorCode::newer_version},
                    Refused{"PB1:", ErrorCode::out_of_range}, Refused{"PB1:S", ErrorCode::out_of_range},
                    Refused{"PB1:S:", ErrorCode::out_of_range}, Refused{"PB1:X:26-0003", ErrorCode::out_of_range},
                    Refused{"PB1:SP:26-0003", ErrorCode::out_of_range}, Refused{"PB1:P:26-0003", ErrorCode::out_of_range},
                    Refused{"PB1:P:26-0003/", ErrorCode::out_of_range}, Refused{"PB1:P:26-0003/0", ErrorCode::out_of_range},
                    Refused{"PB1:P:26-0003/02", ErrorCode::out_of_range}, Refused{"PB1:P:26-0003/-2", ErrorCode::out_of_range},
                    Refused{"PB1:P:26-0003/2x", ErrorCode::out_of_range},
                    Refused{"PB1:P:26-0003/99999999999999999999", ErrorCode::out_of_range},
                    Refused{"PB1:P:/2", ErrorCode::out_of_range}, Refused{"PB1:S: 26-0003", ErrorCode::out_of_range},
                    Refused{"PB1:S:26\t0003", ErrorCode::out_of_range}, Refused{"PB1:S:\xff", ErrorCode::out_of_range}));

TEST(LabelCode, ATextOfAnyLengthIsNoHarm) {
  EXPECT_EQ(parse_code("PB1:S:" + std::string(200, '7')).error().code, ErrorCode::out_of_range);
  EXPECT_EQ(parse_code(std::string(1 << 20, ':')).error().code, ErrorCode::out_of_range);
}

RC_GTEST_PROP(LabelCode, WhatIsWrittenIsReadBack, ()) {
  static const std::string letters = "0123456789-/:ABCxyz.{}+ ";
  Code code;
  code.kind = *rc::gen::element(CodeKind::consignment, CodeKind::sample, CodeKind::portion, CodeKind::charge);
  code.number = *rc::gen::suchThat(rc::gen::resize(40, rc::gen::container<std::string>(rc::gen::elementOf(letters))),
                                   [](const std::string& s) { return !s.empty() && s.front() != ' ' && s.back() != ' '; });
  if (code.kind == CodeKind::portion || code.kind == CodeKind::charge) code.portion = *rc::gen::inRange<std::int64_t>(1, 100000);
  const auto read = parse_code(code_text(code));
  RC_ASSERT(read.ok());
  RC_ASSERT(*read == code);
}

RC_GTEST_PROP(LabelCode, NothingThatIsReadIsWrittenOtherwise, (const std::string& tail)) {
  const auto read = parse_code("PB1:" + tail);
  if (!read.ok()) return;
  const auto again = parse_code(code_text(*read));
  RC_ASSERT(again.ok() && *again == *read);
}

struct LabelPlace : testing::Test, testing_support::LabWithSample<> {
  Result<Place> place(const std::string& text) {
    PRILLBOOK_ASSIGN(const Code code, parse_code(text));
    return find(*connection, code);
  }
};

TEST_F(LabelPlace, EachKindLeadsToItsRecord) {
  const PortionId portion = cut("1 kg", "fire").value();
  EXPECT_EQ(place("PB1:S:26-0001").value(), (Place{Entity::sample, sample.value}));
  EXPECT_EQ(place("PB1:P:26-0001/1").value(), (Place{Entity::portion, portion.value}));
  EXPECT_EQ(place("PB1:K:26-C01").value(), (Place{Entity::consignment, consignment.value}));
  EXPECT_EQ(place("PB1:C:26-0001/1").error().code, ErrorCode::not_found) << "nothing was put in a crucible";
  const auto started = fire::start_charge(book, {portion, {}, person, {}, {}, {}});
  ASSERT_TRUE(started.ok());
  EXPECT_EQ(place("PB1:C:26-0001/1").value(), (Place{Entity::charge, started->charge.value}));
}

TEST_F(LabelPlace, WhatIsNotThereIsNamed) {
  for (const char* text : {"PB1:S:26-0099", "PB1:P:26-0001/7", "PB1:K:26-C99"}) {
    const auto found = place(text);
    ASSERT_FALSE(found.ok());
    EXPECT_EQ(found.error().code, ErrorCode::not_found);
    ASSERT_EQ(found.error().arguments.size(), 1u);
    EXPECT_NE(std::string(text).find(found.error().arguments[0]), std::string::npos);
  }
}

TEST_F(LabelPlace, EveryStatementCompiles) {
  for (const store::Sql* statement : sql::all) EXPECT_TRUE(connection->prepare_only(*statement).ok()) << statement->name;
}

}  // namespace
}  // namespace prillbook::labels
