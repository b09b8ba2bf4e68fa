// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/receiving/sample_form.h"

#include <QtWidgets/QHBoxLayout>
#include <QtWidgets/QLabel>
#include <QtWidgets/QVBoxLayout>

#include "core/history/fields.h"
#include "core/portions/portions.h"
#include "ui/findings/findings_panel.h"
#include "ui/kit/figures.h"
#include "ui/kit/form.h"
#include "ui/kit/press_button.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"
#include "ui/receiving/hand_over_form.h"
#include "ui/receiving/wishes_form.h"

namespace prillbook::ui {
namespace {

namespace sample_fields = history::fields::sample;

}  // namespace

SampleForm::SampleForm(Session& session, QWidget* parent)
    : QWidget(parent),
      session_(session),
      fields_(new RecordFields(session, history::Entity::sample, this)),
      head_(new QLabel),
      hand_over_(new HandOverForm(session)),
      holder_(new Fold(tr("Who has it"), hand_over_)),
      findings_(new FindingsPanel(session)) {
  head_->setFont(face(TextSize::body, Weight::bold));
  head_->setTextFormat(Qt::PlainText);
  head_->setWordWrap(true);
  mark_ = fields_->text(tr("Client's mark"), sample_fields::mark);
  received_ = fields_->figure(tr("Mass received"), sample_fields::mass_received, "kg", false);
  auto* form = new Form(2);
  form->row({mark_, fields_->text(tr("Place taken"), sample_fields::place)});
  form->row({fields_->choice(tr("Kind"), sample_fields::kind)});
  auto* words = new QWidget;
  auto* words_row = new QHBoxLayout(words);
  words_row->setContentsMargins(0, 0, 0, 0);
  words_row->setSpacing(4 * rhythm);
  words_row->addWidget(fields_->choice(tr("Expected class"), sample_fields::expected), 17);
  words_row->addWidget(fields_->choice(tr("Condition on receipt"), sample_fields::condition), 18);
  form->wide(words);
  form->row({fields_->figure(tr("Mass declared"), sample_fields::mass_declared, "kg", false), received_});
  after_ = new QWidget;
  auto* later = new Form(2);
  later->row({fields_->figure(tr("Moisture, wet basis"), sample_fields::moisture, "%"),
              fields_->text(tr("Remarks"), sample_fields::remarks)});
  auto* below = new QVBoxLayout(after_);
  below->setContentsMargins(0, 0, 0, 0);
  below->setSpacing(rhythm);
  below->addWidget(buttons());
  below->addWidget(findings_);
  below->addWidget(later);
  below->addWidget(new Fold(tr("Bag, tests, due, price, keeping"), wishes_form(session_, *fields_)));
  below->addWidget(holder_);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(rhythm);
  column->addWidget(head_);
  column->addWidget(form);
  column->addWidget(after_);
  findings_->show_only({"short_on_arrival", "leaking_bag", "treated_apart", "seal_not_whole", "hand_over_gap", "before_arrival",
                        "same_mark", "pieces_missing", "net_mass_differs", "moisture_differs", "moisture_not_written",
                        "moisture_not_found", "told_differs", "overdue", "retention_over"});
  bind();
  show_state();
}

QWidget* SampleForm::buttons() {
  auto* row_widget = new QWidget;
  auto* row = new QHBoxLayout(row_widget);
  row->setContentsMargins(0, 0, 0, 0);
  row->setSpacing(2 * rhythm);
  next_ = new PressButton(tr("Next sample"), PressButton::Rank::main);
  sweepings_ = new PressButton(tr("Log its sweepings"));
  sweepings_->setToolTip(tr("What lies in the box becomes a sample of its own, tied to this one"));
  sheet_ = new PressButton(tr("Open its sheet"));
  connect(next_, &QPushButton::clicked, this, &SampleForm::next_wanted);
  connect(sweepings_, &QPushButton::clicked, this, &SampleForm::sweepings_wanted);
  connect(sheet_, &QPushButton::clicked, this, &SampleForm::sheet_wanted);
  record_ = new PressButton(tr("Custody record…"));
  connect(record_, &QPushButton::clicked, this, &SampleForm::custody_record_wanted);
  for (PressButton* button : {next_, sweepings_, sheet_, record_}) row->addWidget(button);
  row->addStretch();
  return row_widget;
}

void SampleForm::bind() {
  fields_->write_by(sample_fields::mark, [this](RecordId record, const history::Value& mark, const RecordFields::Why& why) {
    return write_mark(record, mark, why);
  });
  fields_->write_by(sample_fields::mass_received,
                    RecordFields::EnterFigure([this](RecordId record, const auto& mass, const auto& why) {
                      return portions::set_received_mass(session_.journal, SampleId{record}, mass, why);
                    }));
}

Result<void> SampleForm::write_mark(RecordId record, const history::Value& mark, const RecordFields::Why& why) {
  if (record) return readings::enter(session_.journal, sample_fields::mark, record, mark, why);
  custody::NewSample fresh;
  fresh.consignment = consignment_;
  if (const auto* words = std::get_if<std::string>(&mark)) fresh.mark = *words;
  PRILLBOOK_ASSIGN(const SampleId made, custody::log_sample(session_.journal, fresh));
  fields_->adopt(made.value);
  show_state();
  emit logged(made);
  return {};
}

void SampleForm::show_sample(ConsignmentId consignment, SampleId sample) {
  fields_->show(sample.value);
  consignment_ = consignment;
  show_state();
}

void SampleForm::refresh() {
  fields_->refresh();
  show_state();
}

void SampleForm::show_state() {
  const SampleId id = sample();
  const auto held = id ? custody::sample(session_.connection, id) : Result<custody::Sample>(custody::Sample{});
  for (Field* field : fields_->all()) field->setEnabled(bool(id) || field == mark_);
  QString words = tr("Next sample: its mark gives it a lab number");
  if (id && held.ok()) {
    words = to_qt(held->number);
    if (held->swept_from)
      if (const auto leaked = custody::sample(session_.connection, held->swept_from); leaked.ok())
        words += tr(", swept up from %1").arg(to_qt(leaked->number));
  }
  if (id && held.ok())
    if (const auto whole = custody::consignment(session_.connection, held->consignment); whole.ok()) {
      if (const auto chain = custody::chain_of(session_.connection, *held, *whole); chain.ok())
        words += QStringLiteral(" · ") + holder_words(*chain);
      if (whole->whole_form && id != shown_) holder_->set_open(true);
    }
  shown_ = id;
  if (held.ok() && held->treatment && held->treatment != "none")
    words += (held->treatment == "refuse" ? tr(" · refuse it") : tr(" · treat it apart")) +
             (held->treatment_reason ? QStringLiteral(": ") + in_short(to_qt(*held->treatment_reason), 40) : QString());
  head_->setText(words);
  const bool leaked = id && held.ok() && (held->condition == "torn" || held->condition == "leaking");
  sweepings_->setVisible(leaked);
  after_->setVisible(bool(id));
  findings_->show_sample(id);
  hand_over_->show_sample(id);
}

void SampleForm::enter() {
  mark_->setFocus(Qt::OtherFocusReason);
  bring_into_view(sample() ? static_cast<QWidget*>(mark_) : received_);
}

void SampleForm::enter_received_mass() {
  received_->setFocus(Qt::OtherFocusReason);
  bring_into_view(received_);
}

}  // namespace prillbook::ui
