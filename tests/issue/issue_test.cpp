// SPDX-License-Identifier: GPL-3.0-or-later
// Drafts, issue and amendment: what is issued is frozen and kept to the byte, and a later change is noticed.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "core/exchange/issue_summary.h"
#include "core/exchange/notebook_dump.h"
#include "core/findings/finding.h"
#include "core/history/contents.h"
#include "core/issue/basis.h"
#include "tests/support/files.h"
#include "tests/support/summary_bench.h"

namespace prillbook::issue {
namespace {

using ::testing::HasSubstr;
using testing_support::figure;
using testing_support::SummaryBench;
using testing_support::words_of;

struct IssueTest : ::testing::Test, SummaryBench {
  int painted = 0;

  // A painter whose files differ each time, as those of a real one do.
  exchange::PaintPdf painter() {
    return [this](const summary::Report& report, bool letter) -> Result<std::string> {
      return fmt::format("%PDF {} {} {}", ++painted, letter ? "letter" : "a4", words_of(report));
    };
  }
  SummaryId draft() { return begin_draft(book, {client, {sample}}).value(); }
  Result<void> issue(SummaryId id, const LabKey* key = nullptr) {
    return exchange::issue_summary(book, {id, person, key}, painter());
  }
  SummaryId issued() {
    const SummaryId id = draft();
    const auto outcome = issue(id);
    EXPECT_TRUE(outcome.ok()) << (outcome.ok() ? "" : outcome.error().detail);
    return id;
  }
  Summary held(SummaryId id) { return summary(*connection, id).value(); }
  std::vector<findings::OpenOrAnswered> noticed(const std::string& rule) {
    std::vector<findings::OpenOrAnswered> found;
    for (auto& one : findings::findings_of(*connection, sample).value())
      if (one.finding.rule == rule) found.push_back(one);
    return found;
  }
};

TEST_F(IssueTest, DraftsAreNumberedAndANumberIsNeverGivenTwice) {
  const SummaryId first = draft();
  const std::string number = held(first).number;
  EXPECT_THAT(number, HasSubstr("-S01"));
  ASSERT_TRUE(drop_draft(book, first).ok());
  EXPECT_NE(held(draft()).number, number);
  EXPECT_EQ(summaries(*connection, client)->size(), 1u) << "the dropped one is struck out";
}

TEST_F(IssueTest, ADraftIsRefusedWithoutASampleOrWithAStrangers) {
  EXPECT_EQ(begin_draft(book, {client, {}}).error().code, ErrorCode::missing_key);
  const ClientId other = lab::add_client(book, "Another").value();
  EXPECT_EQ(begin_draft(book, {other, {sample}}).error().code, ErrorCode::conflict);
  EXPECT_EQ(begin_draft(book, {client, {sample}, {"appendix"}}).error().code, ErrorCode::out_of_range);
}

TEST_F(IssueTest, APriceNeedsItsUnitAndItsDay) {
  NewDraft fresh{client, {sample}};
  fresh.price.gold = "2300";
  EXPECT_EQ(begin_draft(book, fresh).error().code, ErrorCode::inconsistent);
  fresh.price.unit = "USD/ozt";
  fresh.price.date = "4 May";
  EXPECT_EQ(begin_draft(book, fresh).error().code, ErrorCode::out_of_range);
  fresh.price.date = "2026-05-04";
  for (const char* odd : {"nan", "-3", "0", "12 USD", ""}) {
    fresh.price.gold = odd;
    EXPECT_FALSE(begin_draft(book, fresh).ok()) << odd;
  }
  fresh.price.gold = "2300";
  EXPECT_TRUE(begin_draft(book, fresh).ok());
}

TEST_F(IssueTest, TheIssuedBytesAreKeptAndGivenAgain) {
  pan_with_gap();
  const SummaryId id = issued();
  const Summary now = held(id);
  ASSERT_TRUE(now.is_issued());
  const std::string pdf = issued_pdf(*connection, id).value();
  EXPECT_THAT(pdf, HasSubstr("%PDF 1 a4"));
  EXPECT_THAT(pdf, HasSubstr("Summary of tests " + now.number));
  EXPECT_THAT(pdf, HasSubstr("End of summary " + now.number));
  EXPECT_EQ(now.file_hash, history::hex_digest(pdf));
  EXPECT_EQ(now.content_hash.size(), 64u);
  EXPECT_EQ(issued_pdf(*connection, id).value(), pdf);
  EXPECT_EQ(painted, 1) << "it is not painted a second time";
}

TEST_F(IssueTest, WhatIsIssuedIsFrozen) {
  const SummaryId id = issued();
  EXPECT_EQ(issue(id).error().code, ErrorCode::conflict);
  EXPECT_EQ(change_draft(book, id, {client, {sample}, {"methods"}}).error().code, ErrorCode::conflict);
  EXPECT_EQ(drop_draft(book, id).error().code, ErrorCode::conflict);
  EXPECT_FALSE(readings::enter(book, history::fields::summary::hidden, id.value, std::string("methods")).ok())
      << "the notebook itself refuses";
  EXPECT_FALSE(book.undo().ok()) << "nor is it taken back";
  EXPECT_TRUE(held(id).is_issued());
}

TEST_F(IssueTest, ADraftCanBeChanged) {
  const SummaryId id = draft(), other = draft();
  const SampleId second = log_sample("Larch adit S", "2 kg");
  NewDraft wanted{client, {second, sample}, {"methods", "custody"}, true};
  ASSERT_TRUE(change_draft(book, id, wanted).ok());
  EXPECT_EQ(held(id).samples, (std::vector<SampleId>{second, sample}));
  EXPECT_EQ(held(id).hidden, wanted.hidden);
  EXPECT_TRUE(held(id).letter);
  EXPECT_EQ(held(other).samples, std::vector<SampleId>{sample});
}

// Painted beside the window: what is kept is what the notebook says at that moment, or nothing.
TEST_F(IssueTest, WhatIsWrittenMeanwhileHoldsItBack) {
  const SummaryId id = draft();
  const exchange::IssueWish wish{id, person};
  const auto prepare = [&] {
    const auto painted = exchange::draft_to_issue(*connection, wish, clock.now()).value();
    return exchange::prepared(*connection, wish, painted, summary::report_of_summary(*connection, painted, clock.now()).value())
        .value();
  };
  const auto early = prepare();
  ASSERT_TRUE(cut("10 g", "reject").ok());
  EXPECT_EQ(exchange::keep_issued(book, wish, early, "%PDF-1.4 x").error().code, ErrorCode::changed_since);
  EXPECT_FALSE(held(id).is_issued());
  EXPECT_TRUE(exchange::keep_issued(book, wish, prepare(), "%PDF-1.4 x").ok());
  EXPECT_TRUE(held(id).is_issued());
}

TEST_F(IssueTest, NothingIsWrittenWhereThePainterFails) {
  const SummaryId id = draft();
  const auto head = book.head();
  const auto outcome = exchange::issue_summary(book, {id, person}, [](const summary::Report&, bool) -> Result<std::string> {
    return refusal(ErrorCode::damaged, "", "no ink");
  });
  EXPECT_EQ(outcome.error().code, ErrorCode::damaged);
  EXPECT_FALSE(held(id).is_issued());
  EXPECT_EQ(book.head(), head);
  EXPECT_EQ(exchange::issue_summary(book, {id, {}}, painter()).error().code, ErrorCode::missing_key);
}

// ISO/IEC 17025:2017, 7.8.8 (from memory): an amended report is identified, says what it replaces, what changed and why.
TEST_F(IssueTest, AnAmendmentNamesTheOldOneWhatChangedAndWhy) {
  pan_with_gap();
  const SummaryId first = issued();
  EXPECT_EQ(amend(book, first, " ", "slip").error().code, ErrorCode::missing_key);
  EXPECT_EQ(amend(book, first, "bead", "").error().code, ErrorCode::missing_key);
  const SummaryId second = amend(book, first, "the bead mass", "a slip of the point.").value();
  EXPECT_EQ(amend(book, first, "again", "again").error().code, ErrorCode::conflict);
  EXPECT_EQ(amend(book, second, "a draft", "still").error().code, ErrorCode::conflict);
  EXPECT_FALSE(*amended_by(*connection, first)) << "a draft takes nobody's place";
  ASSERT_TRUE(issue(second).ok());
  EXPECT_EQ((*amended_by(*connection, first))->number, held(second).number);
  const std::string pdf = issued_pdf(*connection, second).value();
  EXPECT_THAT(pdf, HasSubstr("This summary takes the place of " + held(first).number + " of "));
  EXPECT_THAT(pdf, HasSubstr("What changed: the bead mass. Why: a slip of the point."));
}

TEST_F(IssueTest, AFileIsKnownAgainOrNot) {
  const SummaryId first = issued();
  const std::string pdf = issued_pdf(*connection, first).value();
  const auto known = verify(*connection, pdf).value();
  ASSERT_TRUE(known.issued);
  EXPECT_EQ(known.issued->id, first);
  EXPECT_TRUE(known.amended.empty());
  std::string changed = pdf;
  changed.back() ^= 1;
  EXPECT_FALSE(verify(*connection, changed)->issued);
  EXPECT_FALSE(verify(*connection, "")->issued);
  const SummaryId second = amend(book, first, "a", "b").value();
  ASSERT_TRUE(issue(second).ok());
  const auto amended = verify(*connection, pdf).value();
  ASSERT_EQ(amended.amended.size(), 1u);
  EXPECT_EQ(amended.amended.front().id, second);
}

TEST_F(IssueTest, AChangedReadingBehindAnIssuedSummaryIsNoticed) {
  const auto panned = pan_with_gap();
  const SummaryId id = issued();
  EXPECT_TRUE(noticed("issued_changed").empty());
  cut("20 g", "retain").value();
  EXPECT_TRUE(noticed("issued_changed").empty()) << "a portion that came later changes nothing";
  touchstone(panned.bead, "800");
  const auto found = noticed("issued_changed");
  ASSERT_EQ(found.size(), 1u);
  EXPECT_THAT(found[0].finding.seen, HasSubstr(held(id).number));
  EXPECT_THAT(found[0].finding.seen, HasSubstr("fineness"));
  EXPECT_EQ(found[0].finding.evidence.front().record, id.value);
  const SummaryId next = amend(book, id, "fineness", "read anew").value();
  ASSERT_TRUE(issue(next).ok());
  EXPECT_TRUE(noticed("issued_changed").empty()) << "the newest summary holds what stands";
}

TEST_F(IssueTest, AnotherWeighingOfATestThatWasIssuedIsNoticed) {
  const auto panned = pan_with_gap();
  issued();
  weigh(panned.bead, "22.100 mg");
  EXPECT_EQ(noticed("issued_changed").size(), 1u);
}

TEST_F(IssueTest, TheDumpHoldsWhatWasIssuedAndGivesItBack) {
  const SummaryId id = issued();
  const std::string dump = exchange::dump_notebook(*connection).value();
  EXPECT_THAT(dump, HasSubstr(history::base64(issued_pdf(*connection, id).value())));
  testing_support::TempFolder folder;
  const std::string path = folder.file("restored.prillbook");
  const auto restored = exchange::restore_notebook(dump, path);
  ASSERT_TRUE(restored.ok()) << restored.error().detail;
  const auto again = store::Connection::open(path, store::Access::read_only).value();
  EXPECT_EQ(exchange::dump_notebook(*again).value(), dump);
  EXPECT_EQ(issued_pdf(*again, id).value(), issued_pdf(*connection, id).value());
}

// RFC 8032, section 7.1, test 1, the empty message (from memory; the vector has to verify with libsodium).
// The pan far above the fire, by more than grains of 100 µm explain: a finding that stops.
struct StoppedTest : IssueTest {
  StoppedTest() {
    const auto pan = *gravity::start_pan_test(book, {*cut("1 kg", "pan"), {}, person, {}});
    const auto charge = *fire::start_charge(book, {*cut("100 g", "fire"), {}, person, {}, {}, {}});
    for (const auto& [bead, mass] : {std::pair{pan.bead, "60 mg"}, std::pair{charge.bead, "2 mg"}}) {
      EXPECT_TRUE(weighing::weigh(book, {bead, "bead", figure(mass), balance, {}, person}).ok());
      EXPECT_TRUE(weighing::set_fineness(book, bead, "touchstone", figure("800", Measure::fineness), {}).ok());
    }
    EXPECT_TRUE(readings::enter(book, history::fields::pan_test::largest_colour, pan.test.value,
                                readings::cell_of(readings::Figure{figure("100 um", Measure::opening)}))
                    .ok());
  }
};

TEST_F(StoppedTest, AnOpenStopHoldsASummaryBackAndItsAnswerIsPrinted) {
  const SummaryId id = draft();
  const auto outcome = issue(id);
  ASSERT_FALSE(outcome.ok());
  EXPECT_EQ(outcome.error().code, ErrorCode::conflict);
  EXPECT_THAT(outcome.error().arguments.front(), HasSubstr("The pan caught more gold"));
  EXPECT_FALSE(held(id).is_issued());
  ASSERT_TRUE(findings::answer(book, noticed("pan_above_fire").front().finding, "one grain of 2 mm was seen").ok());
  ASSERT_TRUE(issue(id).ok());
  EXPECT_FALSE(held(id).preliminary);
  EXPECT_THAT(issued_pdf(*connection, id).value(), HasSubstr("Answer of the lab: one grain of 2 mm was seen"));
}

TEST_F(StoppedTest, AStopIsIssuedOverAsPreliminaryWhereThatIsWished) {
  const SummaryId id = draft();
  ASSERT_TRUE(exchange::issue_summary(book, {id, person, nullptr, true}, painter()).ok());
  EXPECT_TRUE(held(id).preliminary);
  EXPECT_THAT(issued_pdf(*connection, id).value(), HasSubstr("Preliminary summary of tests"));
}

TEST(LabKeyTest, SignsAsTheStandardSays) {
  const std::string seed{
      "\x9d\x61\xb1\x9d\xef\xfd\x5a\x60\xba\x84\x4a\xf4\x92\xec\x2c\xc4\x44\x49\xc5\x69\x7b\x32\x69\x19\x70\x3b\xac\x03\x1c\xae"
      "\x7f\x60",
      32};
  const auto key = key_of_seed(seed);
  ASSERT_TRUE(key.ok());
  EXPECT_EQ(key->public_hex(), "d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a");
  EXPECT_EQ(
      key->sign(""),
      "e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555fb8821590a33bacc61e39701cf9b46bd25bf5f0595bbe2465514143"
      "8e7a100b");
  EXPECT_EQ(key_of_seed("short").error().code, ErrorCode::out_of_range);
}

TEST(LabKeyTest, TheFileOpensWithItsPassphraseAlone) {
  const auto key = new_key();
  ASSERT_TRUE(key.ok());
  EXPECT_EQ(sealed(*key, "short").error().code, ErrorCode::too_small);
  const std::string text = sealed(*key, "a long passphrase").value();
  EXPECT_EQ(text.find(key->sign("x").substr(0, 32)), std::string::npos);
  const auto opened = unsealed(text, "a long passphrase");
  ASSERT_TRUE(opened.ok()) << opened.error().detail;
  EXPECT_EQ(opened->public_hex(), key->public_hex());
  EXPECT_EQ(opened->sign("x"), key->sign("x"));
  EXPECT_EQ(unsealed(text, "another passphrase").error().code, ErrorCode::conflict);
  for (const char* odd : {"", "{", "[]", "{}", "null", R"({"format":"prillbook lab key","work":99999999999,"memory_bytes":1})"})
    EXPECT_FALSE(unsealed(odd, "a long passphrase").ok()) << odd;
}

TEST_F(IssueTest, ASignedSummaryIsVerifiedByItsKey) {
  const auto key = new_key();
  ASSERT_TRUE(key.ok());
  const SummaryId id = draft();
  ASSERT_TRUE(issue(id, &*key).ok());
  const std::string pdf = issued_pdf(*connection, id).value();
  EXPECT_EQ(verify(*connection, pdf)->sign, Signed::valid);
  EXPECT_TRUE(is_signed(pdf, key->public_hex(), held(id).signature));
  EXPECT_FALSE(is_signed(pdf + " ", key->public_hex(), held(id).signature));
  EXPECT_FALSE(is_signed(pdf, "zz", "not hex"));
}

// 45 g/t at 100 USD/g are 4500 USD in a tonne; a short ton is 0.90718474 t (NIST SP 811, appendix B.8): 4082.33 USD.
TEST_F(IssueTest, MetalValueStandsOnlyWithAPrice) {
  pan_with_gap();
  Summary one = held(draft());
  const auto words = [&] { return words_of(summary::report_of_summary(*connection, one, book.clock().now())->report); };
  EXPECT_THAT(words(), ::testing::Not(HasSubstr("worth 4")));
  one.price = {"100", {}, "USD/g", "2026-05-04"};
  const std::string text = words();
  EXPECT_THAT(text, HasSubstr("At 100 USD for one g of gold on 2026-05-04"));
  EXPECT_THAT(text, HasSubstr("in one metric tonne is worth 4500"));
  EXPECT_THAT(text, HasSubstr("in one short ton 4082"));
  EXPECT_THAT(text, HasSubstr("it is not what the rock fetches"));
}

}  // namespace
}  // namespace prillbook::issue
