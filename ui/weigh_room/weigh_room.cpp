// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/weigh_room/weigh_room.h"

#include <QtWidgets/QLabel>
#include <QtWidgets/QLineEdit>
#include <algorithm>

#include "core/assay/rounding.h"
#include "core/results/balance_scatter.h"
#include "core/results/sample_result.h"
#include "core/units/units.h"
#include "core/weighing/plausibility.h"
#include "core/weighing/spread.h"
#include "ui/balance_port/balance_port.h"
#include "ui/kit/figures.h"
#include "ui/kit/form.h"
#include "ui/kit/reason_line.h"
#include "ui/kit/sentences.h"
#include "ui/kit/waiting_list.h"
#include "ui/weigh_room/fineness_form.h"
#include "ui/weigh_room/mass_field.h"
#include "ui/weigh_room/recent_readings.h"
#include "ui/weigh_room/tray_row.h"
#include "ui/weigh_room/view_state.h"

namespace prillbook::ui {
namespace {

constexpr int longest_list = 500, mark_length = 48, mark_length_beside_tray = 20;

QString kind_word(bool from_pan) { return from_pan ? WeighRoom::tr("pan") : WeighRoom::tr("fire"); }

QString shortened(const QString& words, int most) { return words.size() <= most ? words : words.left(most - 1) + QChar(0x2026); }

QString portion_words(const weighing::Origin& origin) {
  const QString number = WeighRoom::tr("portion %1").arg(origin.portion_number);
  return origin.portion_mass ? WeighRoom::tr("%1, %2").arg(number, text(as_typed(origin.portion_mass)))
                             : WeighRoom::tr("%1, not weighed").arg(number);
}

}  // namespace

StationPlace WeighRoom::place(Session& session) {
  return {tr("Weigh room"),
          Icon::weigh_room,
          [&session] { return int(weighing::count_waiting_beads(session.connection).value_or(0)); },
          {history::Entity::bead, history::Entity::pan_test, history::Entity::charge},
          [&session] { return new WeighRoom(session); }};
}

std::vector<weighing::Origin> WeighRoom::waiting_beads() const {
  auto list = what_ == weighing::of_gold ? weighing::beads_without_gold(session_.connection, longest_list)
                                         : weighing::waiting_beads(session_.connection, longest_list);
  if (!list.ok()) return {};
  if (!on_bench_) return *std::move(list);
  std::erase_if(*list, [this](const weighing::Origin& origin) { return rank(origin.bead) == 0; });
  std::sort(list->begin(), list->end(), [this](const auto& a, const auto& b) { return rank(a.bead) < rank(b.bead); });
  return *std::move(list);
}

// On a tray its position, 0 for a bead that is not on it; else in the order in which the tests were begun.
std::int64_t WeighRoom::rank(BeadId bead) const {
  if (!on_bench_) return bead.value;
  for (const trays::Place& place : on_bench_->places)
    if (place.bead && place.bead == bead) return place.position;
  return 0;
}

std::vector<WaitingRow> WeighRoom::waiting_rows(int from, int count) const {
  std::vector<WaitingRow> rows;
  const auto beads = waiting_beads();
  for (int i = from; i < std::min(int(beads.size()), from + count); ++i) {
    const weighing::Origin& origin = beads[std::size_t(i)];
    const QString number = to_qt(origin.sample_number);
    rows.push_back({origin.bead.value, on_bench_ ? tr("%1  position %2").arg(number).arg(rank(origin.bead)) : number,
                    to_qt(origin.mark), QStringLiteral("%1 · %2").arg(kind_word(origin.from_pan), portion_words(origin)),
                    Urgency::usual});
  }
  return rows;
}

void WeighRoom::enter() {
  if (port_->settings() != kept_port_settings()) port_->use(kept_port_settings());
  refresh_lists();
  if (!bead_) take_next();
  focus_field();
}

bool WeighRoom::show_record(const RecordRef& wanted) {
  store::Connection& connection = session_.connection;
  BeadId bead;
  switch (wanted.entity) {
    case history::Entity::bead: bead = BeadId{wanted.record}; break;
    case history::Entity::pan_test: bead = weighing::bead_of(connection, PanTestId{wanted.record}).value_or({}).id; break;
    case history::Entity::charge: bead = weighing::bead_of(connection, ChargeId{wanted.record}).value_or({}).id; break;
    default: return false;
  }
  if (!bead || !weighing::origin(connection, bead).ok()) return false;
  take(bead);
  return true;
}

void WeighRoom::notebook_changed(const history::Written&) {
  refresh_lists();
  if (writing_) return;  // the end of the gesture shows it
  if (!bead_) return take_next();
  read_record();
  show_in_hand();
}

// ---- what is in hand

void WeighRoom::take(BeadId bead) {
  if (bead == bead_ || !weighing::origin(session_.connection, bead).ok()) return;
  mass_->leave_record();
  reason_->close();
  fineness_->leave();
  bead_ = bead;
  again_ = false;
  sent_line_.clear();
  mass_->keep_drafts(session_.drafts, QStringLiteral("bead/%1/%2").arg(bead.value).arg(to_qt(what_)));
  read_record();
  show_in_hand();
  refresh_tray();
  waiting_->take(bead.value);
}

// The next of the list after the one in hand; from the beginning where there is none.
void WeighRoom::take_next() {
  const auto beads = waiting_beads();
  auto next = std::find_if(beads.begin(), beads.end(), [&](const auto& origin) { return rank(origin.bead) > rank(bead_); });
  if (next == beads.end() && !beads.empty() && beads.front().bead != bead_) next = beads.begin();
  if (next != beads.end()) return take(next->bead);
  if (!beads.empty()) return show_in_hand();  // the only one left is in hand
  mass_->leave_record();
  fineness_->leave();
  bead_ = {};
  record_.reset();
  show_in_hand();
  refresh_tray();
}

void WeighRoom::take_before() {
  if (trail_.empty()) return;
  const auto at = std::find(trail_.rbegin(), trail_.rend(), bead_);
  const auto before = at == trail_.rend() ? trail_.rbegin() : std::next(at);
  if (before != trail_.rend()) take(*before);
  focus_field();
}

void WeighRoom::read_record() {
  record_.reset();
  const auto origin = weighing::origin(session_.connection, bead_);
  if (!origin.ok()) return;
  auto record = results::load_sample_record(session_.connection, origin->sample);
  if (record.ok()) record_ = *std::move(record);
}

const weighing::Bead* WeighRoom::bead_in_record() const {
  if (!record_) return nullptr;
  for (const auto& entry : record_->pan_tests)
    if (entry.bead.id == bead_) return &entry.bead;
  for (const auto& entry : record_->charges)
    if (entry.bead.id == bead_) return &entry.bead;
  return nullptr;
}

void WeighRoom::show_in_hand() {
  const auto origin = weighing::origin(session_.connection, bead_);
  const bool there = bead_ && origin.ok();
  desk_->setVisible(there);
  fineness_->setVisible(there);
  no_bead_->setVisible(!there);
  const bool gold = what_ == weighing::of_gold;
  if (!there) {
    head_->set(tr("Balance"), gold ? tr("no bead waits for its gold") : tr("no bead waits"));
    no_bead_->setText(!trail_.empty() ? tr("The tray is done.")
                      : gold          ? tr("A bead that is weighed and not yet parted stands here.")
                                      : tr("Begin a pan test or a charge: its bead will stand here."));
    return;
  }
  const std::int64_t position = on_bench_ ? rank(bead_) : 0;
  const QString number = to_qt(origin->sample_number);
  head_->set(position ? tr("%1   %2").arg(position).arg(number) : number,
             QStringLiteral("%1 · %2 · %3")
                 .arg(origin->from_pan ? tr("pan bead") : tr("fire bead"), portion_words(*origin),
                      shortened(to_qt(origin->mark), on_bench_ && !large_ ? mark_length_beside_tray : mark_length)));
  const weighing::Bead* bead = bead_in_record();
  show_cup();
  fineness_->use_balance(balance_ ? balance_->id : BalanceId());
  if (bead) fineness_->show_bead(*bead);
  show_earlier(bead);
  show_grade(nullptr);
}

void WeighRoom::show_earlier(const weighing::Bead* bead) {
  QStringList words;
  if (bead && bead->none_seen) words << tr("None seen so far.");
  if (bead)
    for (const weighing::Weighing* weighing : bead->valid(what_)) words << text(as_typed(weighing->mass));
  const int count = bead ? int(bead->valid(what_).size()) : 0;
  const QString spread = bead ? spread_words(*bead) : QString();
  earlier_->setText(
      count == 0 ? words.join(QString())
                 : tr("Weighed already: %1. The next figure is weighing %2.").arg(words.join(tr(", "))).arg(count + 1) + spread);
  earlier_->setVisible(!words.isEmpty());
}

// Mean and spread from two on, what the balance itself scatters, and the one that stands out.
QString WeighRoom::spread_words(const weighing::Bead& bead) const {
  const weighing::Spread spread = weighing::spread_of(bead, what_);
  if (spread.n < 2 || !spread.sd) return {};
  const DecimalMark mark = session_.writing.mark;
  const auto milligrams = [&](Mass mass, Mass doubt) {
    return to_qt(rounded(mass.in(unit::milligram), decimals_for_uncertainty(doubt.in(unit::milligram)), mark));
  };
  const Mass least = balance_ && balance_->step ? balance_->step->mass() : Mass(0.001, unit::milligram);
  const Mass doubt = std::max(*spread.sd, least);
  QString words = tr(" Mean %1 mg, spread %2 mg.").arg(milligrams(spread.mean, doubt), milligrams(*spread.sd, doubt));
  const auto pooled = record_ && balance_ ? weighing::pooled_of_checks(record_->checks, balance_->id) : std::nullopt;
  if (pooled) words += tr(" The balance by its check weights: %1 mg.").arg(milligrams(pooled->sd, pooled->sd));
  if (spread.outlier)
    words += tr(" %1 stands out (Grubbs %2, limit %3): weigh again. It still counts until it is left out with a reason.")
                 .arg(text(as_typed(spread.outlier->mass)), to_qt(rounded(*spread.grubbs, 2, mark)),
                      to_qt(rounded(*spread.critical, 2, mark)));
  return words;
}

// ---- what the figure would give

readings::Reading WeighRoom::on_balance(readings::Reading reading) const {
  if (!balance_) return reading;
  reading.balance = balance_->id;
  if (balance_->step) reading.step_g = balance_->step->mass().in(unit::gram);
  return reading;
}

void WeighRoom::show_grade(const readings::Reading* typed) {
  grade_->clear();
  grade_words_->clear();
  show_step(typed);
  if (!record_ || !bead_ || (typed && typed->state == readings::State::none_seen)) return;
  if (typed && cup_ == Cup::asked) return;
  const auto net = typed ? as_net(*typed) : Result<readings::Reading>(readings::Reading());
  if (!net.ok()) return;
  const auto result =
      typed ? results::grade_if(*record_, bead_, what_, on_balance(*net)) : results::grade_of_bead(*record_, bead_);
  if (!result.ok() || !*result) return;
  const GradeResult& grade = **result;
  const MeasuredGrade& shown = grade.gold ? *grade.gold : grade.bead;
  std::optional<double> half_width;
  if (shown.lo && shown.hi) half_width = (shown.hi->in(unit::gram_per_tonne)-shown.lo->in(unit::gram_per_tonne)) / 2;
  grade_->setText(tr("%1 g/t").arg(to_qt(written(shown.g_t(), half_width, {}, session_.writing.mark))));
  grade_words_->setText(typed ? (grade.gold ? tr("gold, as typed") : tr("gold and silver together, as typed"))
                              : (grade.gold ? tr("gold") : tr("gold and silver together")));
}

// The step of the balance, and how much of the figure half of it is where the figure is small.
void WeighRoom::show_step(const readings::Reading* typed) {
  QString words = balance_ && balance_->step ? tr("step %1").arg(text(as_typed(balance_->step)))
                  : balance_                 ? tr("step not known: no uncertainty can be given")
                                             : tr("without it no uncertainty can be given");
  // The wire says where it is in the same line: what was weighed last keeps its room.
  if (!port_->settings().port.isEmpty()) words += QStringLiteral(" · ") + port_->state_words();
  balance_field_->set_hint(words);
  QString near;
  if (typed && cup_ != Cup::asked)
    for (const weighing::Question& question : weighing::doubts(as_net(*typed).value_or(*typed), context()))
      if (question.doubt == weighing::Doubt::near_step)
        near = tr("near the step of the balance: half a step is %1 % of this")
                   .arg(to_qt(rounded(question.figure, decimals_for_uncertainty(question.figure), session_.writing.mark)));
  mass_->set_hint(near);
}

weighing::Weighed WeighRoom::context() const {
  weighing::Weighed context;
  const auto origin = weighing::origin(session_.connection, bead_);
  if (origin.ok() && origin->portion_mass) context.portion = origin->portion_mass->mass();
  if (balance_ && balance_->step) context.step = balance_->step->mass();
  const double suspicious = record_ ? record_->settings.suspicious_grade_g_t : lab::Settings().suspicious_grade_g_t;
  context.suspicious = Grade(suspicious, unit::gram_per_tonne);
  take_earlier(context);
  return context;
}

// What was weighed of the same thing on this balance, and how it scatters.
void WeighRoom::take_earlier(weighing::Weighed& context) const {
  const weighing::Bead* bead = bead_in_record();
  if (!bead) return;
  const BalanceId balance = balance_ ? balance_->id : BalanceId();
  for (const weighing::Weighing* one : bead->valid(what_)) {
    if (one->balance != balance || one->mass.state != readings::State::measured) continue;
    context.earlier.push_back(one->mass);
    context.tared = context.tared || one->is_difference();
  }
  if (!context.earlier.empty()) context.repeat_sd = results::repeat_sd(*record_, balance);
}

std::optional<ReadingField::Doubt> WeighRoom::doubt(const readings::Reading& typed) const {
  const DecimalMark mark = session_.writing.mark;
  const auto net = as_net(typed);
  if (cup_ == Cup::asked || !net.ok()) return std::nullopt;  // no bead; or refused when it is written
  const readings::Reading& reading = *net;
  for (const weighing::Question& question : weighing::doubts(reading, context())) {
    const QString figure = text(as_typed(reading));
    const auto grade = [&] { return to_qt(rounded(question.figure, decimals_for_uncertainty(question.figure / 50), mark)); };
    switch (question.doubt) {
      case weighing::Doubt::perhaps_milligrams:
        if (cup_ != Cup::none) return std::nullopt;  // two figures in one unit: the slip is in neither alone
        return ReadingField::Doubt{{{QLatin1Char('m'), to_qt(question.instead->typed)}},
                                   tr("%1 would be %2 g/t").arg(figure, grade())};
      case weighing::Doubt::very_rich: return ReadingField::Doubt{{}, tr("%1 would be %2 g/t").arg(figure, grade())};
      case weighing::Doubt::apart_from_earlier: {
        const QString off = to_qt(rounded(question.figure, decimals_for_uncertainty(question.figure), mark));
        const QString words = tr("%1 is %2 mg off what was weighed before").arg(figure, off);
        if (!question.instead || cup_ != Cup::none) return ReadingField::Doubt{{}, words};
        return ReadingField::Doubt{{{QLatin1Char('d'), to_qt(question.instead->typed)}}, words};
      }
      case weighing::Doubt::off_step:
        return ReadingField::Doubt{
            {}, tr("%1 is no multiple of this balance’s step, %2").arg(figure, text(as_typed(balance_->step)))};
      case weighing::Doubt::heavier_than_portion: return std::nullopt;  // refused when it is written
      case weighing::Doubt::near_step:
        return ReadingField::Doubt{{},
                                   tr("%1 is near the step of the balance, %2: half a step is %3 % of it")
                                       .arg(figure, text(as_typed(balance_->step)),
                                            to_qt(rounded(question.figure, decimals_for_uncertainty(question.figure), mark)))};
    }
  }
  const QString swap = swap_words(reading);
  if (swap.isEmpty()) return std::nullopt;
  return ReadingField::Doubt{{}, swap};
}

// A figure that is out of keeping with this sample and would suit another bead that waits nearby.
QString WeighRoom::swap_words(const readings::Reading& reading) const {
  constexpr std::size_t nearby = 24;
  if (!record_ || !(reading.value > 0)) return {};
  const auto origin = weighing::origin(session_.connection, bead_);
  if (!origin.ok() || !origin->portion_mass || !(origin->portion_mass->value > 0)) return {};
  const auto usual = weighing::usual_grade_g_t(record_->settings, origin->expected);
  if (!usual) return {};
  const auto grade_in = [&](const weighing::Origin& from) {
    return grade(reading.mass(), from.portion_mass->mass()).in(unit::gram_per_tonne);
  };
  const auto beads = waiting_beads();
  for (std::size_t i = 0; i < std::min(nearby, beads.size()); ++i) {
    const weighing::Origin& other = beads[i];
    const auto usual_there = weighing::usual_grade_g_t(record_->settings, other.expected);
    if (other.bead == bead_ || !usual_there || !other.portion_mass || !(other.portion_mass->value > 0)) continue;
    const double here = grade_in(*origin), there = grade_in(other);
    if (!weighing::perhaps_swapped(here, *usual, there, *usual_there)) continue;
    const QString bead =
        tr("%1/%2 %3").arg(to_qt(other.sample_number)).arg(other.portion_number).arg(other.from_pan ? tr("pan") : tr("fire"));
    return tr("%1 would be %2 g/t in a sample expected to be %3; it would suit %4 (%5), as if two beads had changed places")
        .arg(text(as_typed(reading)), to_qt(rounded(here, decimals_for_uncertainty(here / 50), session_.writing.mark)),
             to_qt(*origin->expected), bead, to_qt(*other.expected));
  }
  return {};
}

// ---- lists

void WeighRoom::refresh_lists() {
  refresh_trays();
  waiting_->refresh();
  recent_->refresh();
  refresh_balances();
  refresh_tray();
}

void WeighRoom::refresh_balances() {
  const auto balances = lab::balances(session_.connection);
  if (!balances.ok()) return;
  std::vector<PickField::Item> items;
  const QString kept = view_state::balance();
  std::optional<lab::Balance> chosen;
  for (const lab::Balance& one : *balances) {
    items.push_back({one.id.value, to_qt(one.name)});
    if (balance_ ? one.id == balance_->id : to_qt(one.name) == kept) chosen = one;
  }
  if (!chosen && balances->size() == 1) chosen = balances->front();
  balance_ = chosen;
  balance_field_->set_items(std::move(items));
  balance_field_->set_value(balance_ ? std::optional(balance_->id.value) : std::nullopt);
}

void WeighRoom::refresh_trays() {
  const auto in_use = trays::trays_in_use(session_.connection);
  if (!in_use.ok()) return;
  std::vector<PickField::Item> items;
  std::optional<trays::Tray> held;
  for (const trays::Tray& tray : *in_use) {
    items.push_back({tray.id.value, to_qt(tray.name)});
    if (on_bench_ && tray.id == on_bench_->id) held = tray;
  }
  on_bench_ = held;
  tray_field_->setProperty("trays", !items.empty());
  tray_field_->setVisible(!items.empty() && !large_);
  tray_field_->set_items(std::move(items));
  tray_field_->set_value(on_bench_ ? std::optional(on_bench_->id.value) : std::nullopt);
}

// Every position that holds something, controls as well: an empty or lost one never shifts the rest.
void WeighRoom::show_tray() {
  std::vector<TrayPlace> places;
  for (const trays::Place& place : on_bench_->places) {
    TrayPlace shown{place.bead, to_qt(place.thing.control), {}, TrayPlace::State::waiting};
    if (const auto known = place.bead ? handled(place.bead) : std::nullopt) shown = *known;
    shown.position = int(place.position);
    places.push_back(std::move(shown));
  }
  tray_->set_places(std::move(places), bead_);
}

void WeighRoom::refresh_tray() {
  if (on_bench_) return show_tray();
  std::vector<BeadId> beads = trail_;
  std::vector<TrayPlace> places;
  const auto waiting = waiting_beads();
  for (const auto& origin : waiting) beads.push_back(origin.bead);
  if (bead_) beads.push_back(bead_);
  std::sort(beads.begin(), beads.end());
  beads.erase(std::unique(beads.begin(), beads.end()), beads.end());
  for (const BeadId id : beads) {
    const auto found = std::find_if(waiting.begin(), waiting.end(), [id](const auto& one) { return one.bead == id; });
    if (found != waiting.end())
      places.push_back({id, to_qt(found->sample_number), kind_word(found->from_pan), TrayPlace::State::waiting});
    else if (const auto place = handled(id))
      places.push_back(*place);
  }
  tray_->set_places(std::move(places), bead_);
}

std::optional<TrayPlace> WeighRoom::handled(BeadId id) const {
  const auto origin = weighing::origin(session_.connection, id);
  const auto bead = weighing::bead(session_.connection, id);
  if (!origin.ok() || !bead.ok()) return std::nullopt;
  const bool lost = bead->pan_test ? bool(gravity::pan_test(session_.connection, bead->pan_test).value_or({}).spoiled)
                                   : bool(fire::charge(session_.connection, bead->charge).value_or({}).spoiled);
  const auto state = lost                         ? TrayPlace::State::spoiled
                     : bead->none_seen            ? TrayPlace::State::none_seen
                     : bead->valid(what_).empty() ? TrayPlace::State::waiting
                                                  : TrayPlace::State::weighed;
  return TrayPlace{id, to_qt(origin->sample_number), kind_word(origin->from_pan), state};
}

}  // namespace prillbook::ui
