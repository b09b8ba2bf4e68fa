// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/receiving/hand_over_form.h"

#include <QtWidgets/QHBoxLayout>
#include <QtWidgets/QListWidget>
#include <QtWidgets/QVBoxLayout>
#include <algorithm>

#include "core/custody/places.h"
#include "core/history/fields.h"
#include "core/lab/lab.h"
#include "ui/kit/form.h"
#include "ui/kit/ledger.h"
#include "ui/kit/press_button.h"
#include "ui/kit/record_fields.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"

namespace prillbook::ui {
namespace {

constexpr int handed_sample = Qt::UserRole;
constexpr std::int64_t an_hour_ms = 3'600'000;

std::vector<ChoiceField::Choice> words_of(const history::Field& field) {
  std::vector<ChoiceField::Choice> choices;
  for (const std::string_view value : field.choices) choices.push_back({std::string(value), choice_word(value)});
  return choices;
}

QString link_words(const custody::Link& link) {
  QStringList words;
  if (!link.place.empty()) words << to_qt(link.place);
  words << (link.id ? link.reason ? to_qt(*link.reason) : QString() : HandOverForm::tr("received"));
  if (link.seal || link.seal_state)
    words << HandOverForm::tr("seal %1 %2")
                 .arg(to_qt(link.seal.value_or("")), link.seal_state ? choice_word(*link.seal_state) : QString())
                 .simplified();
  if (link.condition) words << choice_word(*link.condition);
  if (link.typed && std::abs(link.typed->at.utc_ms - link.at.utc_ms) > an_hour_ms)
    words << HandOverForm::tr("written %1").arg(date_time_text(link.typed->at));
  words.removeAll(QString());
  return words.join(QStringLiteral(" · "));
}

}  // namespace

QString holder_words(const custody::Chain& chain) {
  const QString holder = to_qt(chain.holder()), place = to_qt(chain.place());
  const QString with =
      holder.isEmpty() ? HandOverForm::tr("nobody is named who has it") : HandOverForm::tr("with %1").arg(in_short(holder, 24));
  return place.isEmpty() ? with : with + QStringLiteral(", ") + in_short(place, 24);
}

HandOverForm::HandOverForm(Session& session, QWidget* parent)
    : QWidget(parent),
      session_(session),
      chain_(new Ledger(tr("Who had it, oldest first"))),
      samples_(new QListWidget),
      write_(new PressButton(tr("Write the hand-over"))) {
  build_fields();
  chain_->set_most_rows(5);
  samples_->setAccessibleName(tr("Samples that are handed over; Space takes one in or out"));
  samples_->setFrameShape(QFrame::NoFrame);
  samples_->setFont(face(TextSize::body));
  auto* form = new Form(3);
  form->row({from_, to_, place_});
  form->row({at_, reason_, seal_});
  form->row({seal_state_});
  form->row({condition_});
  auto* foot = new QHBoxLayout;
  foot->addWidget(write_);
  foot->addStretch();
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(rhythm);
  column->addWidget(chain_);
  column->addWidget(form);
  column->addWidget(samples_);
  column->addLayout(foot);
  connect(write_, &QPushButton::clicked, this, &HandOverForm::write);
  write_->setVisible(!session.read_only());
  samples_->setVisible(!session.read_only());
  form->setVisible(!session.read_only());
}

// Nothing is written before the button: what is accepted waits in `wished_`.
void HandOverForm::build_fields() {
  namespace f = history::fields::hand_over;
  from_ = new TextField(tr("From"));
  from_->on_commit([this](const auto& words) { return wished_.from = words.value_or(""), Result<void>{}; });
  to_ = new TextField(tr("To"));
  to_->set_hint(tr("Initials, a name or a firm."));
  to_->on_commit([this](const auto& words) { return wished_.to = words.value_or(""), Result<void>{}; });
  place_ = new PickField(tr("Where it goes"));
  place_->on_commit([this](std::optional<std::int64_t> id) { return wished_.place = PlaceId{id.value_or(0)}, Result<void>{}; });
  place_->on_new([this](const std::string& name) -> Result<std::int64_t> {
    PRILLBOOK_ASSIGN(const PlaceId id, custody::add_place(session_.journal, name));
    return id.value;
  });
  at_ = new DateTimeField(tr("When"), session_.journal.clock());
  at_->set_hint(tr("Empty: now."));
  at_->on_commit([this](std::optional<Instant> at) { return wished_.at = at, Result<void>{}; });
  reason_ = new TextField(tr("Why"));
  reason_->on_commit([this](const auto& words) { return wished_.reason = words, Result<void>{}; });
  seal_ = new TextField(tr("Seal seen"));
  seal_->on_commit([this](const auto& words) { return wished_.seal = words, Result<void>{}; });
  seal_state_ = new ChoiceField(tr("State of that seal"), words_of(f::seal_state));
  seal_state_->on_commit([this](const auto& word) { return wished_.seal_state = word, Result<void>{}; });
  condition_ = new ChoiceField(tr("Condition now"), words_of(f::condition));
  condition_->on_commit([this](const auto& word) { return wished_.condition = word, Result<void>{}; });
}

void HandOverForm::show_sample(SampleId sample) {
  if (sample != sample_) {
    clear();
    samples_->clear();
  }
  sample_ = sample;
  refresh();
}

void HandOverForm::clear() {
  for (Field* field : std::initializer_list<Field*>{from_, to_, place_, at_, reason_, seal_, seal_state_, condition_})
    field->leave_record();
  wished_ = {};
}

void HandOverForm::show_places() {
  const auto places = custody::places(session_.connection);
  if (!places.ok()) return;
  std::vector<PickField::Item> items;
  for (const custody::Place& place : *places) items.push_back({place.id.value, to_qt(place.name)});
  place_->set_items(std::move(items));
}

void HandOverForm::refresh() {
  if (!sample_) return chain_->set_rows({});
  show_places();
  const auto sample = custody::sample(session_.connection, sample_);
  if (!sample.ok()) return;
  const auto consignment = custody::consignment(session_.connection, sample->consignment);
  if (!consignment.ok()) return;
  const auto chain = custody::chain_of(session_.connection, *sample, *consignment);
  if (!chain.ok()) return;
  show_chain(*chain);
  show_samples(*sample);
  if (wished_.from.empty() && !from_->pending()) {
    wished_.from = chain->holder();
    from_->set_value(wished_.from);
  }
}

void HandOverForm::show_chain(const custody::Chain& chain) {
  std::vector<LedgerRow> rows;
  for (std::size_t i = 0; i < chain.links.size(); ++i) {
    const custody::Link& link = chain.links[i];
    const QString to = link.to.empty() ? tr("nobody named") : to_qt(link.to);
    rows.push_back({RecordId(i + 1),
                    0,
                    date_time_text(link.at),
                    tr("%1 to %2").arg(in_short(to_qt(link.from), 24), in_short(to, 24)),
                    {},
                    false,
                    link_words(link)});
  }
  chain_->set_rows(std::move(rows));
}

void HandOverForm::show_samples(const custody::Sample& sample) {
  const auto all = custody::samples_of(session_.connection, sample.consignment);
  if (!all.ok()) return;
  QList<qlonglong> kept;
  for (const SampleId id : chosen()) kept << id.value;
  if (kept.isEmpty()) kept << sample.id.value;
  const int row = samples_->currentRow();
  samples_->clear();
  for (const custody::Sample& one : *all) {
    auto* item = new QListWidgetItem(QStringLiteral("%1  %2").arg(to_qt(one.number), to_qt(one.mark)));
    item->setFlags(Qt::ItemIsUserCheckable | Qt::ItemIsEnabled | Qt::ItemIsSelectable);
    item->setData(handed_sample, qlonglong(one.id.value));
    item->setCheckState(kept.contains(one.id.value) ? Qt::Checked : Qt::Unchecked);
    samples_->addItem(item);
  }
  constexpr int most_rows = 6;
  samples_->setFixedHeight(std::min(samples_->count(), most_rows) * samples_->sizeHintForRow(0) + 2);
  samples_->setCurrentRow(std::max(0, row));
  samples_->setVisible(samples_->count() > 1 && !session_.read_only());
}

std::vector<SampleId> HandOverForm::chosen() const {
  std::vector<SampleId> ids;
  for (int i = 0; i < samples_->count(); ++i)
    if (samples_->item(i)->checkState() == Qt::Checked)
      ids.push_back(SampleId{samples_->item(i)->data(handed_sample).toLongLong()});
  return ids;
}

void HandOverForm::write() {
  if (Field* field = commit_all(this)) return field->setFocus();
  if (wished_.to.empty()) return to_->show_error(refusal(ErrorCode::missing_key, "hand_over.to_holder", "say who took it"));
  custody::NewHandOver what = wished_;
  if (const auto worker = lab::person_by_initials(session_.connection, session_.journal.author()); worker.ok())
    what.written_by = worker->id;
  const auto samples = chosen();
  const auto made = custody::hand_over(session_.journal, samples, what);
  if (!made.ok()) return to_->show_error(made.error());
  clear();
  samples_->clear();
  refresh();
  emit written(int(samples.size()));
}

}  // namespace prillbook::ui
