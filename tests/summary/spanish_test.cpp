// SPDX-License-Identifier: GPL-3.0-or-later
// The client's pages in Spanish: every sentence of ours, its decimal comma, its headings, and nothing of English left.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "core/exchange/csv.h"
#include "core/findings/board.h"
#include "core/lab/own_texts.h"
#include "core/summary/gather.h"
#include "tests/support/summary_bench.h"

namespace prillbook::summary {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;
using testing_support::SummaryBench;
using testing_support::words_of;

struct SpanishTest : ::testing::Test, SummaryBench {
  std::string page(const std::optional<std::string>& language = "es") {
    return words_of(*report_of(*connection, {&sample, 1}, clock.now(), language));
  }
};

TEST_F(SpanishTest, APageHoldsNoEnglishOfOurs) {
  pan_with_gap();
  const std::string text = page();
  EXPECT_THAT(text, HasSubstr("Resumen de ensayes"));
  EXPECT_THAT(text, HasSubstr("16,5 ± 0,6 g/t"));
  EXPECT_THAT(text, HasSubstr("oz troy por tonelada corta"));
  EXPECT_THAT(text, HasSubstr("La batea dejó oro atrás"));
  EXPECT_THAT(text, HasSubstr("Este no es un ensaye certificado."));
  for (const char* word : {" the ", "The ", " of ", " and ", " was ", "gold", "short ton", "{", "}"})
    EXPECT_THAT(text, Not(HasSubstr(word)));
}

// What a rule noticed is said without its figures in another language, so no finding is among these.
TEST_F(SpanishTest, EnglishHasEveryFigureThatSpanishHas) {
  pan_with_gap();
  const std::vector<SummarySample> samples{summarised()};
  const auto figures = [&](wording::Language language) {
    Issue spoken = issue();
    spoken.say = Speech(language, DecimalMark::point);
    std::string digits;
    for (const char c : words_of(build_report(samples, spoken)))
      if (c >= '0' && c <= '9') digits += c;
    std::sort(digits.begin(), digits.end());
    return digits;
  };
  EXPECT_EQ(figures(wording::Language::english), figures(wording::Language::spanish));
}

TEST(SpanishFindings, EveryRuleIsSaid) {
  const Speech spanish(wording::Language::spanish, DecimalMark::comma);
  for (const std::string_view rule : findings::rule_names()) EXPECT_NE(spanish.named("finding", rule), rule);
}

// That of the summary, else the client's, else the lab's; a decimal mark goes with the language.
TEST_F(SpanishTest, WhoseLanguageItIs) {
  pan_with_gap();
  EXPECT_THAT(page(std::nullopt), HasSubstr("What we found"));
  ASSERT_TRUE(lab::set_setting(book, "summary.language", "es").ok());
  EXPECT_THAT(page(std::nullopt), HasSubstr("Lo que encontramos"));
  EXPECT_THAT(page(std::nullopt), HasSubstr("16.5")) << "the lab's own language has the lab's own mark";
  set(history::fields::client::language, client.value, std::string("en"));
  EXPECT_THAT(page(std::nullopt), HasSubstr("What we found"));
  EXPECT_THAT(page("es"), HasSubstr("Lo que encontramos"));
  EXPECT_EQ(lab::set_setting(book, "summary.language", "tlh").error().code, ErrorCode::out_of_range);
}

TEST_F(SpanishTest, ListsAreHeadedInSpanish) {
  pan_with_gap();
  const std::string list = exchange::csv_text(*report_of(*connection, {&sample, 1}, clock.now(), "es"));
  EXPECT_THAT(list, HasSubstr("Muestra,Marca del cliente,Cliente,Ensaye"));
  EXPECT_THAT(list, HasSubstr("promedio de cargas"));
  EXPECT_THAT(list, HasSubstr("16.5")) << "numbers of a list keep their point";
}

TEST_F(SpanishTest, OwnWordsAreOfTheirLanguageAlone) {
  ASSERT_TRUE(lab::set_own_text(book, wording::Language::spanish, "caution.as_received", "Solo habla de su bolsa.").ok());
  EXPECT_THAT(page("es"), HasSubstr("Solo habla de su bolsa."));
  EXPECT_THAT(page("en"), HasSubstr("It speaks of the sample as we received it"));
  EXPECT_EQ(lab::set_own_text(book, wording::Language::spanish, "page.foot", "X").error().code, ErrorCode::unknown_key);
  ASSERT_TRUE(lab::set_own_text(book, wording::Language::spanish, "caution.as_received", "").ok());
  EXPECT_THAT(page("es"), HasSubstr("tal como la recibimos"));
}

TEST_F(SpanishTest, TitleAndRemarksOfTheLab) {
  issue::Summary choice;
  choice.samples = {sample};
  choice.number = "26-S01";
  choice.title = "Report on the adit";
  choice.remarks = "Bring more.\n\nAsk for Hanna.";
  const std::string text = words_of(report_of_summary(*connection, choice, clock.now())->report);
  EXPECT_TRUE(text.starts_with("Report on the adit 26-S01\n")) << text;
  EXPECT_THAT(text, HasSubstr("# Remarks of the lab\nBring more.\nAsk for Hanna.\n"));
}

TEST_F(SpanishTest, AMillingLotHasItsAccount) {
  const auto id = milling::begin_lot(book, sample).value();
  namespace f = history::fields::milling_lot;
  const auto enter = [&](const history::Field& field, const char* text) {
    set(field, id.value, readings::cell_of(testing_support::figure(text, *field.measure)));
  };
  enter(f::mass, "1000 kg"), enter(f::head, "20.0 g/t"), enter(f::bullion, "20.00 g"), enter(f::bullion_fineness, "800");
  enter(f::tail_gold, "3.00 g/t"), enter(f::owner_share, "75 %"), enter(f::sponge, "24.1 g");
  const std::string english = page("en"), spanish = page("es");
  EXPECT_THAT(english, HasSubstr("of the gold of the head is accounted for."));
  EXPECT_THAT(english, HasSubstr("Unaccounted for"));
  EXPECT_THAT(english, HasSubstr("what the lot gave stands in its account"));
  EXPECT_THAT(english, HasSubstr("is the owner's (75 %)"));
  EXPECT_THAT(spanish, HasSubstr("del oro de la cabeza está justificado."));
  EXPECT_THAT(spanish, HasSubstr("12,0")) << spanish;
}

}  // namespace
}  // namespace prillbook::summary
