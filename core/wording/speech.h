// SPDX-License-Identifier: GPL-3.0-or-later
// The language of the client's pages: texts of the catalogue or the lab's own words in their place, with the figures put in.
#pragma once

#include <initializer_list>
#include <map>
#include <memory>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "core/base/result.h"
#include "core/wording/catalogue.h"
#include "core/wording/language.h"

namespace prillbook::wording {

// Words of a lab by the key of the text that they stand for, in one language.
using OwnTexts = std::map<std::string, std::string, std::less<>>;

struct Named {
  std::string_view name;
  std::string value;
};
using Values = std::initializer_list<Named>;

class Speech {
 public:
  // English in our words: what the stations show.
  Speech(DecimalMark mark = DecimalMark::point) : mark_(mark) {}
  Speech(Language language, DecimalMark mark, std::shared_ptr<const OwnTexts> own = nullptr)
      : language_(language), mark_(mark), own_(std::move(own)) {}

  Language language() const { return language_; }
  bool translated() const { return language_ != Language::english; }
  DecimalMark mark() const { return mark_; }
  operator DecimalMark() const { return mark_; }

  std::string operator()(Key key, Values values = {}) const;
  // "kind.grab" for a group and a name that a record holds; the name itself where the catalogue has none.
  std::string named(std::string_view group, std::string_view name) const;
  // A text of a group again in this language, from what English made of it: "bead, weighing 2". As it is where none fits.
  std::string again(std::string_view group, std::string_view english) const;

 private:
  std::string_view template_of(const Text& text) const;

  Language language_ = Language::english;
  DecimalMark mark_ = DecimalMark::point;
  std::shared_ptr<const OwnTexts> own_;
};

// Our words in a language.
std::string_view ours(const Text& text, Language language);

// Names between braces, in the order in which they come first.
std::vector<std::string> placeholders(std::string_view words);
// What the words would say with every placeholder filled by its name in brackets: for a look at them as they are typed.
std::string sample_of(std::string_view words);

// Whether a lab may put `words` in the place of a text. Errors: unknown_key for a placeholder that is none here, missing_key
// for one that is left out, so that no figure goes lost (argument: its name); out_of_range for a brace without its other
// one, and for words that are too long; missing_key without words.
Result<void> check_words(const Text& text, std::string_view words);

}  // namespace prillbook::wording
