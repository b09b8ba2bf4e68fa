// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/compare/compare_station.h"

#include <QtWidgets/QPushButton>
#include <QtWidgets/QStackedWidget>
#include <QtWidgets/QVBoxLayout>

#include "core/results/lists.h"
#include "ui/compare/compare_page.h"
#include "ui/compare/many_page.h"
#include "ui/kit/bench.h"
#include "ui/kit/press_button.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"
#include "ui/kit/waiting_list.h"

namespace prillbook::ui {
namespace {

// The few words that decide what to look at.
QString words_for(const results::TestedSample& sample) {
  if (sample.fineness_missing) return CompareStation::tr("a bead without fineness");
  if (sample.pan_beads > 0 && sample.fire_beads > 0) return CompareStation::tr("pan and fire");
  return sample.pan_beads > 0 ? CompareStation::tr("pan only") : CompareStation::tr("fire only");
}

std::vector<WaitingRow> rows(store::Connection& connection, int from, int count) {
  std::vector<WaitingRow> list;
  const auto samples = results::tested_samples(connection, count, from);
  if (!samples.ok()) return list;
  for (const auto& sample : *samples)
    list.push_back({sample.sample.value, to_qt(sample.number), to_qt(sample.mark), words_for(sample), Urgency::usual});
  return list;
}

}  // namespace

CompareStation::CompareStation(Session& session, QWidget* parent)
    : Station(parent),
      session_(session),
      waiting_(new WaitingList(tr("Samples with a weighed bead"))),
      page_(new ComparePage(session)),
      many_(new ManyPage(session)),
      pages_(new QStackedWidget),
      switch_(new PressButton(tr("Many samples"))) {
  auto* whole = new QVBoxLayout(this);
  whole->setContentsMargins(0, 0, 0, 0);
  pages_->addWidget(page_);
  pages_->addWidget(many_);
  whole->addWidget(new Bench(build_column(), pages_));
  connect(switch_, &QPushButton::clicked, this, [this] { show_many(pages_->currentWidget() != many_); });
  connect(many_, &ManyPage::opened, this, [this](std::int64_t sample) {
    show_many(false);
    take(SampleId{sample});
    waiting_->setFocus(Qt::OtherFocusReason);
  });
  waiting_->set_empty_words(tr("Nothing to compare yet. A bead of the pan and one of the fire meet here."));
  waiting_->read_from([this](int from, int count) { return rows(session_.connection, from, count); });
  connect(waiting_, &WaitingList::taken, this, [this](RecordId id) {
    show_many(false);
    take(SampleId{id});
  });
  connect(waiting_, &WaitingList::opened, this, [this] { page_->sheet_button()->setFocus(Qt::OtherFocusReason); });
  connect(page_, &ComparePage::sheet_wanted, this, [this] { emit open_requested({history::Entity::sample, sample_.value}); });
  page_->show_nothing(tr("Pan and fire of a sample stand side by side here, once a bead of it is weighed."));
}

QWidget* CompareStation::build_column() {
  auto* column = new QWidget;
  auto* lines = new QVBoxLayout(column);
  lines->setContentsMargins(0, rhythm, 0, 0);
  lines->setSpacing(rhythm);
  auto* top = new QVBoxLayout;
  top->setContentsMargins(2 * rhythm, 0, rhythm, 0);
  top->addWidget(switch_, 0, Qt::AlignLeft);
  lines->addLayout(top);
  lines->addWidget(waiting_, 1);
  return column;
}

void CompareStation::show_many(bool many) {
  if (many == (pages_->currentWidget() == many_)) return;
  switch_->setText(many ? tr("One sample") : tr("Many samples"));
  pages_->setCurrentWidget(many ? static_cast<QWidget*>(many_) : page_);
  if (!many) return;
  many_->read();
  many_->enter();
}

StationPlace CompareStation::place(Session& session) {
  return {tr("Compare"),
          Icon::compare,
          [&session] { return int(results::count_comparable_samples(session.connection).value_or(0)); },
          {},
          [&session] { return new CompareStation(session); }};
}

void CompareStation::notebook_changed(const history::Written&) {
  waiting_->refresh();
  if (sample_) page_->show_sample(sample_);
  if (pages_->currentWidget() == many_) many_->read();
}

// A sample by its number is looked for on its sheet; here it is only put side by side.
bool CompareStation::show_record(const RecordRef&) { return false; }

void CompareStation::enter() {
  if (!sample_) {
    const auto first = results::tested_samples(session_.connection, 1);
    if (first.ok() && !first->empty()) take(first->front().sample);
  }
  waiting_->setFocus(Qt::OtherFocusReason);
}

void CompareStation::take(SampleId sample) {
  sample_ = sample;
  waiting_->take(sample.value);
  page_->show_sample(sample);
}

}  // namespace prillbook::ui
