// SPDX-License-Identifier: GPL-3.0-or-later
// The sample's sheet as it is put together: its story at the left, what is in hand at the right.
#include <QtWidgets/QHBoxLayout>
#include <QtWidgets/QLabel>
#include <QtWidgets/QScrollArea>
#include <QtWidgets/QVBoxLayout>

#include "ui/kit/form.h"
#include "ui/kit/ledger.h"
#include "ui/kit/messages.h"
#include "ui/kit/press_button.h"
#include "ui/kit/theme.h"
#include "ui/kit/thread.h"
#include "ui/photographs/photograph_strip.h"
#include "ui/sheet/bead_form.h"
#include "ui/sheet/charge_form.h"
#include "ui/sheet/custody_forms.h"
#include "ui/sheet/pan_form.h"
#include "ui/sheet/portion_forms.h"
#include "ui/sheet/result_lines.h"
#include "ui/sheet/sample_sheet.h"

namespace prillbook::ui {
namespace {

QLabel* heading(const QString& words) {
  auto* label = new QLabel(words);
  label->setFont(face(TextSize::body, Weight::bold));
  label->setTextFormat(Qt::PlainText);
  return label;
}

}  // namespace

SampleSheet::SampleSheet(Session& session, QWidget* parent)
    : QWidget(parent),
      session_(session),
      head_(new Headline),
      history_(new PressButton(tr("History…"))),
      labels_(new PressButton(tr("Labels…"))),
      photographs_(new PhotographStrip(session)),
      results_(new ResultLines) {
  auto* whole = new QVBoxLayout(this);
  whole->setContentsMargins(3 * rhythm, 2 * rhythm, 0, 0);
  whole->setSpacing(rhythm);
  auto* top = new QHBoxLayout;
  top->setContentsMargins(0, 0, 3 * rhythm, 0);
  top->addWidget(head_, 1);
  top->setSpacing(rhythm);
  top->addWidget(history_, 0, Qt::AlignTop);
  top->addWidget(labels_, 0, Qt::AlignTop);
  whole->addLayout(top);
  history_->setToolTip(tr("Ctrl+H"));
  connect(history_, &QPushButton::clicked, this, [this] { emit history_requested({history::Entity::sample, sample_.value}); });
  connect(labels_, &QPushButton::clicked, this, [this] {
    emit labels_requested(portion_ ? RecordRef{history::Entity::portion, portion_.value}
                                   : RecordRef{history::Entity::sample, sample_.value});
  });
  whole->addWidget(hairline());
  auto* columns = new QHBoxLayout;
  columns->setSpacing(0);
  columns->addWidget(build_left(), 10);
  columns->addWidget(hairline_upright());
  columns->addWidget(build_hand(), 13);
  whole->addLayout(columns, 1);
  connect(&session_.notifier, &Notifier::written, this, [this] { refresh(); });
}

QWidget* SampleSheet::build_left() {
  auto* left = new QWidget;
  auto* column = new QVBoxLayout(left);
  column->setContentsMargins(0, rhythm, 0, rhythm);
  column->setSpacing(rhythm);
  column->addWidget(results_);
  sizes_ = new QLabel;
  sizes_->setFont(face(TextSize::small));
  sizes_->setTextFormat(Qt::PlainText);
  sizes_->setWordWrap(true);
  sizes_->setContentsMargins(0, 0, 2 * rhythm, 0);
  column->addWidget(sizes_);
  column->addSpacing(rhythm);
  thread_ = new Thread;
  thread_->setAccessibleName(tr("What happened to this sample"));
  connect(thread_, &Thread::action_wanted, this, [this](std::int64_t, const QString& action) { explain(action); });
  column->addWidget(thread_, 1);
  explanation_ = new TextField(tr("What explains it"));
  explanation_->setContentsMargins(0, 0, 2 * rhythm, 0);
  explanation_->on_commit([this](const auto& words) { return answer(words); });
  explanation_->hide();
  column->addWidget(explanation_);
  photographs_place_ = new QScrollArea;
  photographs_place_->setWidgetResizable(true);
  photographs_place_->setFrameShape(QFrame::NoFrame);
  photographs_place_->setFocusPolicy(Qt::NoFocus);
  photographs_place_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  photographs_place_->setWidget(photographs_);
  photographs_place_->viewport()->setAutoFillBackground(false);
  photographs_->setAutoFillBackground(false);
  photographs_->setContentsMargins(0, 0, 2 * rhythm, 0);
  connect(photographs_, &PhotographStrip::shape_changed, this, &SampleSheet::fit_photographs);
  column->addWidget(photographs_place_);
  return left;
}

QWidget* SampleSheet::build_hand() {
  auto* hand = new QWidget;
  auto* column = new QVBoxLayout(hand);
  column->setContentsMargins(3 * rhythm, rhythm, 3 * rhythm, 2 * rhythm);
  column->setSpacing(rhythm);
  portions_ = new Ledger(tr("The sample and its portions"));
  portions_->set_most_rows(6);
  hand_head_ = heading({});
  portion_form_ = new PortionForm(session_);
  pan_ = new PanForm(session_);
  charge_ = new ChargeForm(session_);
  bead_ = new BeadForm(session_);
  cut_ = new CutForm(session_);
  screen_ = new ScreenForm(session_);
  own_metal_ = new OwnMetalForm(session_);
  own_metal_part_ = new Fold(tr("Metal and rests of the client"), own_metal_);
  told_ = new ToldForm(session_);
  told_part_ = new Fold(tr("Told by telephone"), told_);
  build_cautions();
  column->addWidget(hand_head_);
  column->addWidget(build_start_row());
  column->addWidget(bead_);
  column->addWidget(pan_);
  column->addWidget(charge_);
  column->addWidget(portion_form_);
  column->addWidget(screen_);
  column->addWidget(cut_);
  column->addWidget(own_metal_part_);
  column->addWidget(told_part_);
  column->addStretch();
  auto* scroll = new QScrollArea;
  scroll->setWidgetResizable(true);
  scroll->setFrameShape(QFrame::NoFrame);
  scroll->setFocusPolicy(Qt::NoFocus);
  scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  scroll->setWidget(hand);
  scroll->viewport()->setAutoFillBackground(false);
  hand->setAutoFillBackground(false);
  connect(portions_, &Ledger::taken, this, [this](RecordId id) { take(PortionId{id}); });
  connect(portions_, &Ledger::opened, this, [this](RecordId) { enter(); });
  connect(screen_, &ScreenForm::screened, this, [this](PortionId coarse) {
    take(coarse);
    enter();
  });
  connect(cut_, &CutForm::cut, this, [this](PortionId made) {
    take(made);
    enter();
  });
  scroll_ = scroll;
  auto* right = new QWidget;
  auto* rows = new QVBoxLayout(right);
  rows->setContentsMargins(0, rhythm, 0, rhythm / 2);
  rows->setSpacing(rhythm);
  auto* list = new QHBoxLayout;
  list->setContentsMargins(3 * rhythm, 0, 3 * rhythm, 0);
  list->addWidget(portions_);
  rows->addLayout(list);
  rows->addWidget(scroll, 1);
  for (CautionLine* line : {fire_caution_, pan_caution_}) {
    auto* foot = new QHBoxLayout;
    foot->setContentsMargins(3 * rhythm, 0, rhythm, 0);
    foot->addWidget(line);
    rows->addLayout(foot);
  }
  return right;
}

QWidget* SampleSheet::build_start_row() {
  start_row_ = new QWidget;
  auto* row = new QHBoxLayout(start_row_);
  row->setContentsMargins(0, 0, 0, rhythm);
  row->setSpacing(2 * rhythm);
  start_pan_ = new PressButton(tr("Pan it"), PressButton::Rank::main);
  start_charge_ = new PressButton(tr("Put it in a crucible"), PressButton::Rank::main);
  start_repeat_ = new PressButton(QString());
  sieve_ = new PressButton(QString(), PressButton::Rank::main);
  connect(sieve_, &QPushButton::clicked, this, [this] { emit sieving_wanted(portion_); });
  connect(start_pan_, &QPushButton::clicked, this, &SampleSheet::start_pan);
  connect(start_charge_, &QPushButton::clicked, this, [this] { start_charge({}); });
  connect(start_repeat_, &QPushButton::clicked, this,
          [this] { start_charge(ChargeId{start_repeat_->property("repeats").toLongLong()}); });
  for (PressButton* button : {start_pan_, start_charge_, sieve_, start_repeat_}) row->addWidget(button);
  row->addStretch();
  return start_row_;
}

void SampleSheet::build_cautions() {
  fire_caution_ = new CautionLine(
      tr("Litharge dust and lead fume are poisonous: work under draught. Melt and moulds must be dry; nitric acid fumes burn "
         "the lungs. Cupels and slag are lead waste."),
      QStringLiteral("safety/fire"));
  pan_caution_ =
      new CautionLine(tr("A concentrate that was amalgamated holds mercury: never heat it in the open, and never in a cupel."),
                      QStringLiteral("safety/mercury"));
  for (CautionLine* line : {fire_caution_, pan_caution_}) {
    connect(line, &CautionLine::more_wanted, this, &SampleSheet::guide_requested);
    line->hide();
  }
}

}  // namespace prillbook::ui
