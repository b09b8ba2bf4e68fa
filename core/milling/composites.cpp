// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/milling/composites.h"

#include <fmt/format.h>

#include <algorithm>

#include "core/custody/custody.h"
#include "core/history/fields.h"
#include "core/history/record.h"
#include "core/units/units.h"

namespace prillbook::milling {
namespace {

namespace share_fields = history::fields::step_share;
using history::Entity;
using readings::cell_of;
using readings::Figure;

Result<void> check_share(const NewShare& share) {
  if (!share.mass) return refusal(ErrorCode::missing_key, "portion.mass", "what goes into a composite is weighed");
  if (share.mass->value <= 0) return refusal(ErrorCode::out_of_range, "portion.mass", "a share weighs more than zero");
  return {};
}

// Which of many shares was too much: the number of its sample goes last among the arguments.
Error with_sample(store::Connection& connection, SampleId sample, Error error) {
  if (error.code != ErrorCode::overdrawn) return error;
  if (const auto record = custody::sample(connection, sample)) error.arguments.push_back(record->number);
  return error;
}

Result<PortionId> take_share(history::ChangeSet& set, StepId composite, const NewShare& share, const Instant& at, PersonId by) {
  PRILLBOOK_TRY(check_share(share));
  portions::NewPortion fresh{share.sample, share.parent, "composite", share.mass, at, by, {}};
  PRILLBOOK_ASSIGN(const PortionId portion, portions::cut(set, fresh));
  auto made = set.make(Entity::step_share, {{share_fields::step, cell_of(composite)},
                                            {share_fields::portion, cell_of(portion)},
                                            {share_fields::share, cell_of(share.share)}});
  if (!made) return made.error();
  return portion;
}

Result<Figure> mass_of_all(const std::vector<NewShare>& shares) {
  Mass sum;
  for (const NewShare& share : shares) {
    PRILLBOOK_TRY(check_share(share));
    sum += share.mass->mass();
  }
  const portions::MassInWords words = portions::in_words(sum);
  PRILLBOOK_ASSIGN(readings::Reading reading, readings::parse(fmt::format("{} {}", words.number, words.unit),
                                                              {Measure::mass, "g", DecimalMark::point, true}));
  return Figure{std::move(reading)};
}

// Whether `sample` is, or holds a share of, the sample `wanted`. Composites of composites end: each is younger than its parts.
Result<bool> made_of(store::Connection& connection, SampleId sample, SampleId wanted, int depth = 0) {
  if (sample == wanted || depth > 50) return true;
  PRILLBOOK_ASSIGN(const auto steps, steps_of(connection, sample));
  for (const Step& one : steps) {
    if (one.kind != "composite") continue;
    PRILLBOOK_ASSIGN(const auto shares, shares_of(connection, one.id));
    for (const CompositeShare& share : shares) {
      PRILLBOOK_ASSIGN(const bool within, made_of(connection, share.sample, wanted, depth + 1));
      if (within) return true;
    }
  }
  return false;
}

}  // namespace

Result<Composite> make_composite(history::ChangeSet& set, const NewComposite& composite) {
  if (composite.shares.size() < 2)
    return refusal(ErrorCode::too_small, "step_share", "a composite is put together from at least two portions");
  custody::NewSample fresh;
  fresh.consignment = composite.consignment;
  fresh.mark = composite.mark;
  PRILLBOOK_ASSIGN(fresh.mass_received, mass_of_all(composite.shares));
  PRILLBOOK_ASSIGN(const SampleId sample, custody::log_sample(set, fresh));
  const Instant done = composite.done_at.value_or(set.when());
  NewStep step;
  step.sample = sample;
  step.kind = "composite";
  step.done_at = done;
  step.done_by = composite.done_by;
  PRILLBOOK_ASSIGN(const DoneStep made, do_step(set, step));
  for (const NewShare& share : composite.shares) {
    auto taken = take_share(set, made.step, share, done, composite.done_by);
    if (!taken) return with_sample(set.connection(), share.sample, taken.error());
  }
  return Composite{sample, made.step};
}

Result<Composite> make_composite(history::Journal& journal, const NewComposite& composite) {
  return journal.record_for<Composite>("make composite", [&](history::ChangeSet& set) { return make_composite(set, composite); });
}

Result<PortionId> add_share(history::Journal& journal, StepId composite, const NewShare& share) {
  store::Connection& connection = journal.connection();
  PRILLBOOK_ASSIGN(const Step made, step(connection, composite));
  if (made.kind != "composite") return refusal(ErrorCode::inconsistent, "step_share.step_id", "this step is no composite");
  PRILLBOOK_ASSIGN(const bool itself, made_of(connection, share.sample, made.sample));
  if (itself) return refusal(ErrorCode::conflict, "step_share.portion_id", "a composite can't be put into itself");
  return journal.record_for<PortionId>("add share", [&](history::ChangeSet& set) -> Result<PortionId> {
    PRILLBOOK_ASSIGN(const PortionId taken, take_share(set, composite, share, set.when(), made.done_by));
    PRILLBOOK_ASSIGN(const auto shares, shares_of(set.connection(), composite));
    std::vector<NewShare> all;
    for (const CompositeShare& one : shares) all.push_back({one.sample, {}, one.portion.mass, {}});
    PRILLBOOK_ASSIGN(const Figure mass, mass_of_all(all));
    PRILLBOOK_TRY(set.set(history::fields::sample::mass_received, made.sample.value, cell_of(mass)));
    return taken;
  });
}

Result<std::vector<CompositeShare>> shares_of(store::Connection& connection, StepId composite) {
  PRILLBOOK_ASSIGN(const auto records, history::load_referring(connection, share_fields::step, composite.value));
  std::vector<CompositeShare> shares;
  for (const history::Record& record : records) {
    PRILLBOOK_ASSIGN(portions::Portion portion,
                     portions::portion(connection, record.reference<PortionId>(share_fields::portion)));
    PRILLBOOK_ASSIGN(Figure share, readings::figure_of(record, share_fields::share));
    const SampleId sample = portion.sample;
    shares.push_back({sample, std::move(portion), std::move(share)});
  }
  return shares;
}

}  // namespace prillbook::milling
