// SPDX-License-Identifier: GPL-3.0-or-later
// What the weigh room writes.
#include <QtCore/QScopedValueRollback>
#include <QtWidgets/QLabel>
#include <QtWidgets/QLineEdit>
#include <algorithm>

#include "ui/balance_port/balance_port.h"
#include "ui/kit/form.h"
#include "ui/kit/reason_line.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"
#include "ui/kit/waiting_list.h"
#include "ui/weigh_room/fineness_form.h"
#include "ui/weigh_room/mass_field.h"
#include "ui/weigh_room/view_state.h"
#include "ui/weigh_room/weigh_room.h"

namespace prillbook::ui {
namespace {

constexpr std::size_t trail_length = 40;

}  // namespace

PersonId WeighRoom::person_working() const {
  const auto person = lab::person_by_initials(session_.connection, session_.journal.author());
  return person.ok() ? person->id : PersonId{};
}

void WeighRoom::remember(BeadId bead) {
  std::erase(trail_, bead);
  trail_.push_back(bead);
  if (trail_.size() > trail_length) trail_.erase(trail_.begin());
}

Result<void> WeighRoom::take_reading(const readings::Reading& reading) {
  const QScopedValueRollback<bool> writing(writing_, true);
  // "none" typed is what the key n says.
  if (reading.state == readings::State::none_seen && what_ == weighing::of_bead)
    return weighing::set_none_seen(session_.journal, bead_, true);
  if (cup_ == Cup::asked) return take_cup(reading);
  weighing::NewWeighing fresh{bead_, what_, reading, balance_ ? balance_->id : BalanceId{}, {}, person_working()};
  if (cup_ == Cup::known) {
    fresh.gross = reading;
    fresh.tare = tare_;
  }
  if (on_bench_ && rank(bead_)) {
    fresh.tray = on_bench_->id;
    fresh.position = rank(bead_);
  }
  // Whoever changed what the balance had sent has typed it.
  if (!sent_line_.empty() && mass_->typed() == sent_text_) fresh.raw = sent_line_;
  const auto written =
      what_ == weighing::of_gold ? weighing::weigh_parted(session_.journal, fresh) : weighing::weigh(session_.journal, fresh);
  if (!written.ok()) return written.error();
  return {};
}

void WeighRoom::reading_taken() {
  sent_line_.clear();
  if (cup_taken_) {
    cup_taken_ = false;
    mass_->leave_record();
    return show_in_hand();
  }
  remember(bead_);
  mass_->leave_record();
  if (again_) {
    again_ = false;
    read_record();
    show_in_hand();
    refresh_tray();
  } else {
    take_next();
  }
}

void WeighRoom::weigh_again() {
  if (mass_->typed().isEmpty()) return take_before();
  again_ = true;
  if (!mass_->commit() && mass_->refused()) again_ = false;
  mass_->line()->setFocus(Qt::OtherFocusReason);
}

void WeighRoom::none_seen() {
  Result<void> written;
  {
    const QScopedValueRollback<bool> writing(writing_, true);
    written = weighing::set_none_seen(session_.journal, bead_, true);
  }
  if (!written.ok()) return mass_->show_error(written.error());
  remember(bead_);
  take_next();
}

void WeighRoom::ask_why_spoiled() {
  if (!bead_) return;
  reason_->ask(tr("Why is this bead lost?"), [this](const QString& reason) { return spoil(reason); });
}

Result<void> WeighRoom::spoil(const QString& reason) {
  const weighing::Bead* bead = bead_in_record();
  if (!bead) return Error{ErrorCode::not_found, "bead", "no bead in hand", {}};
  const QScopedValueRollback<bool> writing(writing_, true);
  const auto written = bead->pan_test ? gravity::set_spoiled(session_.journal, bead->pan_test, to_core(reason))
                                      : fire::set_spoiled(session_.journal, bead->charge, to_core(reason));
  if (written.ok()) remember(bead_);
  return written;
}

void WeighRoom::change_what(const std::string& what) {
  if (what == what_) return;
  mass_->leave_record();
  what_ = what;
  trail_.clear();
  bead_ = {};
  waiting_->set_empty_words(what_ == weighing::of_gold ? tr("No bead waits for its gold: all that were weighed have a fineness.")
                                                       : tr("No bead waits. A pan test or a charge that is begun puts its bead "
                                                            "here."));
  refresh_lists();
  take_next();
}

void WeighRoom::change_balance(BalanceId id) {
  const auto chosen = lab::balance(session_.connection, id);
  balance_.reset();
  if (chosen.ok()) balance_ = *chosen;
  fineness_->use_balance(balance_ ? balance_->id : BalanceId());
  view_state::keep_balance(balance_ ? to_qt(balance_->name) : QString());
  if (cup_ != Cup::none) ask_for_cup();  // it was weighed elsewhere
  show_grade(nullptr);
}

void WeighRoom::change_unit(const std::string& unit) {
  view_state::keep_unit(unit);
  mass_->expect({Measure::mass, unit, session_.writing.mark});
}

void WeighRoom::focus_field() {
  if (bead_)
    mass_->line()->setFocus(Qt::OtherFocusReason);
  else
    waiting_->setFocus(Qt::OtherFocusReason);
}

void WeighRoom::change_tray(TrayId id) {
  const auto chosen = trays::tray(session_.connection, id);
  on_bench_.reset();
  if (id && chosen.ok()) on_bench_ = *chosen;
  mass_->leave_record();
  trail_.clear();
  bead_ = {};
  refresh_lists();
  take_next();
  QMetaObject::invokeMethod(this, &WeighRoom::focus_field, Qt::QueuedConnection);  // after Enter has run its course
}

// Position, figure and grade, and nothing that a metre away is too small to read.
void WeighRoom::set_large(bool large) {
  constexpr int grade_px = 56, large_head_px = 44;
  large_ = large;
  view_state::keep_large(large);
  waiting_->setVisible(!large);
  if (large || tray_field_->property("trays").toBool()) tray_field_->setVisible(!large);
  for (QWidget* part : {static_cast<QWidget*>(controls_), below_, static_cast<QWidget*>(tray_)}) part->setVisible(!large);
  mass_->set_large(large);
  QFont grade_face = face(TextSize::large, Weight::bold);
  if (large) grade_face.setPixelSize(grade_px);
  grade_->setFont(grade_face);
  head_->set_large(large ? large_head_px : 0);
  if (isVisible()) focus_field();
}

}  // namespace prillbook::ui
