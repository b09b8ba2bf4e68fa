// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/wording/speech.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "core/base/text.h"

namespace prillbook::wording {
namespace {

constexpr std::array<LanguageName, 2> all_languages{{
    {Language::english, "en", "English", DecimalMark::point},
    {Language::spanish, "es", "español", DecimalMark::comma},
}};

constexpr std::size_t longest_words = 2000;  // bytes

// One piece of a template: words as they are, or a placeholder without its braces.
struct Piece {
  std::string_view words;
  bool placeholder = false;
};

// An opening brace without a closing one stays words.
std::vector<Piece> pieces_of(std::string_view words) {
  std::vector<Piece> pieces;
  while (!words.empty()) {
    const std::size_t open = words.find('{');
    const std::size_t shut = open == std::string_view::npos ? open : words.find('}', open);
    if (shut == std::string_view::npos) {
      pieces.push_back({words});
      break;
    }
    if (open > 0) pieces.push_back({words.substr(0, open)});
    pieces.push_back({words.substr(open + 1, shut - open - 1), true});
    words.remove_prefix(shut + 1);
  }
  return pieces;
}

template <class ValueOf>
std::string filled(std::string_view words, ValueOf value_of) {
  std::string out;
  for (const Piece& piece : pieces_of(words)) out += piece.placeholder ? value_of(piece.words) : std::string(piece.words);
  return out;
}

// What stands in the place of each placeholder where `text` is made of `words`; nullopt where it is not.
std::optional<std::vector<Named>> read_back(std::string_view words, std::string_view text) {
  std::vector<Named> values;
  const auto pieces = pieces_of(words);
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    if (!pieces[i].placeholder) {
      if (!text.starts_with(pieces[i].words)) return std::nullopt;
      text.remove_prefix(pieces[i].words.size());
      continue;
    }
    const std::size_t end = i + 1 < pieces.size() ? text.find(pieces[i + 1].words) : text.size();
    if (end == std::string_view::npos) return std::nullopt;
    values.push_back({pieces[i].words, std::string(text.substr(0, end))});
    text.remove_prefix(end);
  }
  return text.empty() ? std::optional(std::move(values)) : std::nullopt;
}

}  // namespace

std::span<const LanguageName> languages() { return all_languages; }

const LanguageName& name_of(Language language) { return all_languages[static_cast<std::size_t>(language)]; }

const LanguageName* language_of(std::string_view code) {
  const auto found = std::find_if(all_languages.begin(), all_languages.end(), [&](const auto& one) { return one.code == code; });
  return found == all_languages.end() ? nullptr : &*found;
}

const Text* find_text(std::string_view key) {
  const auto found = std::find_if(catalogue.begin(), catalogue.end(), [&](const Text& text) { return text.key == key; });
  return found == catalogue.end() ? nullptr : &*found;
}

std::string_view ours(const Text& text, Language language) { return language == Language::spanish ? text.spanish : text.english; }

std::string_view Speech::template_of(const Text& text) const {
  if (own_ && text.own)
    if (const auto found = own_->find(text.key); found != own_->end()) return found->second;
  return ours(text, language_);
}

std::string Speech::operator()(Key key, Values values) const {
  return filled(template_of(key.text()), [&](std::string_view name) {
    for (const Named& one : values)
      if (one.name == name) return one.value;
    return fmt::format("{{{}}}", name);
  });
}

std::string Speech::named(std::string_view group, std::string_view name) const {
  const Text* text = find_text(fmt::format("{}.{}", group, name));
  return std::string(text ? template_of(*text) : name);
}

std::string Speech::again(std::string_view group, std::string_view english) const {
  const std::string before = std::string(group) + ".";
  if (translated())
    for (const Text& text : catalogue)
      if (text.key.starts_with(before))
        if (const auto values = read_back(text.english, english))
          return filled(template_of(text), [&](std::string_view name) {
            const auto found = std::find_if(values->begin(), values->end(), [&](const Named& one) { return one.name == name; });
            return found == values->end() ? std::string() : named(name, found->value);
          });
  return std::string(english);
}

std::vector<std::string> placeholders(std::string_view words) {
  std::vector<std::string> names;
  for (const Piece& piece : pieces_of(words))
    if (piece.placeholder && std::find(names.begin(), names.end(), piece.words) == names.end()) names.emplace_back(piece.words);
  return names;
}

std::string sample_of(std::string_view words) {
  return filled(words, [](std::string_view name) { return fmt::format("[{}]", name); });
}

Result<void> check_words(const Text& text, std::string_view words) {
  if (trimmed(words).empty()) return refusal(ErrorCode::missing_key, "words", "there are no words");
  if (words.size() > longest_words) return refusal(ErrorCode::out_of_range, "words", "the words are too long");
  std::size_t depth = 0;
  for (const char c : words) {
    if ((c == '{' && depth++ > 0) || (c == '}' && depth-- == 0))
      return refusal(ErrorCode::out_of_range, "words", "a brace stands without its other one");
  }
  if (depth > 0) return refusal(ErrorCode::out_of_range, "words", "a brace stands without its other one");
  const auto wanted = placeholders(text.english), given = placeholders(words);
  const auto holds = [](const auto& names, const std::string& name) {
    return std::find(names.begin(), names.end(), name) != names.end();
  };
  for (const std::string& name : given)
    if (!holds(wanted, name))
      return Error{ErrorCode::unknown_key, "words", fmt::format("{{{}}} is not known here", name), {name}};
  for (const std::string& name : wanted)
    if (!holds(given, name)) return Error{ErrorCode::missing_key, "words", fmt::format("{{{}}} is left out", name), {name}};
  return {};
}

}  // namespace prillbook::wording
