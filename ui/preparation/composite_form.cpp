// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/preparation/composite_form.h"

#include <QtWidgets/QHBoxLayout>
#include <QtWidgets/QLabel>
#include <QtWidgets/QVBoxLayout>

#include "core/custody/custody.h"
#include "core/lab/lab.h"
#include "ui/kit/figures.h"
#include "ui/kit/form.h"
#include "ui/kit/press_button.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"
#include "ui/preparation/words.h"

namespace prillbook::ui {
namespace {

constexpr int first_rows = 3;
constexpr std::int64_t most_samples = 1000;

}  // namespace

CompositeForm::CompositeForm(Session& session, QWidget* parent)
    : QWidget(parent),
      session_(session),
      mark_(new TextField(tr("Mark of the composite"))),
      rows_column_(new QVBoxLayout),
      make_(new PressButton(tr("Make the composite"))),
      refused_(new QLabel) {
  mark_->set_read_only(session.read_only());
  mark_->on_commit([this](const auto& words) -> Result<void> {
    mark_text_ = words;
    return {};
  });
  refused_->setFont(face(TextSize::small));
  refused_->setProperty("tone", "signal");
  refused_->setTextFormat(Qt::PlainText);
  refused_->setWordWrap(true);
  refused_->hide();
  make_->setEnabled(!session.read_only());
  connect(make_, &QPushButton::clicked, this, &CompositeForm::make);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(rhythm);
  column->addWidget(mark_);
  rows_column_->setSpacing(rhythm / 2);
  column->addLayout(rows_column_);
  auto* foot = new QHBoxLayout;
  foot->addWidget(make_);
  foot->addWidget(refused_, 1);
  column->addLayout(foot);
  for (int i = 0; i < first_rows; ++i) add_row();
  refresh();
}

QString CompositeForm::refusal_words() const { return refused_->isHidden() ? QString() : refused_->text(); }

void CompositeForm::refresh() {
  samples_.clear();
  if (const auto recent = custody::recent_samples(session_.connection, most_samples); recent.ok())
    for (const custody::SampleLine& line : *recent)
      samples_.push_back({line.id.value, QStringLiteral("%1 %2").arg(to_qt(line.number), in_short(to_qt(line.mark), 24))});
  for (ShareRow& row : rows_) row.sample->set_items(samples_);
}

// A row is offered as soon as the last one names a sample.
void CompositeForm::add_row() {
  rows_.push_back({new PickField(tr("Sample %1").arg(rows_.size() + 1)),
                   new ReadingField(tr("Mass taken"), {Measure::mass, "g", session_.writing.mark, false}),
                   new ReadingField(tr("Share wanted"), {Measure::share, "%", session_.writing.mark, false}),
                   {},
                   {},
                   {}});
  ShareRow& row = rows_.back();
  row.sample->set_items(samples_);
  row.sample->on_commit([this, &row](std::optional<std::int64_t> id) -> Result<void> {
    row.chosen = id;
    if (id && &row == &rows_.back()) add_row();
    return {};
  });
  row.mass->on_commit([&row](const auto& mass) -> Result<void> {
    row.mass_figure = mass;
    return {};
  });
  row.share->on_commit([&row](const auto& share) -> Result<void> {
    row.share_figure = share;
    return {};
  });
  for (Field* one : {static_cast<Field*>(row.sample), static_cast<Field*>(row.mass), static_cast<Field*>(row.share)})
    one->set_read_only(session_.read_only());
  auto* form = new Form(3);
  form->row({row.sample, row.mass, row.share});
  rows_column_->addWidget(form);
}

Result<milling::NewComposite> CompositeForm::entered() const {
  milling::NewComposite fresh;
  if (!mark_text_) return Error{ErrorCode::missing_key, "sample.mark", "a composite has a mark", {}};
  fresh.mark = *mark_text_;
  for (const ShareRow& row : rows_) {
    if (!row.chosen && !row.mass_figure) continue;
    if (!row.chosen) return Error{ErrorCode::missing_key, "step_share.portion_id", "a share comes from a sample", {}};
    fresh.shares.push_back({SampleId{*row.chosen}, {}, row.mass_figure, row.share_figure});
  }
  if (!fresh.shares.empty()) {
    PRILLBOOK_ASSIGN(const custody::Sample first, custody::sample(session_.connection, fresh.shares.front().sample));
    fresh.consignment = first.consignment;
  }
  const auto person = lab::person_by_initials(session_.connection, session_.journal.author());
  if (person.ok()) fresh.done_by = person->id;
  return fresh;
}

void CompositeForm::make() {
  refused_->hide();
  bool sound = mark_->commit();
  for (ShareRow& row : rows_) {
    sound = row.sample->commit() && sound;
    sound = row.mass->commit() && sound;
    sound = row.share->commit() && sound;
  }
  if (!sound) return;  // the field says why
  const auto fresh = entered();
  if (!fresh.ok()) return refuse(fresh.error());
  const auto composite = milling::make_composite(session_.journal, *fresh);
  if (!composite.ok()) return refuse(composite.error());
  clear();
  emit made(composite->sample);
}

void CompositeForm::clear() {
  mark_text_.reset();
  mark_->set_value(std::nullopt);
  for (ShareRow& row : rows_) {
    row.chosen.reset();
    row.mass_figure.reset();
    row.share_figure.reset();
    row.sample->set_value(std::nullopt);
    row.mass->set_value(std::nullopt);
    row.share->set_value(std::nullopt);
  }
}

void CompositeForm::refuse(const Error& error) {
  refused_->setText(error.code == ErrorCode::too_small ? tr("A composite is put together from two samples or more.")
                    : error.field == "sample.mark"     ? tr("The composite needs a mark.")
                                                       : preparation_sentence(error));
  refused_->show();
}

}  // namespace prillbook::ui
