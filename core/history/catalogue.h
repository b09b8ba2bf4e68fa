// SPDX-License-Identifier: GPL-3.0-or-later
// The one table of columns: what records a notebook holds, their fields, and the codes by which the history knows
// them. Writing, undo, replay, dump, load, restore and the file format document all read it.
//
// Codes are for ever: a field may be renamed or dropped, its code is never given to another.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string_view>

#include "core/units/measure.h"

namespace prillbook::history {

enum class Entity : std::int64_t {
  setting = 1,
  person = 2,
  client = 3,
  balance = 4,
  consignment = 5,
  sample = 6,
  portion = 7,
  pan_test = 8,
  charge = 9,
  bead = 10,
  weighing = 11,
  answer = 12,
  piece = 20,
  place = 21,
  hand_over = 22,
  own_metal = 23,
  told_figure = 24,
  column_match = 30,
  attachment = 35,
  machine = 40,
  step = 41,
  step_share = 42,
  cleaning = 43,
  crushing_plan = 44,
  plan_place = 45,
  sieve = 50,
  sieve_stack = 51,
  stack_sieve = 52,
  sieve_analysis = 53,
  sieve_cut = 54,
  lot = 60,
  pot = 61,
  recipe = 62,
  reducing_test = 63,
  charge_design = 64,
  furnace_run = 65,
  run_reading = 66,
  proof = 67,
  panning = 70,
  metallics = 71,
  tray = 80,
  tray_place = 81,
  check_weight = 82,
  check_weighing = 83,
  own_text = 86,
  milling_lot = 87,
  control_material = 90,
  run_decision = 91,
  summary = 100,
  summary_sample = 101,
};

enum class FieldKind {
  text,
  whole,      // whole number
  flag,       // 0 or 1
  choice,     // one of `choices`
  instant,    // ISO 8601 local time with offset
  reading,    // a figure as typed, JSON text (core/readings)
  reference,  // id of a record of `refers`
};

struct Field {
  Entity entity;
  std::int64_t code;
  std::string_view column;
  FieldKind kind;
  std::string_view meaning;
  bool required = false;
  std::optional<Entity> refers = std::nullopt;
  std::span<const std::string_view> choices = {};
  std::optional<Measure> measure = std::nullopt;  // readings only
};

struct EntitySpec {
  Entity entity;
  std::string_view table;
  std::string_view meaning;
  std::span<const Field* const> fields;  // by ascending code; the first is `struck`
};

std::span<const EntitySpec> catalogue();
const EntitySpec* find_entity(std::int64_t code);
const EntitySpec* find_entity(std::string_view table);
const EntitySpec& spec_of(Entity entity);
const Field* find_field(const EntitySpec& entity, std::int64_t code);
const Field* find_field(const EntitySpec& entity, std::string_view column);

inline constexpr std::int64_t struck_code = 1;
inline constexpr std::string_view struck_meaning = "1 where the entry is struck out";

}  // namespace prillbook::history
