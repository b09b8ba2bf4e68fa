// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/balance_line/balance_line.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "core/balance_line/layout_texts.h"
#include "core/base/number.h"
#include "core/base/text.h"

namespace prillbook::balance_line {
namespace {

using Part = Layout::Part;
using What = Layout::What;

constexpr std::size_t longest_shown = 60, longest_label = 16;
constexpr std::array<std::string_view, 6> units{"mg", "g", "kg", "ct", "ozt", "gr"};

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }
bool is_between(char c) { return c == ' ' || c == '\t' || c == ',' || c == ';'; }

std::vector<std::string> words_of(std::string_view text) {
  std::vector<std::string> words;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t begin = text.find_first_not_of(" \t", at);
    if (begin == std::string_view::npos) break;
    const std::size_t end = std::min(text.find_first_of(" \t", begin), text.size());
    words.push_back(lower_ascii(text.substr(begin, end - begin)));
    at = end;
  }
  return words;
}

std::vector<std::string_view> columns_of(std::string_view line) {
  std::vector<std::string_view> columns;
  for (std::size_t at = 0;;) {
    const std::size_t bar = line.find('|', at);
    columns.push_back(trimmed(line.substr(at, bar == std::string_view::npos ? bar : bar - at)));
    if (bar == std::string_view::npos) return columns;
    at = bar + 1;
  }
}

std::optional<Part> part_of(std::string word) {
  Part part{What::number, word.ends_with('?')};
  if (part.optional) word.pop_back();
  if (word == "mark")
    part.what = What::mark;
  else if (word == "label")
    part.what = What::label;
  else if (word == "unit")
    part.what = What::unit;
  else if (word != "number")
    return std::nullopt;
  return part;
}

// One way through a line.
struct Path {
  std::string sign, digits, unit;
  std::optional<Stability> mark;
  bool seen_number = false;
};

class Matcher {
 public:
  Matcher(std::string_view line, const Layout& layout) : line_(line), layout_(layout) {}
  // Tries the parts from `part` on; an optional part is first taken, then left out.
  std::optional<Path> match(std::size_t at, std::size_t part, Path path) const {
    while (at < line_.size() && is_between(line_[at]) && !starts_number(at)) ++at;
    if (part == layout_.parts.size()) return at == line_.size() ? std::optional(path) : std::nullopt;
    for (const auto& [next, taken] : take(layout_.parts[part].what, at, path))
      if (auto found = match(next, part + 1, taken)) return found;
    return layout_.parts[part].optional ? match(at, part + 1, std::move(path)) : std::nullopt;
  }

 private:
  using Ways = std::vector<std::pair<std::size_t, Path>>;

  bool starts_number(std::size_t at) const { return at < line_.size() && (is_digit(line_[at])); }

  Ways take(What what, std::size_t at, const Path& path) const {
    switch (what) {
      case What::mark: return take_mark(at, path);
      case What::label: return take_label(at, path);
      case What::number: return take_number(at, path);
      case What::unit: return take_unit(at, path);
    }
    return {};
  }

  std::size_t letters_from(std::size_t at) const {
    std::size_t end = at;
    while (end < line_.size() && is_letter(line_[end])) ++end;
    return end;
  }

  Ways take_mark(std::size_t at, const Path& path) const {
    Ways ways;
    const auto try_marks = [&](const std::vector<std::string>& marks, Stability stability) {
      for (const std::string& mark : marks) {
        if (lower_ascii(line_.substr(at, mark.size())) != mark) continue;
        if (is_letter(mark.front()) && letters_from(at) != at + mark.size()) continue;  // part of a longer word
        Path taken = path;
        taken.mark = stability;
        ways.emplace_back(at + mark.size(), std::move(taken));
      }
    };
    if (at >= line_.size()) return ways;
    try_marks(layout_.stable, Stability::stable);
    try_marks(layout_.moving, Stability::moving);
    try_marks(layout_.overload, Stability::overload);
    return ways;
  }

  Ways take_label(std::size_t at, const Path& path) const {
    const std::size_t end = letters_from(at);
    if (end == at || end - at > longest_label) return {};
    const bool colon = end < line_.size() && line_[end] == ':';
    return {{end + (colon ? 1 : 0), path}};
  }

  Ways take_number(std::size_t at, const Path& path) const {
    Path taken = path;
    if (at < line_.size() && (line_[at] == '+' || line_[at] == '-')) {
      taken.sign = line_[at] == '-' ? "-" : "";
      ++at;
      while (at < line_.size() && line_[at] == ' ') ++at;
    }
    const std::size_t begin = at;
    while (at < line_.size() && is_digit(line_[at])) ++at;
    const std::size_t whole = at;
    if (whole == begin) return {};
    if (at + 1 < line_.size() && (line_[at] == '.' || line_[at] == ',') && is_digit(line_[at + 1])) {
      ++at;
      while (at < line_.size() && is_digit(line_[at])) ++at;
    }
    // A second mark, or a letter among the digits, is no figure: "0.0O2", "1.234.5".
    if (at < line_.size() && (line_[at] == '.' || line_[at] == '\'')) return {};
    taken.digits = std::string(line_.substr(begin, at - begin));
    taken.seen_number = true;
    return {{at, taken}};
  }

  Ways take_unit(std::size_t at, const Path& path) const {
    const std::size_t end = letters_from(at);
    const std::string word = lower_ascii(line_.substr(at, end - at));
    if (std::find(units.begin(), units.end(), word) == units.end()) return {};
    Path taken = path;
    taken.unit = word;
    return {{end, std::move(taken)}};
  }

  std::string_view line_;
  const Layout& layout_;
};

// Why a line that does not match is refused.
Error fault_of(std::string_view line, const Layout& layout) {
  const std::string shown = readable(line).substr(0, longest_shown);
  const std::size_t digit = line.find_first_of("0123456789");
  if (digit == std::string_view::npos)
    return {ErrorCode::not_a_number, "balance_line", fmt::format("no figure in '{}'", shown), {shown}};
  std::size_t end = digit;
  while (end < line.size() && (is_digit(line[end]) || line[end] == '.' || line[end] == ',')) ++end;
  while (end < line.size() && line[end] == ' ') ++end;
  std::size_t word_end = end;
  while (word_end < line.size() && is_letter(line[word_end])) ++word_end;
  const std::string word = lower_ascii(line.substr(end, word_end - end));
  const bool more_digits = word_end < line.size() && (is_digit(line[word_end]) || line[word_end] == '.');
  if (!word.empty() && !more_digits && std::find(units.begin(), units.end(), word) == units.end())
    return {ErrorCode::unknown_unit, "balance_line", fmt::format("'{}' is no unit: '{}'", word, shown), {word}};
  if (more_digits) return {ErrorCode::not_a_number, "balance_line", fmt::format("no figure in '{}'", shown), {shown}};
  return {ErrorCode::out_of_range, "balance_line", fmt::format("'{}' is not '{}'", shown, layout.name), {shown}};
}

bool is_overload(std::string_view line, const Layout& layout) {
  for (const std::string& word : words_of(line)) {
    std::string bare = word;
    std::erase_if(bare, is_between);
    if (std::find(layout.overload.begin(), layout.overload.end(), bare) != layout.overload.end()) return true;
  }
  return false;
}

}  // namespace

Result<Layout> parse_layout(std::string_view line) {
  const auto columns = columns_of(line);
  const auto refuse = [&] { return refusal(ErrorCode::out_of_range, "layout", fmt::format("'{}' is no layout", line)); };
  if (columns.size() != 6 || columns[0].empty()) return refuse();
  Layout layout;
  layout.name = std::string(columns[0]);
  int numbers = 0;
  for (std::string& word : words_of(columns[1])) {
    const auto part = part_of(std::move(word));
    if (!part || (part->what == What::number && part->optional)) return refuse();
    numbers += part->what == What::number;
    layout.parts.push_back(*part);
  }
  layout.stable = words_of(columns[2]);
  layout.moving = words_of(columns[3]);
  layout.overload = words_of(columns[4]);
  if (numbers != 1 || layout.parts.size() > 6 || (columns[5] != "stable" && columns[5] != "moving")) return refuse();
  layout.without_mark = columns[5] == "stable" ? Stability::stable : Stability::moving;
  return layout;
}

const std::vector<Layout>& layouts() {
  static const std::vector<Layout> all = [] {
    std::vector<Layout> list;
    std::string_view text = layout_text;
    while (!text.empty()) {
      const std::size_t end = std::min(text.find('\n'), text.size());
      const std::string_view line = trimmed(text.substr(0, end));
      text.remove_prefix(std::min(end + 1, text.size()));
      if (line.empty() || line.starts_with('#')) continue;
      if (auto layout = parse_layout(line); layout.ok()) list.push_back(*std::move(layout));
    }
    return list;
  }();
  return all;
}

const Layout* find_layout(std::string_view name) {
  for (const Layout& layout : layouts())
    if (layout.name == name) return &layout;
  return nullptr;
}

Result<Figure> read_line(std::string_view raw, const Layout& layout) {
  std::string line(raw.substr(0, longest_line));
  std::erase_if(line, [](char c) { return (c >= 0 && c < ' ' && c != '\t') || c == 0x7f; });
  const std::string_view held = trimmed(line);
  const auto path = Matcher(held, layout).match(0, 0, {});
  if (!path || !path->seen_number) {
    if (is_overload(held, layout)) return Figure{Stability::overload, {}, false, false};
    return fault_of(held, layout);
  }
  Figure figure;
  figure.stability = path->mark.value_or(layout.without_mark);
  figure.negative = path->sign == "-";
  figure.has_unit = !path->unit.empty();
  figure.typed = path->sign + path->digits + (figure.has_unit ? " " + path->unit : "");
  return figure;
}

std::string readable(std::string_view line) {
  std::string text;
  for (const char c : line.substr(0, longest_line)) {
    if (c >= ' ' && c < 0x7f)
      text += c;
    else
      text += fmt::format("\\x{:02x}", static_cast<unsigned char>(c));
  }
  if (text.size() > longest_line) text.resize(longest_line);
  return text;
}

std::vector<std::string> Assembler::feed(std::string_view bytes) {
  std::vector<std::string> lines;
  for (const char c : bytes) {
    if (c == '\r' || c == '\n') {
      if (!skipping_ && !trimmed(held_).empty()) lines.push_back(held_);
      held_.clear();
      skipping_ = false;
      continue;
    }
    if (skipping_) continue;
    held_ += c;
    if (held_.size() <= longest_line) continue;
    held_.clear();
    skipping_ = true;
    ++too_long_;
  }
  return lines;
}

void Assembler::forget() {
  held_.clear();
  skipping_ = false;
}

}  // namespace prillbook::balance_line
