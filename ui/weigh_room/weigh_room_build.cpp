// SPDX-License-Identifier: GPL-3.0-or-later
// How the weigh room is put together.
#include <QtWidgets/QHBoxLayout>
#include <QtWidgets/QLabel>
#include <QtWidgets/QLineEdit>
#include <QtWidgets/QVBoxLayout>

#include "ui/balance_port/balance_port.h"
#include "ui/kit/bench.h"
#include "ui/kit/form.h"
#include "ui/kit/messages.h"
#include "ui/kit/reason_line.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"
#include "ui/kit/waiting_list.h"
#include "ui/weigh_room/fineness_form.h"
#include "ui/weigh_room/key_hint.h"
#include "ui/weigh_room/mass_field.h"
#include "ui/weigh_room/recent_readings.h"
#include "ui/weigh_room/tray_row.h"
#include "ui/weigh_room/view_state.h"
#include "ui/weigh_room/weigh_room.h"

namespace prillbook::ui {
namespace {

QLabel* quiet_label(TextSize size) {
  auto* label = new QLabel;
  label->setFont(face(size));
  label->setProperty("tone", "quiet");
  label->setTextFormat(Qt::PlainText);
  label->setWordWrap(true);
  return label;
}

QWidget* caution_line(WeighRoom* room) {
  auto* holder = new QWidget;
  auto* row = new QHBoxLayout(holder);
  row->setContentsMargins(3 * rhythm, rhythm / 2, 3 * rhythm, rhythm / 2);
  auto* caution = new CautionLine(WeighRoom::tr("Acid left on parted gold burns skin and balance: wash and dry it first. Spent "
                                                "cupels hold lead: they are no household waste."),
                                  QStringLiteral("safety/weigh-room"));
  row->addWidget(caution);
  QObject::connect(caution, &CautionLine::more_wanted, room, &Station::guide_requested);
  return holder;
}

}  // namespace

WeighRoom::WeighRoom(Session& session, QWidget* parent)
    : Station(parent),
      session_(session),
      waiting_(new WaitingList(tr("Beads that wait for the balance"))),
      head_(new Headline),
      tray_(new TrayRow),
      controls_(new QWidget),
      tray_field_(new PickField(tr("Tray"))),
      what_field_(new ChoiceField(tr("On the balance"), {{std::string(weighing::of_bead), tr("bead")},
                                                         {std::string(weighing::of_gold), tr("gold after parting")}})),
      balance_field_(new PickField(tr("Balance"))),
      unit_field_(new ChoiceField(tr("A bare number is"), {{"mg", tr("mg")}, {"g", tr("g")}})),
      mass_(new MassField(QString(), {Measure::mass, view_state::unit(), session.writing.mark})),
      grade_(new QLabel),
      grade_words_(quiet_label(TextSize::small)),
      earlier_(quiet_label(TextSize::small)),
      reason_(new ReasonLine),
      fineness_(new FinenessForm(session)),
      recent_(new RecentReadings(session)),
      desk_(new QWidget),
      no_bead_(new QLabel),
      below_(new QWidget),
      port_(new BalancePort(this)),
      live_words_(quiet_label(TextSize::body)),
      cup_words_(quiet_label(TextSize::small)),
      what_(weighing::of_bead) {
  build_controls();
  build_in_hand();
  connect_parts();
  live_words_->hide();
  cup_words_->hide();
  port_->use(kept_port_settings());
  refresh_lists();
  take_next();
  set_large(view_state::large());
}

void WeighRoom::build_controls() {
  what_field_->set_required(true);
  what_field_->set_value(what_);
  what_field_->on_commit([this](const std::optional<std::string>& what) -> Result<void> {
    if (what) change_what(*what);
    return {};
  });
  unit_field_->set_required(true);
  unit_field_->set_value(view_state::unit());
  unit_field_->on_commit([this](const std::optional<std::string>& unit) -> Result<void> {
    if (unit) change_unit(*unit);
    return {};
  });
  tray_field_->on_commit([this](std::optional<std::int64_t> id) -> Result<void> {
    change_tray(TrayId{id.value_or(0)});
    return {};
  });
  balance_field_->on_commit([this](std::optional<std::int64_t> id) -> Result<void> {
    change_balance(BalanceId{id.value_or(0)});
    return {};
  });
  mass_->set_huge(true);
  mass_->line()->setMinimumHeight(mass_->line()->fontMetrics().height() - rhythm);  // room for a g
  mass_->set_read_only(session_.read_only());
  mass_->on_commit([this](const readings::Figure& figure) { return figure ? take_reading(*figure) : Result<void>{}; });
  mass_->on_doubt([this](const readings::Reading& reading) { return doubt(reading); });
  mass_->on_typing([this](const readings::Reading* typed) { show_grade(typed); });
}

QWidget* WeighRoom::keys_line() {
  auto* line = new QWidget;
  auto* row = new QHBoxLayout(line);
  row->setContentsMargins(0, 0, 0, 0);
  row->setSpacing(2 * rhythm);
  const auto add = [&](const QString& key, const QString& words, auto action) {
    auto* hint = new KeyHint(key, words);
    hint->setEnabled(!session_.read_only());
    connect(hint, &KeyHint::clicked, this, action);
    row->addWidget(hint);
  };
  add(QStringLiteral("+"), tr("weigh again"), [this] { emit mass_->again_wanted(); });
  add(QStringLiteral("n"), tr("none seen"), [this] {
    mass_->line()->setFocus();
    mass_->ask_none_seen();
  });
  add(QStringLiteral("s"), tr("lost"), [this] { emit mass_->spoiled_wanted(); });
  add(QStringLiteral("t"), tr("cup"), [this] { ask_for_cup(); });
  add(QStringLiteral("l"), tr("large"), [this] { emit mass_->large_wanted(); });
  add(QStringLiteral("⌫"), tr("bead before"), [this] { take_before(); });
  add(QStringLiteral("↑"), tr("correct"), [this] { recent_->correct(0); });
  row->addStretch();
  return line;
}

void WeighRoom::build_in_hand() {
  grade_->setFont(face(TextSize::large, Weight::bold));
  grade_->setAlignment(Qt::AlignRight | Qt::AlignBottom);
  grade_->setTextFormat(Qt::PlainText);
  grade_words_->setAlignment(Qt::AlignRight | Qt::AlignTop);
  auto* grade_column = new QVBoxLayout;
  grade_column->setSpacing(0);
  grade_column->addStretch();
  grade_column->addWidget(grade_);
  grade_column->addWidget(grade_words_);
  grade_column->addSpacing(4 * rhythm);
  auto* figure_row = new QHBoxLayout;
  figure_row->setSpacing(2 * rhythm);
  figure_row->addWidget(mass_, 3);
  figure_row->addLayout(grade_column, 2);

  auto* controls = new QHBoxLayout(controls_);
  controls->setContentsMargins(0, 0, 0, 0);
  controls->setSpacing(4 * rhythm);
  controls->addWidget(what_field_, 2);
  controls->addWidget(balance_field_, 3);
  controls->addWidget(unit_field_, 1);

  auto* desk = new QVBoxLayout(desk_);
  desk->setContentsMargins(0, 0, 0, 0);
  desk->setSpacing(rhythm / 2);
  desk->addLayout(figure_row);
  desk->addWidget(live_words_);
  desk->addWidget(cup_words_);
  desk->addWidget(earlier_);
  desk->addWidget(keys_line());
  desk->addWidget(reason_);

  no_bead_->setFont(face(TextSize::large));
  no_bead_->setWordWrap(true);

  auto* hand = new QWidget;
  auto* column = new QVBoxLayout(hand);
  column->setSpacing(rhythm / 2);
  constexpr int tray_digits = 22;
  tray_field_->set_in_row(true);
  tray_field_->line()->setPlaceholderText(tr("tray"));
  tray_field_->set_width_in_digits(tray_digits);
  auto* top = new QHBoxLayout;
  top->setSpacing(3 * rhythm);
  top->addWidget(head_, 1);
  top->addWidget(tray_field_);
  column->addLayout(top);
  column->addWidget(tray_);
  column->addWidget(hairline());
  column->addWidget(controls_);
  column->addWidget(desk_);
  column->addWidget(no_bead_);
  auto* below = new QVBoxLayout(below_);
  below->setContentsMargins(0, 0, 0, 0);
  below->setSpacing(rhythm / 2);
  below->addWidget(hairline());
  below->addWidget(recent_);
  below->addWidget(fineness_);
  column->addWidget(below_);
  column->addStretch(1);
  auto* whole = new QVBoxLayout(this);
  whole->setContentsMargins(0, 0, 0, 0);
  whole->setSpacing(0);
  whole->addWidget(new Bench(waiting_, hand), 1);
  whole->addWidget(hairline());
  whole->addWidget(caution_line(this));
}

void WeighRoom::connect_parts() {
  waiting_->set_empty_words(tr("No bead waits. A pan test or a charge that is begun puts its bead here."));
  waiting_->read_from([this](int from, int count) { return waiting_rows(from, count); });
  const auto to_field = [this] { focus_field(); };
  connect(waiting_, &WaitingList::taken, this, [this](RecordId id) { take(BeadId{id}); });
  connect(waiting_, &WaitingList::opened, this, to_field);
  connect(tray_, &TrayRow::taken, this, [this, to_field](BeadId bead) {
    take(bead);
    to_field();
  });
  connect(mass_, &Field::committed, this, &WeighRoom::reading_taken);
  connect(mass_, &MassField::again_wanted, this, &WeighRoom::weigh_again);
  connect(mass_, &MassField::none_seen, this, &WeighRoom::none_seen);
  connect(mass_, &MassField::spoiled_wanted, this, &WeighRoom::ask_why_spoiled);
  connect(mass_, &MassField::large_wanted, this, [this] { set_large(!large_); });
  connect(port_, &BalancePort::figure_sent, this, &WeighRoom::take_from_balance);
  connect(port_, &BalancePort::line_refused, this, [this](const QString& raw, const Error&) {
    if (isVisible() && mass_->typed().isEmpty())
      mass_->show_note(tr("The balance sent “%1”, which is no figure.").arg(raw.left(60)));
  });
  connect(port_, &BalancePort::state_changed, this, [this] { show_step(nullptr); });
  connect(mass_, &MassField::cup_wanted, this, &WeighRoom::ask_for_cup);
  connect(mass_, &MassField::shown_wanted, this, &WeighRoom::take_what_is_shown);
  connect(mass_, &MassField::before_wanted, this, &WeighRoom::take_before);
  connect(mass_, &MassField::next_wanted, this, &WeighRoom::take_next);
  connect(mass_, &MassField::correction_wanted, this, [this] { recent_->correct(0); });
  connect(recent_, &RecentReadings::done, this, to_field);
  connect(recent_, &RecentReadings::bead_wanted, this, [this, to_field](BeadId bead) {
    take(bead);
    to_field();
  });
  connect(reason_, &ReasonLine::closed, this, to_field);
  connect(reason_, &ReasonLine::given, this, [this, to_field] {
    take_next();
    to_field();
  });
}

}  // namespace prillbook::ui
