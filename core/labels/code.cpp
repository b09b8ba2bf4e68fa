// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/labels/code.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <optional>

#include "core/base/number.h"
#include "core/base/text.h"
#include "core/custody/custody.h"
#include "core/fire/charge_record.h"
#include "core/labels/statements.h"
#include "core/portions/portions.h"

namespace prillbook::labels {
namespace {

constexpr std::string_view family = "pb";

char letter_of(CodeKind kind) {
  switch (kind) {
    case CodeKind::consignment: return 'K';
    case CodeKind::sample: return 'S';
    case CodeKind::portion: return 'P';
    case CodeKind::charge: return 'C';
  }
  return 'S';
}

std::optional<CodeKind> kind_of(std::string_view letter) {
  for (const CodeKind kind : {CodeKind::consignment, CodeKind::sample, CodeKind::portion, CodeKind::charge})
    if (letter.size() == 1 && (letter[0] == letter_of(kind) || letter[0] == letter_of(kind) - 'A' + 'a')) return kind;
  return std::nullopt;
}

bool has_portion(CodeKind kind) { return kind == CodeKind::portion || kind == CodeKind::charge; }

bool is_number(std::string_view number) {
  return !number.empty() && is_utf8(number) && trimmed(number) == number &&
         std::none_of(number.begin(), number.end(), [](char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7F; });
}

Error refused(ErrorCode code, std::string_view text, std::string_view reason) {
  // What a scanner reads may be anything: a message holds text only.
  const std::string shown = is_utf8(text) ? std::string(text.substr(0, longest_code)) : std::string("?");
  return {code, "code", fmt::format("'{}': {}", shown, reason), {shown}};
}

// Takes the "/2" from the end.
std::optional<std::int64_t> take_portion(std::string_view& number) {
  const auto slash = number.rfind('/');
  if (slash == std::string_view::npos) return std::nullopt;
  const std::string_view digits = number.substr(slash + 1);
  std::int64_t portion = 0;
  const auto [end, fault] = std::from_chars(digits.data(), digits.data() + digits.size(), portion);
  if (fault != std::errc{} || end != digits.data() + digits.size() || portion < 1 || digits.front() == '0') return std::nullopt;
  number = number.substr(0, slash);
  return portion;
}

Error nothing_found(std::string number) {
  Error error{ErrorCode::not_found, "code", fmt::format("there is no {}", number), {}};
  error.arguments.push_back(std::move(number));
  return error;
}

}  // namespace

std::string code_text(const Code& code) {
  const std::string body = has_portion(code.kind) ? fmt::format("{}/{}", code.number, code.portion) : code.number;
  return fmt::format("{}{}:{}", code_prefix, letter_of(code.kind), body);
}

bool is_code(std::string_view text) { return lower_ascii(trimmed(text)).starts_with(lower_ascii(code_prefix)); }

Result<Code> parse_code(std::string_view text) {
  const std::string_view all = trimmed(text);
  if (all.size() > longest_code) return refused(ErrorCode::out_of_range, all, "this is too long for a code of a label");
  const auto first = all.find(':');
  const std::string head = lower_ascii(all.substr(0, first == std::string_view::npos ? 0 : first));
  if (!head.starts_with(family) || head.size() == family.size() ||
      head.find_first_not_of("0123456789", family.size()) != std::string::npos)
    return refused(ErrorCode::wrong_type, all, "this is no code of a label of ours");
  if (!is_code(all)) return refused(ErrorCode::newer_version, all, "the label is of a version that is not known here");
  std::string_view rest = all.substr(code_prefix.size());
  const auto second = rest.find(':');
  const auto kind = second == std::string_view::npos ? std::nullopt : kind_of(rest.substr(0, second));
  if (!kind) return refused(ErrorCode::out_of_range, all, "the code does not say what it stands for");
  rest.remove_prefix(second + 1);
  Code code{*kind, {}, 0};
  if (has_portion(*kind)) {
    const auto portion = take_portion(rest);
    if (!portion) return refused(ErrorCode::out_of_range, all, "the code names no portion");
    code.portion = *portion;
  }
  if (!is_number(rest)) return refused(ErrorCode::out_of_range, all, "the code has no number");
  code.number = rest;
  return code;
}

Result<Place> find(store::Connection& connection, const Code& code) {
  using history::Entity;
  if (code.kind == CodeKind::consignment) {
    PRILLBOOK_ASSIGN(const std::int64_t id, connection.integer(sql::consignment_by_number, {std::string_view(code.number)}));
    if (id == 0) return nothing_found(code.number);
    return Place{Entity::consignment, id};
  }
  const auto sample = custody::sample_by_number(connection, code.number);
  if (!sample) return sample.error().code == ErrorCode::not_found ? nothing_found(code.number) : sample.error();
  if (code.kind == CodeKind::sample) return Place{Entity::sample, sample->value};
  const std::string name = fmt::format("{}/{}", code.number, code.portion);
  PRILLBOOK_ASSIGN(const auto portions, portions::portions_of(connection, *sample));
  const auto found = std::find_if(portions.begin(), portions.end(), [&](const auto& one) { return one.number == code.portion; });
  if (found == portions.end()) return nothing_found(name);
  if (code.kind == CodeKind::portion) return Place{Entity::portion, found->id.value};
  PRILLBOOK_ASSIGN(const auto charges, fire::charges_of(connection, found->id));
  if (charges.empty()) return nothing_found(name);
  return Place{Entity::charge, charges.front().id.value};
}

}  // namespace prillbook::labels
