// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/story/story.h"

#include <algorithm>
#include <cstdlib>

#include "core/history/chain.h"
#include "core/history/fields.h"
#include "core/history/statements.h"

namespace prillbook::story {
namespace {

namespace fields = history::fields;
using history::Entity;
using history::HistoryRow;
using store::is_null;

constexpr std::int64_t hour_ms = 3'600'000;

HistoryRow row_of(const store::Row& line) {
  HistoryRow row;
  row.id = line.integer(0);
  row.field = line.integer(6);
  row.old_value = line.value(7);
  row.new_value = line.value(8);
  row.who = line.text(9);
  row.when = {line.integer(10), static_cast<std::int32_t>(line.integer(11))};
  row.why = line.optional_text(12);
  return row;
}

// An event with the number of the history row that it comes from, which breaks ties of time.
struct Placed {
  std::int64_t row;
  Event event;
};

class Teller {
 public:
  Teller(store::Connection& connection, const results::SampleRecord& record) : connection_(connection), record_(record) {}

  Result<std::vector<Event>> tell() {
    const custody::Sample& sample = record_.sample;
    PRILLBOOK_TRY(read(Entity::sample, sample.id.value, {}));
    made({EventKind::arrived,
          record_.consignment.arrived,
          record_.initials(record_.consignment.received_by),
          Entity::sample,
          sample.id.value,
          {},
          nullptr,
          {},
          {},
          {}});
    PRILLBOOK_TRY(tell_custody());
    for (const milling::Step& step : record_.steps) PRILLBOOK_TRY(tell(step));
    for (const portions::Portion& portion : record_.portions) PRILLBOOK_TRY(tell(portion));
    for (const results::PanEntry& entry : record_.pan_tests) PRILLBOOK_TRY(tell(entry));
    for (const results::FireEntry& entry : record_.charges) PRILLBOOK_TRY(tell(entry));
    for (const sieves::Analysis& analysis : record_.sieve_analyses) PRILLBOOK_TRY(tell(analysis));
    std::sort(events_.begin(), events_.end(), [](const Placed& a, const Placed& b) {
      return std::pair(a.event.when.utc_ms, a.row) < std::pair(b.event.when.utc_ms, b.row);
    });
    std::vector<Event> events;
    for (Placed& placed : events_) events.push_back(std::move(placed.event));
    return events;
  }

 private:
  Result<void> tell(const portions::Portion& portion) {
    PRILLBOOK_TRY(read(Entity::portion, portion.id.value, portion.id));
    made({EventKind::portion_cut,
          portion.cut_at.value_or(written_),
          record_.initials(portion.cut_by),
          Entity::portion,
          portion.id.value,
          portion.id,
          nullptr,
          {},
          {},
          {}});
    return {};
  }

  Result<void> tell(const milling::Step& step) {
    PRILLBOOK_TRY(read(Entity::step, step.id.value, step.portion));
    made({EventKind::stepped,
          step.done_at,
          record_.initials(step.done_by),
          Entity::step,
          step.id.value,
          step.portion,
          nullptr,
          {},
          {},
          {}});
    return {};
  }

  Result<void> tell_custody() {
    const auto tell_one = [&](EventKind kind, Entity entity, RecordId id, const Instant& at, PersonId who) -> Result<void> {
      PRILLBOOK_TRY(read(entity, id, {}));
      made({kind, at, record_.initials(who), entity, id, {}, nullptr, {}, {}, {}});
      return {};
    };
    for (const custody::Link& link : record_.custody.chain.links) {
      if (!link.id) continue;
      PRILLBOOK_TRY(read(Entity::hand_over, link.id.value, {}));
      made({EventKind::handed_over, link.at, link.initials, Entity::hand_over, link.id.value, {}, nullptr, {}, {}, {}});
    }
    for (const custody::OwnMetal& metal : record_.custody.own_metal)
      PRILLBOOK_TRY(tell_one(EventKind::own_metal, Entity::own_metal, metal.id.value, metal.at, metal.written_by));
    for (const custody::ToldFigure& told : record_.custody.told)
      PRILLBOOK_TRY(tell_one(EventKind::told, Entity::told_figure, told.id.value, told.at, told.told_by));
    return {};
  }

  Result<void> tell(const results::PanEntry& entry) {
    PRILLBOOK_TRY(read(Entity::pan_test, entry.test.id.value, entry.test.portion));
    made({EventKind::panned,
          entry.test.panned_at.value_or(written_),
          record_.initials(entry.test.panned_by),
          Entity::pan_test,
          entry.test.id.value,
          entry.test.portion,
          nullptr,
          {},
          {},
          {}});
    for (const gravity::Panning& panning : entry.pannings)
      PRILLBOOK_TRY(read(Entity::panning, panning.id.value, entry.test.portion));
    return tell(entry.bead, entry.test.portion);
  }

  Result<void> tell(const results::FireEntry& entry) {
    PRILLBOOK_TRY(read(Entity::charge, entry.charge.id.value, entry.charge.portion));
    made({EventKind::fired,
          entry.charge.fired_at.value_or(written_),
          record_.initials(entry.charge.fired_by),
          Entity::charge,
          entry.charge.id.value,
          entry.charge.portion,
          nullptr,
          {},
          {},
          {}});
    return tell(entry.bead, entry.charge.portion);
  }

  Result<void> tell(const sieves::Analysis& analysis) {
    PRILLBOOK_TRY(read(Entity::sieve_analysis, analysis.id.value, analysis.portion));
    made({EventKind::sieved,
          analysis.sieved_at.value_or(written_),
          record_.initials(analysis.sieved_by),
          Entity::sieve_analysis,
          analysis.id.value,
          analysis.portion,
          nullptr,
          {},
          {},
          {}});
    for (const sieves::Cut& cut : analysis.cuts) PRILLBOOK_TRY(read(Entity::sieve_cut, cut.id.value, analysis.portion));
    return {};
  }

  Result<void> tell(const weighing::Bead& bead, PortionId portion) {
    PRILLBOOK_TRY(read(Entity::bead, bead.id.value, portion));
    for (const weighing::Weighing& weighing : bead.weighings) {
      PRILLBOOK_TRY(read(Entity::weighing, weighing.id.value, portion));
      made({EventKind::weighed,
            weighing.weighed_at.value_or(written_),
            record_.initials(weighing.weighed_by),
            Entity::weighing,
            weighing.id.value,
            portion,
            nullptr,
            {},
            {},
            {}});
    }
    return {};
  }

  // The history of one record: what it says by itself becomes events, when it was made is kept for the event of that.
  Result<void> read(Entity entity, RecordId record, PortionId portion) {
    first_row_ = 0;
    written_ = {};
    written_by_.clear();
    return connection_.rows(history::sql::rows_of_record, {static_cast<std::int64_t>(entity), record},
                            [&](const store::Row& line) {
                              const HistoryRow row = row_of(line);
                              if (row.field == 0) {
                                first_row_ = row.id;
                                written_ = row.when;
                                written_by_ = row.who;
                              } else if (const history::Field* field = history::find_field(history::spec_of(entity), row.field)) {
                                changed(*field, row, record, portion);
                              }
                              return true;
                            });
  }

  static bool is(const history::Field& field, const history::Field& other) {
    return field.entity == other.entity && field.code == other.code;
  }

  void changed(const history::Field& field, const HistoryRow& row, RecordId record, PortionId portion) {
    if (field.code == history::struck_code || is(field, fields::sieve_cut::fraction)) return;
    const bool given = !is_null(row.new_value);
    EventKind kind = EventKind::corrected;
    if (is(field, fields::bead::none_seen)) {
      if (row.new_value != store::Value{std::int64_t{1}}) return;
      kind = EventKind::none_seen;
    } else if (given && (is(field, fields::pan_test::spoiled) || is(field, fields::charge::spoiled) ||
                         is(field, fields::sieve_analysis::spoiled))) {
      kind = EventKind::spoiled;
    } else if (given && (is(field, fields::pan_test::excluded) || is(field, fields::charge::excluded) ||
                         is(field, fields::weighing::excluded))) {
      kind = EventKind::left_out;
    } else if (is_null(row.old_value)) {
      if (!given || (!is(field, fields::bead::method) && !is(field, fields::bead::fineness))) return;
      kind = EventKind::fineness;
      if (!events_.empty() && events_.back().event.kind == kind && events_.back().event.when == row.when) return;
    }
    events_.push_back(
        {row.id, {kind, row.when, row.who, field.entity, record, portion, &field, row.old_value, row.new_value, row.why}});
  }

  void made(Event event) {
    if (event.who.empty()) event.who = written_by_;
    if (first_row_ != 0 && std::abs(event.when.utc_ms - written_.utc_ms) > hour_ms) event.typed = written_;
    events_.push_back({first_row_, std::move(event)});
  }

  store::Connection& connection_;
  const results::SampleRecord& record_;
  std::vector<Placed> events_;
  std::int64_t first_row_ = 0;
  Instant written_;
  std::string written_by_;
};

}  // namespace

Result<std::vector<Event>> story_of(store::Connection& connection, const results::SampleRecord& record) {
  return Teller(connection, record).tell();
}

}  // namespace prillbook::story
