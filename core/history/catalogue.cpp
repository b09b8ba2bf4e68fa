// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/history/catalogue.h"

#include <algorithm>

#include "core/history/fields.h"

namespace prillbook::history {
namespace {

constexpr EntitySpec entities[] = {
    {Entity::setting, "setting", "what the lab has set", fields::setting::all},
    {Entity::person, "person", "who works here", fields::person::all},
    {Entity::client, "client", "whose rock is assayed", fields::client::all},
    {Entity::balance, "balance", "a balance and how finely it weighs", fields::balance::all},
    {Entity::consignment, "consignment", "what arrived together from one client", fields::consignment::all},
    {Entity::sample, "sample", "one bag or lump lot with one client mark", fields::sample::all},
    {Entity::portion, "portion", "a weighed part of a sample or of another portion", fields::portion::all},
    {Entity::pan_test, "pan_test", "a portion panned to a concentrate", fields::pan_test::all},
    {Entity::charge, "charge", "a portion with its flux in one crucible", fields::charge::all},
    {Entity::bead, "bead", "the bead of a pan test or a charge", fields::bead::all},
    {Entity::weighing, "weighing", "one weighing of a bead or of its parted gold", fields::weighing::all},
    {Entity::answer, "answer", "an answer to a finding", fields::answer::all},
    {Entity::attachment, "attachment", "a photograph of a sample or of a consignment", fields::attachment::all},
};

}  // namespace

std::span<const EntitySpec> catalogue() { return entities; }

const EntitySpec* find_entity(std::int64_t code) {
  const auto* found = std::find_if(std::begin(entities), std::end(entities),
                                   [&](const EntitySpec& spec) { return static_cast<std::int64_t>(spec.entity) == code; });
  return found == std::end(entities) ? nullptr : found;
}

const EntitySpec* find_entity(std::string_view table) {
  const auto* found =
      std::find_if(std::begin(entities), std::end(entities), [&](const EntitySpec& spec) { return spec.table == table; });
  return found == std::end(entities) ? nullptr : found;
}

const EntitySpec& spec_of(Entity entity) { return *find_entity(static_cast<std::int64_t>(entity)); }

const Field* find_field(const EntitySpec& entity, std::int64_t code) {
  const auto found =
      std::find_if(entity.fields.begin(), entity.fields.end(), [&](const Field* field) { return field->code == code; });
  return found == entity.fields.end() ? nullptr : *found;
}

const Field* find_field(const EntitySpec& entity, std::string_view column) {
  const auto found =
      std::find_if(entity.fields.begin(), entity.fields.end(), [&](const Field* field) { return field->column == column; });
  return found == entity.fields.end() ? nullptr : *found;
}

}  // namespace prillbook::history
