// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/preparation/composite_form.h"

#include <QtWidgets/QHBoxLayout>
#include <QtWidgets/QLabel>
#include <QtWidgets/QVBoxLayout>
#include <algorithm>

#include "core/custody/custody.h"
#include "core/lab/lab.h"
#include "core/results/composite_outlook.h"
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
      outlook_(new QLabel),
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
  outlook_->setTextFormat(Qt::PlainText);
  outlook_->setWordWrap(true);
  outlook_->hide();
  make_->setEnabled(!session.read_only());
  connect(make_, &QPushButton::clicked, this, &CompositeForm::make);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(rhythm);
  column->addWidget(mark_);
  rows_column_->setSpacing(rhythm / 2);
  column->addLayout(rows_column_);
  for (int i = 0; i < first_rows; ++i) add_row();
  column->addWidget(outlook_);
  auto* foot = new QHBoxLayout;
  foot->addWidget(make_, 0, Qt::AlignLeft);
  foot->addWidget(refused_, 1);
  column->addLayout(foot);
  refresh();
}

QString CompositeForm::refusal_words() const { return refused_->isHidden() ? QString() : refused_->text(); }
QString CompositeForm::outlook_words() const { return outlook_->isHidden() ? QString() : outlook_->text(); }

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
    show_outlook();
    return {};
  });
  row.mass->on_commit([this, &row](const auto& mass) -> Result<void> {
    row.mass_figure = mass;
    show_outlook();
    return {};
  });
  row.share->on_commit([this, &row](const auto& share) -> Result<void> {
    row.share_figure = share;
    show_outlook();
    return {};
  });
  for (Field* one : {static_cast<Field*>(row.sample), static_cast<Field*>(row.mass), static_cast<Field*>(row.share)})
    one->set_read_only(session_.read_only());
  auto* form = new Form(3);
  form->row({row.sample, row.mass, row.share});
  rows_column_->addWidget(form);
  // The first rows stand in order as they are made; ordered a second time, Tab would go round among them.
  if (int(rows_.size()) > first_rows) order_of_keys();
}

// Down the rows, then to the button: rows that came later would else be reached last of all in the window.
void CompositeForm::order_of_keys() {
  QWidget* last = mark_->editor();
  for (const ShareRow& row : rows_)
    for (const Field* field :
         {static_cast<const Field*>(row.sample), static_cast<const Field*>(row.mass), static_cast<const Field*>(row.share)}) {
      setTabOrder(last, field->editor());
      last = field->editor();
    }
  setTabOrder(last, make_);
}

std::vector<milling::NewShare> CompositeForm::shares_begun() const {
  std::vector<milling::NewShare> shares;
  for (const ShareRow& row : rows_)
    if (row.chosen) shares.push_back({SampleId{*row.chosen}, {}, row.mass_figure, row.share_figure});
  return shares;
}

QString CompositeForm::number_of(SampleId id) const {
  const auto sample = custody::sample(session_.connection, id);
  return sample ? to_qt(sample->number) : QString();
}

void CompositeForm::show_outlook() {
  const std::vector<milling::NewShare> shares = shares_begun();
  const auto settings = lab::settings(session_.connection);
  const auto outlook = settings ? results::composite_outlook(session_.connection, shares, *settings) : settings.error();
  const DecimalMark mark = session_.writing.mark;
  QStringList lines;
  if (outlook) {
    QStringList parts, take;
    for (std::size_t i = 0; i < shares.size(); ++i) {
      const QString number = number_of(shares[i].sample);
      if (outlook->parts[i]) parts << tr("%1 %2 %").arg(number, number_words(outlook->parts[i]->in(unit::percent), mark));
      if (outlook->to_take[i]) take << tr("%1 of %2").arg(mass_words(*outlook->to_take[i], mark), number);
    }
    if (parts.size() > 1) lines << tr("Together %1: %2.").arg(mass_words(outlook->total, mark), parts.join(QStringLiteral(", ")));
    if (!take.isEmpty()) lines << tr("For the shares wanted take %1.").arg(take.join(QStringLiteral(", ")));
    if (parts.size() > 1 && outlook->grade)
      lines << tr("About %1 by mass (%2).").arg(grade_words(*outlook->grade, mark), basis_word(outlook->basis));
  }
  outlook_->setText(lines.join(QLatin1Char(' ')));
  outlook_->setVisible(!lines.isEmpty());
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
  show_outlook();
}

void CompositeForm::refuse(const Error& error) {
  const std::string overdrawn = error.code == ErrorCode::overdrawn && error.arguments.size() > 2 ? error.arguments[2] : "";
  refused_->setText(error.code == ErrorCode::too_small ? tr("A composite is put together from two samples or more.")
                    : error.field == "sample.mark"     ? tr("The composite needs a mark.")
                    : !overdrawn.empty() ? QStringLiteral("%1: %2").arg(to_qt(overdrawn), preparation_sentence(error))
                                         : preparation_sentence(error));
  refused_->show();
  if (error.field == "sample.mark") mark_->setFocus();
  if (error.field != "portion.mass") return;
  const auto row = std::find_if(rows_.begin(), rows_.end(), [&](const ShareRow& one) {
    if (!one.chosen) return false;
    return overdrawn.empty() ? !one.mass_figure : number_of(SampleId{*one.chosen}) == to_qt(overdrawn);
  });
  if (row != rows_.end()) row->mass->setFocus();
}

}  // namespace prillbook::ui
