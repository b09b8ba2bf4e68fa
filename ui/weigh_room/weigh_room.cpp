// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/weigh_room/weigh_room.h"

#include <QtWidgets/QLabel>
#include <QtWidgets/QLineEdit>
#include <algorithm>

#include "core/assay/rounding.h"
#include "core/results/sample_result.h"
#include "core/units/units.h"
#include "core/weighing/plausibility.h"
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

constexpr int longest_list = 500, mark_length = 48;

QString kind_word(bool from_pan) { return from_pan ? WeighRoom::tr("pan") : WeighRoom::tr("fire"); }

QString shortened(const QString& words, int most) { return words.size() <= most ? words : words.left(most - 1) + QChar(0x2026); }

QString portion_words(const weighing::Origin& origin) {
  const QString number = WeighRoom::tr("portion %1").arg(origin.portion_number);
  return origin.portion_mass ? WeighRoom::tr("%1, %2").arg(number, text(as_typed(origin.portion_mass)))
                             : WeighRoom::tr("%1, not weighed").arg(number);
}

}  // namespace

QString WeighRoom::title() const { return tr("Weigh room"); }

int WeighRoom::waiting_count() { return int(weighing::count_waiting_beads(session_.connection).value_or(0)); }

std::vector<weighing::Origin> WeighRoom::waiting_beads() const {
  auto list = what_ == weighing::of_gold ? weighing::beads_without_gold(session_.connection, longest_list)
                                         : weighing::waiting_beads(session_.connection, longest_list);
  return list.ok() ? *std::move(list) : std::vector<weighing::Origin>{};
}

std::vector<WaitingRow> WeighRoom::waiting_rows(int from, int count) const {
  std::vector<WaitingRow> rows;
  const auto beads = waiting_beads();
  for (int i = from; i < std::min(int(beads.size()), from + count); ++i) {
    const weighing::Origin& origin = beads[std::size_t(i)];
    rows.push_back({origin.bead.value, to_qt(origin.sample_number), to_qt(origin.mark),
                    QStringLiteral("%1 · %2").arg(kind_word(origin.from_pan), portion_words(origin)), Urgency::usual});
  }
  return rows;
}

void WeighRoom::enter() {
  refresh_lists();
  if (!bead_) take_next();
  if (bead_)
    mass_->line()->setFocus(Qt::OtherFocusReason);
  else
    waiting_->setFocus(Qt::OtherFocusReason);
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
  mass_->keep_drafts(session_.drafts, QStringLiteral("bead/%1/%2").arg(bead.value).arg(to_qt(what_)));
  read_record();
  show_in_hand();
  refresh_tray();
  waiting_->take(bead.value);
}

// The next of the list after the one in hand; from the beginning where there is none.
void WeighRoom::take_next() {
  const auto beads = waiting_beads();
  auto next = std::find_if(beads.begin(), beads.end(), [&](const auto& origin) { return origin.bead > bead_; });
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
  mass_->line()->setFocus(Qt::OtherFocusReason);
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
  head_->set(to_qt(origin->sample_number), QStringLiteral("%1 · %2 · %3")
                                               .arg(origin->from_pan ? tr("pan bead") : tr("fire bead"), portion_words(*origin),
                                                    shortened(to_qt(origin->mark), mark_length)));
  const weighing::Bead* bead = bead_in_record();
  mass_->set_label(gold ? tr("Gold left after parting") : tr("Bead"));
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
  earlier_->setText(count == 0
                        ? words.join(QString())
                        : tr("Weighed already: %1. The next figure is weighing %2.").arg(words.join(tr(", "))).arg(count + 1));
  earlier_->setVisible(!words.isEmpty());
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
  const auto result =
      typed ? results::grade_if(*record_, bead_, what_, on_balance(*typed)) : results::grade_of_bead(*record_, bead_);
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
  balance_field_->set_hint(words);
  QString near;
  if (typed)
    for (const weighing::Question& question : weighing::doubts(*typed, context()))
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
  return context;
}

std::optional<ReadingField::Doubt> WeighRoom::doubt(const readings::Reading& reading) const {
  const DecimalMark mark = session_.writing.mark;
  for (const weighing::Question& question : weighing::doubts(reading, context())) {
    const QString figure = text(as_typed(reading));
    const auto grade = [&] { return to_qt(rounded(question.figure, decimals_for_uncertainty(question.figure / 50), mark)); };
    switch (question.doubt) {
      case weighing::Doubt::perhaps_milligrams:
        return ReadingField::Doubt{{{QLatin1Char('m'), to_qt(question.instead->typed)}},
                                   tr("%1 would be %2 g/t").arg(figure, grade())};
      case weighing::Doubt::very_rich: return ReadingField::Doubt{{}, tr("%1 would be %2 g/t").arg(figure, grade())};
      case weighing::Doubt::off_step:
        return ReadingField::Doubt{
            {}, tr("%1 is no multiple of this balance’s step, %2").arg(figure, text(as_typed(balance_->step)))};
      case weighing::Doubt::heavier_than_portion: return std::nullopt;  // refused when it is written
      case weighing::Doubt::near_step: break;                           // said while it is typed
    }
  }
  return std::nullopt;
}

// ---- lists

void WeighRoom::refresh_lists() {
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

void WeighRoom::refresh_tray() {
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
