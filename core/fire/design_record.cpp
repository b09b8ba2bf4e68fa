// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/fire/design_record.h"

#include <fmt/format.h>

#include <algorithm>

#include "core/base/text.h"
#include "core/history/fields.h"
#include "core/history/record.h"
#include "core/portions/portions.h"

namespace prillbook::fire {
namespace {

namespace design_fields = history::fields::charge_design;

// One of "pyrite 40", "galena 5 %"; the number begins at the first digit.
Result<SulphideShare> read_sulphide(std::string_view part, DecimalMark preferred) {
  const std::size_t digit = std::min(part.find_first_of("0123456789"), part.size());
  std::string name = lower_ascii(trimmed(part.substr(0, digit)));
  std::replace(name.begin(), name.end(), ' ', '_');
  const Sulphide* known = find_sulphide(name);
  if (!known)
    return Error{
        ErrorCode::out_of_range, "charge_design.sulphides", fmt::format("'{}' is no sulphide of the table", name), {name}};
  if (digit == part.size())
    return Error{ErrorCode::missing_key, "charge_design.sulphides", "each sulphide with its share in %", {name}};
  PRILLBOOK_ASSIGN(const TypedNumber share, parse_number(part.substr(digit), preferred));
  if ((!share.rest.empty() && share.rest != "%") || share.value < 0 || share.value > 100)
    return Error{
        ErrorCode::out_of_range, "charge_design.sulphides", "a share lies from 0 to 100 %", {std::string(trimmed(part))}};
  return SulphideShare{std::string(known->name), Share(share.value, unit::percent)};
}

// Parts lie between semicolons, or commas followed by a blank or a letter: "pyrite 12,5, galena 3".
std::vector<std::string_view> parts_of_list(std::string_view text) {
  std::vector<std::string_view> parts;
  std::size_t from = 0;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const bool digit_follows = i + 1 < text.size() && text[i + 1] >= '0' && text[i + 1] <= '9';
    if (text[i] != ';' && (text[i] != ',' || digit_follows)) continue;
    parts.push_back(text.substr(from, i - from));
    from = i + 1;
  }
  parts.push_back(text.substr(from));
  std::erase_if(parts, [](std::string_view part) { return trimmed(part).empty(); });
  return parts;
}

std::optional<Mass> mass_or_none(const readings::Figure& figure) { return figure ? std::optional(figure->mass()) : std::nullopt; }

}  // namespace

Result<std::optional<Design>> design_of(store::Connection& connection, PortionId portion) {
  PRILLBOOK_ASSIGN(const auto records, history::load_referring(connection, design_fields::portion, portion.value));
  if (records.empty()) return std::optional<Design>();
  const history::Record& record = records.front();
  Design design;
  design.id = ChargeDesignId{record.id()};
  design.portion = portion;
  design.ore_kind = record.optional_text(design_fields::ore_kind);
  design.sulphides = record.optional_text(design_fields::sulphides);
  design.remarks = record.optional_text(design_fields::remarks);
  design.test = record.reference<ReducingTestId>(design_fields::reducing_test);
  PRILLBOOK_ASSIGN(design.silica_share, readings::figure_of(record, design_fields::silica_share));
  PRILLBOOK_ASSIGN(design.button_target, readings::figure_of(record, design_fields::button_target));
  PRILLBOOK_ASSIGN(design.cupel, readings::figure_of(record, design_fields::cupel));
  return std::optional(std::move(design));
}

Result<ChargeDesignId> design_for(history::ChangeSet& set, PortionId portion) {
  PRILLBOOK_ASSIGN(const auto held, design_of(set.connection(), portion));
  if (held) return held->id;
  PRILLBOOK_ASSIGN(const RecordId id,
                   set.make(history::Entity::charge_design, {{design_fields::portion, readings::cell_of(portion)}}));
  return ChargeDesignId{id};
}

Result<void> set_design(history::ChangeSet& set, PortionId portion, const history::Field& field, const history::Value& value) {
  const auto* text = std::get_if<std::string>(&value);
  if (&field == &design_fields::sulphides && text) PRILLBOOK_TRY(read_sulphides(*text, DecimalMark::point));
  PRILLBOOK_ASSIGN(const ChargeDesignId id, design_for(set, portion));
  return set.set(field, id.value, value);
}

Result<void> set_design(history::Journal& journal, PortionId portion, const history::Field& field, const history::Value& value) {
  return journal.record("design charge", [&](history::ChangeSet& set) { return set_design(set, portion, field, value); });
}

Result<std::vector<SulphideShare>> read_sulphides(std::string_view text, DecimalMark preferred) {
  std::vector<SulphideShare> list;
  for (const std::string_view part : parts_of_list(text)) {
    PRILLBOOK_ASSIGN(SulphideShare one, read_sulphide(part, preferred));
    list.push_back(std::move(one));
  }
  return list;
}

Result<ChargeInput> charge_input(store::Connection& connection, PortionId id, DecimalMark preferred) {
  PRILLBOOK_ASSIGN(const portions::Portion portion, portions::portion(connection, id));
  if (!portion.mass) return Error{ErrorCode::missing_key, "portion.mass", "the portion is not weighed", {}};
  ChargeInput input;
  input.ore = portion.mass->mass();
  input.button_target = usual_button(input.ore);
  PRILLBOOK_ASSIGN(const auto design, design_of(connection, id));
  if (!design) return input;
  if (design->ore_kind) input.kind = find_ore_kind(*design->ore_kind);
  if (design->button_target) input.button_target = design->button_target->mass();
  if (design->silica_share) input.silica = design->silica_share->share();
  input.cupel = mass_or_none(design->cupel);
  if (design->sulphides) {
    PRILLBOOK_ASSIGN(input.sulphides, read_sulphides(*design->sulphides, preferred));
  }
  if (design->test) {
    PRILLBOOK_ASSIGN(const ReducingTest test, reducing_test(connection, design->test));
    PRILLBOOK_ASSIGN(const auto power, power_of(test));
    if (!power) return Error{ErrorCode::missing_key, "reducing_test.button", "the reducing test is not weighed out", {}};
    input.reducing_power = power->power;
  }
  return input;
}

Mixture mixture_of(const Charge& charge) {
  return {mass_or_none(charge.litharge), mass_or_none(charge.soda_ash), mass_or_none(charge.borax), mass_or_none(charge.silica),
          mass_or_none(charge.flour),    mass_or_none(charge.nitre),    mass_or_none(charge.flux)};
}

}  // namespace prillbook::fire
