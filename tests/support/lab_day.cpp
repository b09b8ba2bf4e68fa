// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/lab_day.h"

#include <string>

#include "core/history/fields.h"
#include "core/readings/reading.h"

namespace prillbook::testing_support {
namespace {

namespace fields = history::fields;
using history::ChangeSet;
using history::Entity;
using history::Journal;
using history::Setting;

std::string grams(std::string_view typed) { return readings::encode(readings::parse(typed, {}).value()); }

Gesture make(const char* name, Entity entity, std::vector<Setting> settings, int times = 1) {
  return [=](Journal& journal) {
    return journal.record(name, [&](ChangeSet& set) -> Result<void> {
      for (int i = 0; i < times; ++i) PRILLBOOK_TRY(set.make(entity, settings));
      return {};
    });
  };
}

Gesture change(const char* name, const history::Field& field, RecordId record, const std::string& value, const char* why = "") {
  return [=, &field](Journal& journal) {
    return journal.record(name, [&](ChangeSet& set) {
      if (*why) set.because(why);
      return set.set(field, record, value);
    });
  };
}

// A gesture of many rows: a tray of samples, each with a long remark, so that the file grows by pages.
Gesture tray() {
  return [](Journal& journal) {
    return journal.record("receive", [](ChangeSet& set) -> Result<void> {
      for (int i = 2; i <= 7; ++i)
        PRILLBOOK_TRY(set.make(Entity::sample, {{fields::sample::number, "26-00" + std::to_string(i)},
                                                {fields::sample::consignment, std::int64_t{1}},
                                                {fields::sample::mark, "T" + std::to_string(i)},
                                                {fields::sample::remarks, std::string(700, 'r')}}));
      return {};
    });
  };
}

Gesture take_back() {
  return [](Journal& journal) -> Result<void> {
    PRILLBOOK_TRY(journal.undo());
    return {};
  };
}

}  // namespace

std::vector<Gesture> lab_day() {
  const std::int64_t one = 1;
  return {
      make("add person", Entity::person, {{fields::person::initials, "HM"}}),
      make("add balance", Entity::balance, {{fields::balance::name, "bead balance"}, {fields::balance::step, grams("0.01 mg")}}),
      make("add client", Entity::client, {{fields::client::name, "Larch Adit Syndicate"}}),
      make("receive", Entity::consignment,
           {{fields::consignment::number, "C26-001"},
            {fields::consignment::client, one},
            {fields::consignment::arrived, "2026-05-04T09:00:00.000+02:00"}}),
      make("receive", Entity::sample,
           {{fields::sample::number, "26-0001"},
            {fields::sample::consignment, one},
            {fields::sample::mark, "L1"},
            {fields::sample::mass_received, grams("812,5 g")}}),
      tray(),
      change("change sample", fields::sample::mass_received, 1, grams("821,5 g"), "slip of the pen"),
      make("cut", Entity::portion,
           {{fields::portion::sample, one},
            {fields::portion::number, one},
            {fields::portion::purpose, "fire"},
            {fields::portion::mass, grams("29.17 g")}}),
      make("charge", Entity::charge, {{fields::charge::portion, one}}),
      change("pour", fields::charge::button, 1, grams("28 g")),
      make("bead", Entity::bead, {{fields::bead::charge, one}}),
      make("weigh", Entity::weighing,
           {{fields::weighing::bead, one},
            {fields::weighing::what, "bead"},
            {fields::weighing::number, one},
            {fields::weighing::mass, grams("0.62 mg")}}),
      change("look", fields::bead::look, 1, "pale"),
      change("change sample", fields::sample::remarks, 2, "shorter now"),
      take_back(),
      make("add clients", Entity::client, {{fields::client::name, "Halfmoon Diggings"}}, 3),
  };
}

Result<void> do_gesture(history::Journal& journal, SteppingClock& clock, const std::vector<Gesture>& day, std::size_t number) {
  constexpr std::int64_t quarter_hour_ms = 900'000;
  Instant time = *parse_iso("2026-05-04T09:00:00.000+02:00");
  time.utc_ms += static_cast<std::int64_t>(number) * quarter_hour_ms;
  clock.set(time);
  journal.set_author("HM");
  return day[number](journal);
}

}  // namespace prillbook::testing_support
