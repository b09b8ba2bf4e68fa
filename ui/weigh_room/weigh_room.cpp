// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/weigh_room/weigh_room.h"

#include <QtWidgets/QLabel>
#include <QtWidgets/QLineEdit>
#include <algorithm>

#include "core/assay/rounding.h"
#include "core/results/sample_result.h"
#include "core/units/units.h"
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
