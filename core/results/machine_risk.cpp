// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/results/machine_risk.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "core/results/machine_books.h"
#include "core/results/machine_uses.h"
#include "core/results/statements.h"

namespace prillbook::results {
namespace {

using milling::Cleaning;
using milling::Step;

constexpr std::size_t uses_looked_at = 8;
const Mass unweighed(1, unit::kilogram);

Mass mass_of_use(const Step& step) {
  if (step.mass_in && step.mass_in->value > 0) return step.mass_in->mass();
  if (step.mass_out && step.mass_out->value > 0) return step.mass_out->mass();
  return unweighed;
}

double share_left(const Cleaning& cleaning, const lab::Settings& settings) {
  if (cleaning.way == "brush") return std::min(settings.brush_leaves_pct, 100.0) / 100;
  if (cleaning.way == "air") return std::min(settings.air_leaves_pct, 100.0) / 100;
  if (cleaning.way == "wipe") return std::min(settings.wipe_leaves_pct, 100.0) / 100;
  return 1;
}

// A flush that was assayed says what the machine holds now.
Result<Held> cleaned(Mass holdup, const Held& held, const Cleaning& cleaning, const lab::Settings& settings) {
  if (cleaning.way != "flush") return brushed(held, share_left(cleaning, settings));
  if (!cleaning.flush_mass || cleaning.flush_mass->value <= 0) return held;
  PRILLBOOK_ASSIGN(Held after, flushed(holdup, held, cleaning.flush_mass->mass()));
  if (cleaning.flush_grade) after.grade = cleaning.flush_grade->grade();
  return after;
}

// The first use that was done later than this. Domain: uses by their time.
std::vector<Step>::const_iterator first_after(const std::vector<Step>& uses, std::int64_t utc_ms) {
  return std::upper_bound(uses.begin(), uses.end(), utc_ms,
                          [](std::int64_t at, const Step& use) { return at < use.done_at.utc_ms; });
}

// Learned from kept flushes right behind a use whose rock was assayed.
Result<std::vector<HoldUp>> learned(const MachineBooks::Book& book, MachineBooks& books) {
  std::vector<HoldUp> all;
  const std::vector<Cleaning>& cleanings = book.cleanings;
  for (std::size_t i = 0; i < cleanings.size(); ++i) {
    const Cleaning& flush = cleanings[i];
    if (flush.way != "flush" || !flush.flush_grade || !flush.flush_mass) continue;
    const auto after = first_after(book.uses, flush.cleaned_at.utc_ms);
    if (after == book.uses.begin()) continue;
    const Step* before = &*std::prev(after);
    if (i > 0 && cleanings[i - 1].cleaned_at.utc_ms >= before->done_at.utc_ms) continue;
    PRILLBOOK_ASSIGN(const LikelyGrade grade, books.grade(before->sample));
    if (grade.basis != GradeBasis::assayed) continue;
    FlushAssay assay{grade.grade, flush.flush_mass->mass(), flush.flush_grade->grade(), {}, grade.u, {}, {}};
    if (flush.barren_grade) assay.barren = flush.barren_grade->grade();
    if (flush.flush_grade_u) assay.u_flushed = flush.flush_grade_u->grade();
    if (const auto one = holdup_of(assay)) all.push_back(*one);
  }
  return all;
}

bool grinds(const milling::Machine& machine) {
  return !machine.kind || machine.kind == "crusher" || machine.kind == "pulveriser";
}

void take_holdup(MachineState& state, const std::vector<HoldUp>& flushes, const lab::Settings& settings) {
  if (const auto mean = mean_holdup(flushes)) {
    state.holdup = *mean;
    state.origin = HoldUpOrigin::flushes;
    state.flushes = int(flushes.size());
  } else if (state.machine.hold_up) {
    state.holdup = {state.machine.hold_up->mass(), {}};
    state.origin = HoldUpOrigin::machine;
  } else if (grinds(state.machine)) {
    state.holdup = {Mass(settings.hold_up_g, unit::gram), {}};
    state.origin = HoldUpOrigin::setting;
  }
}

// A machine followed from use to use.
struct Walk {
  const MachineBooks::Book& book;
  const lab::Settings& settings;
  std::vector<const Step*> uses;  // those that count, oldest first
  std::vector<Cleaning>::const_iterator cleaning;
  MachineState state;

  // The last uses before `end`, and the cleanings since what was there before them.
  void keep_last(std::size_t most, std::vector<Step>::const_iterator end, StepId except = {}) {
    cleaning = book.cleanings.begin();
    for (auto use = end; use != book.uses.begin();) {
      --use;
      if (use->id == except) continue;
      if (uses.size() == most) {
        cleaning = std::upper_bound(cleaning, book.cleanings.end(), use->done_at.utc_ms,
                                    [](std::int64_t then, const Cleaning& one) { return then < one.cleaned_at.utc_ms; });
        break;
      }
      uses.push_back(&*use);
    }
    std::reverse(uses.begin(), uses.end());
    state.cleaning_logged = cleaning != book.cleanings.begin();
  }

  Result<void> clean_until(std::int64_t utc_ms) {
    for (; cleaning != book.cleanings.end() && cleaning->cleaned_at.utc_ms <= utc_ms; ++cleaning) {
      PRILLBOOK_ASSIGN(state.held, cleaned(state.holdup.mass, state.held, *cleaning, settings));
      state.cleanings.push_back(*cleaning);
      state.cleaning_logged = true;
    }
    return {};
  }

  // Cleans it as it was cleaned by then and puts the rock through.
  Result<CarryOverResult> pass(const Step& use, Grade grade) {
    PRILLBOOK_TRY(clean_until(use.began_at.value_or(use.done_at).utc_ms));
    PRILLBOOK_ASSIGN(const PassageRisk risk, pass_through(state.holdup.mass, state.held, {mass_of_use(use), grade, {}, 1}));
    state.held = risk.after;
    state.cleanings.clear();
    return risk.carried;
  }
};

Result<Walk> walk_of(MachineBooks& books, MachineId id) {
  PRILLBOOK_ASSIGN(MachineBooks::Book* const book, books.of(id));
  if (!book->flushes) {
    PRILLBOOK_ASSIGN(book->flushes, learned(*book, books));
  }
  Walk walk{*book, books.settings(), {}, book->cleanings.begin(), {}};
  walk.state.machine = book->machine;
  take_holdup(walk.state, *book->flushes, books.settings());
  return walk;
}

Result<MachineState> state_of(MachineBooks& books, MachineId id, const Instant& at, StepId except) {
  PRILLBOOK_ASSIGN(Walk walk, walk_of(books, id));
  walk.keep_last(uses_looked_at, first_after(walk.book.uses, at.utc_ms), except);
  for (const Step* use : walk.uses) {
    PRILLBOOK_ASSIGN(const custody::Sample sample, custody::sample(books.connection(), use->sample));
    PRILLBOOK_ASSIGN(const LikelyGrade grade, books.grade(use->sample));
    PRILLBOOK_TRY(walk.pass(*use, grade.grade));
    walk.state.before.push_back({*use, sample.number, grade});
  }
  PRILLBOOK_TRY(walk.clean_until(at.utc_ms));
  return std::move(walk.state);
}

double percent_of(Grade carried, Grade own, const lab::Settings& settings) {
  const Grade floor(settings.carry_over_floor_g_t, unit::gram_per_tonne);
  return std::max(0.0, 100 * (carried / std::max(own, floor)));
}

// What the order in force at that time wanted of this step.
Result<void> compare_with_plan(MachineBooks& books, MachineRisk& risk) {
  store::Connection& connection = books.connection();
  PRILLBOOK_ASSIGN(auto plan, milling::plan_at(connection, risk.step.machine, risk.step.done_at));
  if (!plan) return {};
  const milling::PlanPlace* own = plan->place_of(risk.step.sample);
  if (!own) return {};
  PRILLBOOK_ASSIGN(const MachineBooks::Book* const book, books.of(risk.step.machine));
  const std::vector<Step>& uses = book->uses;
  // Only the first run after the plan was made is the run that the plan speaks of.
  for (const Step& use : uses)
    if (use.sample == risk.step.sample && use.id != risk.step.id && use.done_at.utc_ms >= plan->made_at.utc_ms &&
        use.done_at.utc_ms < risk.step.done_at.utc_ms)
      return {};
  for (const milling::PlanPlace& place : plan->places) {
    if (place.number >= own->number) break;
    const bool been = std::any_of(uses.begin(), uses.end(), [&](const Step& use) {
      return use.sample == place.sample && use.done_at.utc_ms <= risk.step.done_at.utc_ms;
    });
    if (been) continue;
    PRILLBOOK_ASSIGN(const custody::Sample sample, custody::sample(connection, place.sample));
    risk.should_have_gone_first = sample.number;
    break;
  }
  risk.flushes_owed = own->flushes;
  risk.flushes_done = std::count_if(risk.state.cleanings.begin(), risk.state.cleanings.end(),
                                    [](const Cleaning& one) { return one.way == "flush"; });
  risk.plan = *std::move(plan);
  return {};
}

}  // namespace

LikelyGrade grade_of_class(const std::optional<std::string>& expected, const lab::Settings& settings) {
  double g_t = settings.ordinary_g_t;
  if (expected == "barren") g_t = settings.barren_g_t;
  if (expected == "low") g_t = settings.low_g_t;
  if (expected == "rich") g_t = settings.rich_g_t;
  if (expected == "specimen") g_t = settings.specimen_g_t;
  return {Grade(g_t, unit::gram_per_tonne), expected ? GradeBasis::expected : GradeBasis::unknown, {}};
}

LikelyGrade likely_grade(const SampleRecord& record, const SampleResult& result) {
  const auto measured = [](const MeasuredGrade& grade, GradeBasis basis) {
    LikelyGrade likely{Grade(grade.g_t(), unit::gram_per_tonne), basis, {}};
    if (grade.lo && grade.hi) likely.u = (*grade.hi - *grade.lo) / (2 * 1.96);
    return likely;
  };
  if (result.fire.gold.mean) return measured(*result.fire.gold.mean, GradeBasis::assayed);
  if (result.leading_pan && result.pan[*result.leading_pan].grade && result.pan[*result.leading_pan].grade->gold)
    return measured(*result.pan[*result.leading_pan].grade->gold, GradeBasis::panned);
  for (auto entry = record.pan_tests.rbegin(); entry != record.pan_tests.rend(); ++entry) {
    const portions::Portion* panned = record.portion(entry->test.portion);
    if (entry->test.spoiled || !entry->test.free_gold || !panned || !panned->mass || panned->mass->value <= 0) continue;
    return {grade(entry->test.free_gold->mass(), panned->mass->mass()), GradeBasis::panned, {}};
  }
  return grade_of_class(record.sample.expected, record.settings);
}

Result<LikelyGrade> likely_grade(store::Connection& connection, SampleId id, const lab::Settings& settings) {
  PRILLBOOK_ASSIGN(const std::int64_t tests, connection.integer(sql::count_tests, {id.value}));
  if (tests > 0) {
    PRILLBOOK_ASSIGN(const SampleRecord record, load_sample_record(connection, id));
    return likely_grade(record, compute(record));
  }
  PRILLBOOK_ASSIGN(const custody::Sample sample, custody::sample(connection, id));
  return grade_of_class(sample.expected, settings);
}

Result<std::vector<MachineUse>> machine_uses(store::Connection& connection, MachineId machine, std::size_t most) {
  PRILLBOOK_ASSIGN(const lab::Settings settings, lab::settings(connection));
  MachineBooks books(connection, settings);
  PRILLBOOK_ASSIGN(Walk walk, walk_of(books, machine));
  walk.keep_last(uses_looked_at + most, walk.book.uses.end());
  std::vector<MachineUse> all;
  for (const Step* step : walk.uses) {
    MachineUse use;
    use.step = *step;
    PRILLBOOK_ASSIGN(const custody::Sample sample, custody::sample(connection, step->sample));
    use.number = sample.number;
    PRILLBOOK_ASSIGN(use.own, books.grade(step->sample));
    PRILLBOOK_ASSIGN(use.carried, walk.pass(*step, use.own.grade));
    const bool behind_another =
        std::any_of(all.begin(), all.end(), [&](const MachineUse& before) { return before.step.sample != step->sample; });
    use.judged = behind_another && walk.state.cleaning_logged && walk.state.origin != HoldUpOrigin::none;
    use.pct = percent_of(use.carried.carryover, use.own.grade, settings);
    use.above = use.pct > settings.carry_over_limit_pct;
    all.push_back(std::move(use));
  }
  if (all.size() > most) all.erase(all.begin(), all.end() - std::ptrdiff_t(most));
  return all;
}

Result<MachineState> machine_state(store::Connection& connection, MachineId machine, const Instant& at, StepId except) {
  PRILLBOOK_ASSIGN(const lab::Settings settings, lab::settings(connection));
  MachineBooks books(connection, settings);
  return state_of(books, machine, at, except);
}

Result<std::vector<MachineRisk>> machine_risks(store::Connection& connection, const SampleRecord& record,
                                               const SampleResult& result) {
  MachineBooks books(connection, record.settings);
  return machine_risks(books, record, result);
}

Result<std::vector<MachineRisk>> machine_risks(MachineBooks& books, const SampleRecord& record, const SampleResult& result) {
  std::vector<MachineRisk> risks;
  for (const Step& step : record.steps) {
    if (!step.machine) continue;
    MachineRisk risk;
    risk.step = step;
    risk.own = likely_grade(record, result);
    PRILLBOOK_ASSIGN(risk.state, state_of(books, step.machine, step.began_at.value_or(step.done_at), step.id));
    PRILLBOOK_TRY(compare_with_plan(books, risk));
    std::erase_if(risk.state.before, [&](const auto& one) { return one.step.sample == step.sample; });
    risk.judged = risk.state.cleaning_logged && !risk.state.before.empty() && risk.state.origin != HoldUpOrigin::none;
    if (risk.judged) {
      PRILLBOOK_ASSIGN(const PassageRisk passed,
                       pass_through(risk.state.holdup.mass, risk.state.held, {mass_of_use(step), risk.own.grade, {}, 1}));
      risk.carried = passed.carried;
      risk.pct = percent_of(passed.carried.carryover, risk.own.grade, record.settings);
      risk.above = risk.pct > record.settings.carry_over_limit_pct;
      risk.uncleaned_since_richer = risk.state.cleanings.empty() && risk.state.before.back().grade.grade > risk.own.grade;
    }
    risks.push_back(std::move(risk));
  }
  return risks;
}

Result<ProposedOrder> propose_order(store::Connection& connection, MachineId machine, const Instant& now,
                                    const std::optional<Instant>& urgent_until) {
  PRILLBOOK_ASSIGN(const lab::Settings settings, lab::settings(connection));
  MachineBooks books(connection, settings);
  ProposedOrder order;
  PRILLBOOK_ASSIGN(order.state, state_of(books, machine, now, {}));
  if (order.state.machine.retired(now))
    return Error{ErrorCode::conflict, "crushing_plan.machine_id", "the machine is retired", {order.state.machine.name}};
  PRILLBOOK_ASSIGN(const auto waiting, milling::waiting_for(connection, machine, 10'000));
  std::vector<WaitingRock> rocks;
  std::map<std::int64_t, ProposedPlace> by_id;
  for (const milling::WaitingSample& one : waiting) {
    ProposedPlace place{{},        one.line, grade_of_class(one.expected, settings),
                        unweighed, one.due,  one.mass && one.mass->value > 0};
    if (one.tested) {
      PRILLBOOK_ASSIGN(place.grade, books.grade(one.line.id));
    }
    if (place.mass_known) place.mass = one.mass->mass();
    rocks.push_back({one.line.id.value, place.mass, place.grade.grade, one.due ? std::optional(one.due->utc_ms) : std::nullopt});
    by_id.emplace(one.line.id.value, std::move(place));
  }
  order.flush = Mass(settings.flush_g, unit::gram);
  OrderRules rules{order.state.holdup.mass,
                   order.state.held,
                   settings.carry_over_limit_pct,
                   Grade(settings.carry_over_floor_g_t, unit::gram_per_tonne),
                   order.flush,
                   5,
                   urgent_until ? urgent_until->utc_ms : INT64_MIN};
  PRILLBOOK_ASSIGN(const CrushingOrder best, crushing_order(rocks, rules));
  PRILLBOOK_ASSIGN(const CrushingOrder arrival, as_given(rocks, rules));
  for (const OrderedRock& rock : best.places) {
    ProposedPlace place = by_id.at(rock.id);
    place.rock = rock;
    order.places.push_back(std::move(place));
  }
  order.flush_total = best.flush_total;
  order.arrival_flush_total = arrival.flush_total;
  return order;
}

std::vector<milling::PlanPlace> places_to_keep(const ProposedOrder& order) {
  std::vector<milling::PlanPlace> places;
  const portions::MassInWords words = portions::in_words(order.flush);
  for (const ProposedPlace& place : order.places) {
    milling::PlanPlace kept{0, place.sample.id, {}, place.rock.flushes};
    if (place.rock.flushes > 0) {
      auto mass = readings::parse(fmt::format("{} {}", words.number, words.unit), {Measure::mass, "g", DecimalMark::point, true});
      if (mass) kept.flush_mass = *std::move(mass);
    }
    places.push_back(std::move(kept));
  }
  return places;
}

}  // namespace prillbook::results
