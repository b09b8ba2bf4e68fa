// SPDX-License-Identifier: GPL-3.0-or-later
// The catalogue of the client's pages: nothing is missing in a language, and what a lab words itself keeps its figures.
#include <gmock/gmock.h>

#include <algorithm>
#include <set>

#include "core/wording/speech.h"

namespace prillbook::wording {
namespace {

using testing::HasSubstr;

std::vector<std::string> sorted(std::vector<std::string> names) {
  std::sort(names.begin(), names.end());
  return names;
}

const Text& text_of(std::string_view key) { return *find_text(key); }

TEST(Catalogue, NoTextIsMissingInALanguage) {
  for (const Text& text : catalogue)
    for (const LanguageName& language : languages())
      EXPECT_FALSE(ours(text, language.language).empty()) << text.key << " in " << language.code;
}

TEST(Catalogue, PlaceholdersAgree) {
  for (const Text& text : catalogue)
    EXPECT_EQ(sorted(placeholders(text.spanish)), sorted(placeholders(text.english))) << text.key;
}

TEST(Catalogue, KeysStandOnceAndInAGroup) {
  std::set<std::string_view> seen;
  for (const Text& text : catalogue) {
    EXPECT_TRUE(seen.insert(text.key).second) << text.key;
    EXPECT_NE(text.key.find('.'), std::string_view::npos) << text.key;
  }
}

// A sentence that ends in a stop, or begins with a blank, does so in each language: they are joined to paragraphs.
TEST(Catalogue, EndsAndBeginningsAgree) {
  for (const Text& text : catalogue) {
    EXPECT_EQ(text.english.ends_with('.'), text.spanish.ends_with('.')) << text.key;
    for (const char first : {' ', ',', ';'})
      EXPECT_EQ(text.english.starts_with(first), text.spanish.starts_with(first)) << text.key;
  }
}

TEST(Catalogue, OurWordsPassTheCheckOfALabsOwn) {
  for (const Text& text : catalogue) {
    if (!text.own) continue;
    for (const LanguageName& language : languages()) {
      const auto checked = check_words(text, ours(text, language.language));
      EXPECT_TRUE(checked.ok()) << text.key << ": " << checked.error().detail;
    }
  }
}

TEST(SpeechTest, PutsFiguresIn) {
  const Speech english, spanish(Language::spanish, DecimalMark::comma);
  EXPECT_EQ(english("custody.kept", {{"date", "2026-05-04"}}), "What is left is kept until 2026-05-04.");
  EXPECT_EQ(spanish("custody.kept", {{"date", "2026-05-04"}}), "Lo que queda se guarda hasta el 2026-05-04.");
  EXPECT_EQ(english("custody.kept"), "What is left is kept until {date}.") << "a figure that is not given is not hidden";
  EXPECT_EQ(english("arrival.place", {{"place", "{mark}"}}), ", taken at {mark}") << "what is put in is not read again";
}

TEST(SpeechTest, NamesThatARecordHolds) {
  const Speech spanish(Language::spanish, DecimalMark::comma);
  EXPECT_EQ(spanish.named("kind", "channel"), "canal");
  EXPECT_EQ(spanish.named("kind", "from the roof"), "from the roof");
  EXPECT_EQ(Speech().named("code", "no_gap_shown"), "no_gap_shown");
}

TEST(SpeechTest, SaysAgainWhatEnglishMade) {
  const Speech spanish(Language::spanish, DecimalMark::comma);
  EXPECT_EQ(spanish.again("read", "bead, weighing 2"), "botón, pesada 2");
  EXPECT_EQ(spanish.again("read", "portion (fire)"), "porción (fuego)");
  EXPECT_EQ(spanish.again("read", "on sieve 850 µm"), "sobre el tamiz 850 µm");
  EXPECT_EQ(spanish.again("read", "weighed by ear"), "weighed by ear");
  EXPECT_EQ(Speech().again("read", "bead, weighing 2"), "bead, weighing 2");
}

TEST(OwnWords, StandInThePlaceOfOurs) {
  auto own = std::make_shared<OwnTexts>();
  (*own)["custody.kept"] = "We keep the rest to {date}.";
  (*own)["page.foot"] = "Certified";  // no text that a lab words itself
  const Speech speech(Language::english, DecimalMark::point, own);
  EXPECT_EQ(speech("custody.kept", {{"date", "May"}}), "We keep the rest to May.");
  EXPECT_EQ(speech("page.foot"), "No certified assay");
}

TEST(OwnWords, AreCheckedAsTheyAreTyped) {
  const Text& kept = text_of("custody.kept");
  EXPECT_TRUE(check_words(kept, "Until {date} it is here.").ok());
  const auto odd = check_words(kept, "Until {day} it is here.");
  EXPECT_EQ(odd.error().code, ErrorCode::unknown_key);
  EXPECT_EQ(odd.error().arguments, std::vector<std::string>{"day"});
  const auto lost = check_words(kept, "It is here.");
  EXPECT_EQ(lost.error().code, ErrorCode::missing_key);
  EXPECT_EQ(lost.error().arguments, std::vector<std::string>{"date"});
  for (const char* open : {"Until {date it is here.", "Until date} it is here.", "Until {{date}} it is here.", "{date} {"})
    EXPECT_EQ(check_words(kept, open).error().code, ErrorCode::out_of_range) << open;
  EXPECT_EQ(check_words(kept, "  ").error().code, ErrorCode::missing_key);
  EXPECT_EQ(check_words(kept, "{date}" + std::string(5000, 'x')).error().code, ErrorCode::out_of_range);
}

TEST(OwnWords, ASampleShowsWhereFiguresCome) { EXPECT_EQ(sample_of("until {date}"), "until [date]"); }

}  // namespace
}  // namespace prillbook::wording
