// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/record_reader.h"

#include "core/lab/lab.h"

namespace prillbook::exchange {
namespace {

Error at(const JsonInput& input, std::string_view key, Error error) {
  error.field = input.path_of(key);
  return error;
}

}  // namespace

Result<readings::Figure> RecordReader::figure(std::string_view key, Measure measure, std::string_view unit) {
  PRILLBOOK_ASSIGN(const auto typed, input_.optional_text(key));
  if (!typed) return readings::Figure{};
  auto reading = readings::parse(*typed, {measure, unit, preferred_, true});
  if (!reading) return at(input_, key, reading.error());
  return readings::Figure{*std::move(reading)};
}

Result<std::optional<Instant>> RecordReader::instant(std::string_view key) {
  PRILLBOOK_ASSIGN(const auto typed, input_.optional_text(key));
  if (!typed) return std::optional<Instant>{};
  const auto instant = parse_iso(*typed);
  if (!instant) return at(input_, key, instant.error());
  return std::optional<Instant>{*instant};
}

Result<std::optional<std::int64_t>> RecordReader::whole(std::string_view key) {
  const nlohmann::json* value = input_.raw(key);
  if (!value) return std::optional<std::int64_t>{};
  if (!value->is_number_integer())
    return input_.error(ErrorCode::wrong_type, key, input_.path_of(key) + ": a whole number is needed");
  if (value->is_number_unsigned() && value->get<std::uint64_t>() > std::uint64_t{INT64_MAX})
    return input_.error(ErrorCode::out_of_range, key, input_.path_of(key) + ": the number is too large");
  return std::optional<std::int64_t>{value->get<std::int64_t>()};
}

Result<PersonId> RecordReader::person(std::string_view key) {
  PRILLBOOK_ASSIGN(const auto initials, input_.optional_text(key));
  if (!initials) return PersonId{};
  const auto person = lab::person_by_initials(connection_, *initials);
  if (!person) return at(input_, key, person.error());
  return person->id;
}

Result<BalanceId> RecordReader::balance(std::string_view key) {
  PRILLBOOK_ASSIGN(const auto name, input_.optional_text(key));
  if (!name) return BalanceId{};
  const auto balance = lab::balance_by_name(connection_, *name);
  if (!balance) return at(input_, key, balance.error());
  return balance->id;
}

Result<std::vector<RecordReader>> RecordReader::list(std::string_view key) {
  std::vector<RecordReader> readers;
  if (!input_.has(key)) {
    input_.raw(key);
    return readers;
  }
  PRILLBOOK_ASSIGN(const auto children, input_.children(key));
  for (const JsonInput& child : children) readers.emplace_back(child, connection_, preferred_);
  return readers;
}

Result<std::optional<RecordReader>> RecordReader::object(std::string_view key) {
  if (!input_.has(key)) {
    input_.raw(key);
    return std::optional<RecordReader>{};
  }
  PRILLBOOK_ASSIGN(JsonInput child, input_.child(key));
  return std::optional<RecordReader>{RecordReader(std::move(child), connection_, preferred_)};
}

Error RecordReader::placed(Error error) const {
  const std::string place = input_.path_of("");
  error.field = place.empty() ? error.field : place.substr(0, place.size() - 1) + (error.field.empty() ? "" : ": " + error.field);
  return error;
}

}  // namespace prillbook::exchange
