// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/generator.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <random>
#include <string>
#include <vector>

#include "core/history/fields.h"
#include "core/readings/reading.h"

namespace prillbook::testing_support {
namespace {

namespace fields = history::fields;
using history::ChangeSet;
using history::Entity;
using history::Setting;
using store::Value;

constexpr std::int64_t hour_ms = 3'600'000;

// std::mt19937_64 is the same everywhere; the distributions of the library are not.
class Dice {
 public:
  explicit Dice(std::uint64_t seed) : engine_(seed) {}
  long between(long low, long high) { return low + static_cast<long>(engine_() % static_cast<std::uint64_t>(high - low + 1)); }
  bool chance(int percent) { return between(1, 100) <= percent; }
  template <class List>
  auto pick(const List& list) {
    return list[static_cast<std::size_t>(between(0, static_cast<long>(std::size(list)) - 1))];
  }

 private:
  std::mt19937_64 engine_;
};

std::string cell(const std::string& typed, Measure measure = Measure::mass) {
  const auto mark = typed.find(',') == std::string::npos ? DecimalMark::point : DecimalMark::comma;
  return readings::encode(readings::parse(typed, {measure, readings::base_unit(measure), mark, true}).value());
}

struct SampleInHand {
  RecordId id = 0;
  long mass_g = 0;
  long grade_mg_kg = 0;
  RecordId pan_portion = 0;
  std::vector<RecordId> fire_portions;
};

class LabWeeks {
 public:
  LabWeeks(history::Journal& journal, SteppingClock& clock, const GeneratorOptions& options)
      : journal_(journal), clock_(clock), options_(options), dice_(options.seed) {}

  Result<void> run() {
    PRILLBOOK_TRY(set_up());
    long consignments = 0;
    while (samples_made_ < options_.samples) {
      next_day(consignments);
      PRILLBOOK_TRY(gesture("receive", [&](ChangeSet& set) { return receive(set); }));
      PRILLBOOK_TRY(gesture("cut", [&](ChangeSet& set) { return cut(set); }));
      PRILLBOOK_TRY(gesture("pan", [&](ChangeSet& set) { return pan(set); }));
      PRILLBOOK_TRY(gesture("fire", [&](ChangeSet& set) { return fire(set); }));
      PRILLBOOK_TRY(correct());
      ++consignments;
      if (options_.progress) options_.progress(samples_made_, options_.samples);
    }
    return {};
  }

 private:
  template <class Body>
  Result<void> gesture(const char* name, Body&& body) {
    journal_.set_author(dice_.chance(60) ? "HM" : "TV");
    now_.utc_ms += dice_.between(1, 3) * hour_ms;
    clock_.set(now_);
    return journal_.record(name, body);
  }
  void next_day(long consignments) {
    constexpr std::int64_t day_ms = 24 * hour_ms;
    const Instant first = *parse_iso("2020-01-06T08:00:00.000+01:00");
    now_ = {first.utc_ms + (consignments / 3 * 7 + consignments % 3 * 2) * day_ms, first.offset_minutes};
  }
  std::string later() {
    now_.utc_ms += dice_.between(2, 9) * 60'000;
    return to_iso(now_);
  }

  Result<void> set_up();
  Result<void> receive(ChangeSet& set);
  Result<RecordId> client(ChangeSet& set);
  Result<void> receive_one(ChangeSet& set);
  Result<void> take_sample(ChangeSet& set, RecordId consignment, const std::string& number);
  Result<void> cut(ChangeSet& set);
  Result<RecordId> portion(ChangeSet& set, const SampleInHand& sample, long number, const char* purpose, const std::string& mass);
  Result<void> pan(ChangeSet& set);
  Result<void> fire(ChangeSet& set);
  Result<void> weigh(ChangeSet& set, RecordId bead, long ug, bool parted, long fineness);
  Result<void> correct();

  history::Journal& journal_;
  SteppingClock& clock_;
  const GeneratorOptions& options_;
  Dice dice_;
  Instant now_;
  std::vector<RecordId> people_, balances_, clients_;
  std::vector<SampleInHand> in_hand_;
  long samples_made_ = 0;
  long consignments_made_ = 0;
};

Result<void> LabWeeks::set_up() {
  next_day(0);
  return gesture("set up the lab", [&](ChangeSet& set) -> Result<void> {
    for (const auto& [initials, name] : {std::pair("HM", "Hedda Morn"), std::pair("TV", "Tarn Vessel")}) {
      PRILLBOOK_ASSIGN(const RecordId id,
                       set.make(Entity::person, {{fields::person::initials, initials}, {fields::person::name, name}}));
      people_.push_back(id);
    }
    for (const auto& [name, step, capacity] :
         {std::tuple("bead balance", "0.01 mg", "5 g"), std::tuple("bench", "0.1 g", "6 kg")}) {
      PRILLBOOK_ASSIGN(const RecordId id, set.make(Entity::balance, {{fields::balance::name, name},
                                                                     {fields::balance::step, cell(step)},
                                                                     {fields::balance::capacity, cell(capacity)}}));
      balances_.push_back(id);
    }
    PRILLBOOK_TRY(set.make(Entity::setting, {{fields::setting::name, "loss_limit"}, {fields::setting::value, "1 %"}}));
    return {};
  });
}

Result<RecordId> LabWeeks::client(ChangeSet& set) {
  constexpr std::array rocks{"Larch", "Brindle", "Copperbeck", "Halfmoon", "Skarn", "Rookery", "Tin Kettle", "Greywether"};
  constexpr std::array firms{"Adit Syndicate", "Prospecting Party", "Lode Company", "Diggings", "Creek Claim"};
  if (!clients_.empty() && !dice_.chance(25)) return dice_.pick(clients_);
  PRILLBOOK_ASSIGN(const RecordId id,
                   set.make(Entity::client, {{fields::client::name, fmt::format("{} {}", dice_.pick(rocks), dice_.pick(firms))},
                                             {fields::client::contact, dice_.chance(50) ? "by post" : "calls on Fridays"}}));
  clients_.push_back(id);
  return id;
}

Result<void> LabWeeks::receive(ChangeSet& set) {
  in_hand_.clear();
  for (int i = 0; i < options_.consignments_a_gesture && samples_made_ < options_.samples; ++i) PRILLBOOK_TRY(receive_one(set));
  return {};
}

Result<void> LabWeeks::receive_one(ChangeSet& set) {
  PRILLBOOK_ASSIGN(const RecordId owner, client(set));
  const long pieces = std::min(dice_.between(3, 30), options_.samples - samples_made_);
  ++consignments_made_;
  PRILLBOOK_ASSIGN(const RecordId consignment,
                   set.make(Entity::consignment, {{fields::consignment::number, fmt::format("C{:05}", consignments_made_)},
                                                  {fields::consignment::client, owner},
                                                  {fields::consignment::arrived, later()},
                                                  {fields::consignment::carrier, dice_.chance(70) ? "the client" : "rail"},
                                                  {fields::consignment::pieces_declared, pieces},
                                                  {fields::consignment::pieces_found, pieces},
                                                  {fields::consignment::received_by, dice_.pick(people_)}}));
  for (long i = 0; i < pieces; ++i) PRILLBOOK_TRY(take_sample(set, consignment, fmt::format("S{:06}", ++samples_made_)));
  return {};
}

Result<void> LabWeeks::take_sample(ChangeSet& set, RecordId consignment, const std::string& number) {
  SampleInHand sample;
  sample.mass_g = dice_.between(350, 6000);
  sample.grade_mg_kg = dice_.chance(10) ? dice_.between(30, 300) : dice_.between(0, 30);
  const std::string mass = sample.mass_g > 2000 ? fmt::format("{}.{:03} kg", sample.mass_g / 1000, sample.mass_g % 1000)
                                                : fmt::format("{},{} g", sample.mass_g, dice_.between(0, 9));
  std::vector<Setting> settings{
      {fields::sample::number, number},
      {fields::sample::consignment, consignment},
      {fields::sample::mark, fmt::format("{}{}", dice_.pick(std::array{"A", "B", "L", "No. "}), dice_.between(1, 99))},
      {fields::sample::kind, std::string(dice_.pick(fields::sample::kinds))},
      {fields::sample::condition, std::string(dice_.pick(fields::sample::conditions))},
      {fields::sample::mass_received, cell(mass)}};
  if (dice_.chance(60))
    settings.push_back({fields::sample::place, fmt::format("level {}, {} m in", dice_.between(1, 5), dice_.between(2, 80))});
  if (dice_.chance(40)) settings.push_back({fields::sample::expected, std::string(dice_.pick(fields::sample::classes))});
  if (dice_.chance(30))
    settings.push_back(
        {fields::sample::moisture, cell(fmt::format("{}.{} %", dice_.between(0, 9), dice_.between(0, 9)), Measure::share)});
  PRILLBOOK_ASSIGN(sample.id, set.make(Entity::sample, settings));
  in_hand_.push_back(std::move(sample));
  return {};
}

Result<RecordId> LabWeeks::portion(ChangeSet& set, const SampleInHand& sample, long number, const char* purpose,
                                   const std::string& mass) {
  return set.make(Entity::portion, {{fields::portion::sample, sample.id},
                                    {fields::portion::number, number},
                                    {fields::portion::purpose, purpose},
                                    {fields::portion::mass, cell(mass)},
                                    {fields::portion::cut_at, later()},
                                    {fields::portion::cut_by, dice_.pick(people_)}});
}

Result<void> LabWeeks::cut(ChangeSet& set) {
  for (SampleInHand& sample : in_hand_) {
    long number = 0;
    if (dice_.chance(70)) {
      PRILLBOOK_ASSIGN(sample.pan_portion, portion(set, sample, ++number, "pan",
                                                   fmt::format("{}.{} g", dice_.between(100, 300), dice_.between(0, 9))));
    }
    for (long i = dice_.chance(20) ? 2 : 1; i > 0; --i) {
      const char* purpose = sample.fire_portions.empty() ? "fire" : "duplicate";
      const std::string mass = fmt::format("{}.{:02} g", dice_.between(28, 31), dice_.between(0, 99));
      PRILLBOOK_ASSIGN(const RecordId id, portion(set, sample, ++number, purpose, mass));
      sample.fire_portions.push_back(id);
    }
  }
  return {};
}

Result<void> LabWeeks::pan(ChangeSet& set) {
  for (const SampleInHand& sample : in_hand_) {
    if (!sample.pan_portion) continue;
    PRILLBOOK_ASSIGN(const RecordId test,
                     set.make(Entity::pan_test,
                              {{fields::pan_test::portion, sample.pan_portion},
                               {fields::pan_test::panned_at, later()},
                               {fields::pan_test::panned_by, dice_.pick(people_)},
                               {fields::pan_test::grind, cell(fmt::format("{} µm", dice_.between(8, 30) * 10), Measure::opening)},
                               {fields::pan_test::colours, fmt::format("{} fine", dice_.between(0, 40))},
                               {fields::pan_test::black_sand, std::string(dice_.pick(fields::pan_test::amounts))},
                               {fields::pan_test::sulphides, std::string(dice_.pick(fields::pan_test::amounts))}}));
    const bool none = dice_.chance(15);
    PRILLBOOK_ASSIGN(const RecordId bead,
                     set.make(Entity::bead, {{fields::bead::pan_test, test}, {fields::bead::none_seen, std::int64_t{none}}}));
    if (!none) PRILLBOOK_TRY(weigh(set, bead, sample.grade_mg_kg * 120 + dice_.between(5, 50), false, 0));
  }
  return {};
}

Result<void> LabWeeks::fire(ChangeSet& set) {
  for (const SampleInHand& sample : in_hand_)
    for (const RecordId from : sample.fire_portions) {
      std::vector<Setting> settings{{fields::charge::portion, from},
                                    {fields::charge::fired_at, later()},
                                    {fields::charge::fired_by, dice_.pick(people_)},
                                    {fields::charge::button, cell(fmt::format("{} g", dice_.between(24, 34)))},
                                    {fields::charge::slag_look, dice_.chance(80) ? "glassy, green" : "stony"}};
      const bool spoiled = dice_.chance(3);
      if (spoiled) settings.push_back({fields::charge::spoiled, "boiled over"});
      PRILLBOOK_ASSIGN(const RecordId charge, set.make(Entity::charge, settings));
      if (spoiled) {
        PRILLBOOK_TRY(set.make(Entity::bead, {{fields::bead::charge, charge}}));
        continue;
      }
      const long fineness = dice_.between(600, 950);
      PRILLBOOK_ASSIGN(const RecordId bead,
                       set.make(Entity::bead, {{fields::bead::charge, charge}, {fields::bead::method, "parted"}}));
      PRILLBOOK_TRY(weigh(set, bead, sample.grade_mg_kg * 30 + dice_.between(5, 50), true, fineness));
    }
  return {};
}

Result<void> LabWeeks::weigh(ChangeSet& set, RecordId bead, long ug, bool parted, long fineness) {
  const auto one = [&](const char* what, long number, long micrograms) -> Result<void> {
    const long hundredths = micrograms / 10;
    const char mark = dice_.chance(30) ? ',' : '.';
    PRILLBOOK_TRY(set.make(Entity::weighing,
                           {{fields::weighing::bead, bead},
                            {fields::weighing::what, what},
                            {fields::weighing::number, number},
                            {fields::weighing::mass, cell(fmt::format("{}{}{:02} mg", hundredths / 100, mark, hundredths % 100))},
                            {fields::weighing::balance, balances_.front()},
                            {fields::weighing::weighed_at, later()},
                            {fields::weighing::weighed_by, dice_.pick(people_)}}));
    return {};
  };
  for (long number = 1, repeats = dice_.chance(30) ? 2 : 1; number <= repeats; ++number)
    PRILLBOOK_TRY(one("bead", number, ug + dice_.between(-1, 1) * 10));
  return parted ? one("gold", 1, ug * fineness / 1000) : Result<void>();
}

// Now and then a figure is put right with a reason, and once in a while a gesture is taken back.
Result<void> LabWeeks::correct() {
  if (in_hand_.empty() || !dice_.chance(40)) return {};
  const RecordId sample = dice_.pick(in_hand_).id;
  const auto changed = gesture("change sample", [&](ChangeSet& set) -> Result<void> {
    set.because("told by telephone");
    PRILLBOOK_TRY(set.set(fields::sample::mark, sample, fmt::format("R{}", dice_.between(1, 99))));
    return set.set(fields::sample::remarks, sample, "mark read wrongly at first");
  });
  if (!changed) return changed;
  if (dice_.chance(20)) PRILLBOOK_TRY(journal_.undo());
  return {};
}

}  // namespace

Result<void> generate(history::Journal& journal, SteppingClock& clock, const GeneratorOptions& options) {
  return LabWeeks(journal, clock, options).run();
}

}  // namespace prillbook::testing_support
