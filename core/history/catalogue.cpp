// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/history/catalogue.h"

#include <algorithm>
#include <array>

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
    {Entity::piece, "piece", "one box or bag of a consignment", fields::piece::all},
    {Entity::place, "place", "where the lab keeps things", fields::place::all},
    {Entity::hand_over, "hand_over", "a change of holder of one sample or of a whole consignment", fields::hand_over::all},
    {Entity::own_metal, "own_metal", "what became of metal or rest that is the client's", fields::own_metal::all},
    {Entity::told_figure, "told_figure", "a figure told before it was written to the client", fields::told_figure::all},
    {Entity::column_match, "column_match", "which heading of a client's lists stands for which field", fields::column_match::all},
    {Entity::attachment, "attachment", "a photograph of a sample or of a consignment", fields::attachment::all},
    {Entity::machine, "machine", "a machine of the preparation room", fields::machine::all},
    {Entity::step, "step", "one step of preparation on a sample or a portion", fields::step::all},
    {Entity::step_share, "step_share", "what one portion brought to a composite", fields::step_share::all},
    {Entity::cleaning, "cleaning", "one cleaning of a machine", fields::cleaning::all},
    {Entity::crushing_plan, "crushing_plan", "an order in which samples are to go through a machine", fields::crushing_plan::all},
    {Entity::plan_place, "plan_place", "a sample's place in a crushing order", fields::plan_place::all},
    {Entity::sieve, "sieve", "a sieve of the lab", fields::sieve::all},
    {Entity::sieve_stack, "sieve_stack", "sieves that are used together, under a name", fields::sieve_stack::all},
    {Entity::stack_sieve, "stack_sieve", "a sieve in a stack", fields::stack_sieve::all},
    {Entity::sieve_analysis, "sieve_analysis", "a portion shaken through a stack", fields::sieve_analysis::all},
    {Entity::sieve_cut, "sieve_cut", "what one sieve of an analysis kept, or the pan under them", fields::sieve_cut::all},
    {Entity::lot, "lot", "what is mixed or bought ahead and lasts for many charges", fields::lot::all},
    {Entity::pot, "pot", "a crucible that is used again", fields::pot::all},
    {Entity::recipe, "recipe", "a charge that the lab keeps, for so much ore", fields::recipe::all},
    {Entity::reducing_test, "reducing_test", "a small fusion that shows how much lead an ore reduces",
     fields::reducing_test::all},
    {Entity::charge_design, "charge_design", "what the charge of a portion is designed from", fields::charge_design::all},
    {Entity::furnace_run, "furnace_run", "one load of the furnace", fields::furnace_run::all},
    {Entity::run_reading, "run_reading", "a temperature read in a run", fields::run_reading::all},
    {Entity::proof, "proof", "known gold and silver cupelled beside the beads, to see what is lost", fields::proof::all},
    {Entity::panning, "panning", "one panning of a pan test: the first, a re-pan of the tail, a clean-up", fields::panning::all},
    {Entity::metallics, "metallics", "a portion screened, the coarse part assayed whole, the fine one by portions",
     fields::metallics::all},
    {Entity::tray, "tray", "a numbered grid of crucibles, moulds, cupels or beads", fields::tray::all},
    {Entity::tray_place, "tray_place", "what stands on one position of a tray", fields::tray_place::all},
    {Entity::check_weight, "check_weight", "a weight of known mass, by which balances are checked", fields::check_weight::all},
    {Entity::check_weighing, "check_weighing", "one weighing of a check weight", fields::check_weighing::all},
    {Entity::own_text, "own_text", "words of the lab in the place of ours on the client's pages", fields::own_text::all},
    {Entity::milling_lot, "milling_lot", "rock that was milled for its owner, and what became of its gold",
     fields::milling_lot::all},
    {Entity::control_material, "control_material", "what the lab keeps to assay among its samples: known rock, barren rock, flux",
     fields::control_material::all},
    {Entity::run_decision, "run_decision", "what was decided of the results of one furnace load", fields::run_decision::all},
    {Entity::summary, "summary", "what a client gets, from its draft to its issue", fields::summary::all},
    {Entity::summary_sample, "summary_sample", "a sample in a summary", fields::summary_sample::all},
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

const EntitySpec& spec_of(Entity entity) {
  static const auto by_code = [] {
    std::array<const EntitySpec*, 128> table{};
    for (const EntitySpec& spec : entities) table.at(std::size_t(spec.entity)) = &spec;
    return table;
  }();
  return *by_code[std::size_t(entity)];
}

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
