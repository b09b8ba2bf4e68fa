// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/findings/findings_station.h"

#include <QtWidgets/QComboBox>
#include <QtWidgets/QGridLayout>
#include <QtWidgets/QLabel>
#include <QtWidgets/QLineEdit>
#include <QtWidgets/QVBoxLayout>
#include <algorithm>
#include <utility>

#include "core/custody/custody.h"
#include "ui/findings/finding_page.h"
#include "ui/findings/findings_panel.h"
#include "ui/findings/findings_watch.h"
#include "ui/kit/bench.h"
#include "ui/kit/figures.h"
#include "ui/kit/ledger.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"
#include "ui/kit/waiting_list.h"

namespace prillbook::ui {
namespace {

// The severity stands in words already; only what holds a summary back is marked besides.
Urgency urgency_of(findings::Severity severity) { return severity == findings::Severity::stop ? Urgency::now : Urgency::usual; }

}  // namespace

StationPlace FindingsStation::place(Session& session) {
  auto watch = std::make_shared<FindingsWatch>(session);
  return {tr("Findings"),
          Icon::findings,
          [watch] { return watch->open(); },
          {},
          [&session, watch] { return new FindingsStation(session, watch); }};
}

FindingsStation::FindingsStation(Session& session, std::shared_ptr<FindingsWatch> watch, QWidget* parent)
    : Station(parent),
      session_(session),
      watch_(std::move(watch)),
      news_(new QLabel),
      standing_(choice(tr("Which"), {tr("open"), tr("explained"), tr("gone")})),
      order_(choice(tr("Order"), {tr("by severity"), tr("by sample"), tr("by rule")})),
      severity_(choice(tr("Severity"), {tr("every severity"), tr("stop"), tr("caution"), tr("note")})),
      rule_(choice(tr("Rule"), {tr("every rule")})),
      number_(new QLineEdit),
      list_(new WaitingList(tr("Findings"))),
      page_(new FindingPage(session)) {
  auto* whole = new QVBoxLayout(this);
  whole->setContentsMargins(0, 0, 0, 0);
  whole->addWidget(new Bench(build_column(), page_));
  list_->set_empty_words(tr("Nothing stands open here. What the notebook notices about a sample comes to this list by itself."));
  list_->read_from([this](int from, int count) { return rows(from, count); });
  connect(list_, &WaitingList::taken, this, &FindingsStation::take);
  connect(list_, &WaitingList::opened, this, [this] { page_->enter(); });
  connect(page_, &FindingPage::open_requested, this, &FindingsStation::open_requested);
  connect(watch_.get(), &FindingsWatch::changed, this, &FindingsStation::show_news);
  page_->show_nothing(tr("What was noticed of every sample is gathered here."));
}

QWidget* FindingsStation::build_column() {
  auto* column = new QWidget;
  auto* lines = new QVBoxLayout(column);
  lines->setContentsMargins(0, rhythm, 0, 0);
  lines->setSpacing(rhythm);
  auto* filters = new QGridLayout;
  filters->setContentsMargins(2 * rhythm, 0, rhythm, 0);
  filters->setSpacing(rhythm / 2);
  news_->setFont(face(TextSize::small));
  news_->setProperty("tone", "quiet");
  news_->setWordWrap(true);
  filters->addWidget(news_, 0, 0, 1, 2);
  filters->addWidget(standing_, 1, 0);
  filters->addWidget(order_, 1, 1);
  filters->addWidget(severity_, 2, 0);
  filters->addWidget(rule_, 2, 1);
  number_->setFont(face(TextSize::small));
  number_->setPlaceholderText(tr("of one sample: its number"));
  number_->setAccessibleName(tr("Of one sample: its number"));
  number_->setClearButtonEnabled(true);
  connect(number_, &QLineEdit::textChanged, this, &FindingsStation::refresh);
  filters->addWidget(number_, 3, 0, 1, 2);
  filters->setColumnStretch(0, 1);
  filters->setColumnStretch(1, 1);
  lines->addLayout(filters);
  lines->addWidget(list_, 1);
  return column;
}

QComboBox* FindingsStation::choice(const QString& name, const QStringList& words) {
  auto* box = new QComboBox;
  box->addItems(words);
  box->setFont(face(TextSize::small));
  box->setAccessibleName(name);
  box->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
  box->setMinimumContentsLength(6);
  connect(box, &QComboBox::activated, this, &FindingsStation::refresh);
  return box;
}

void FindingsStation::show_news() {
  refresh();
  take_what_stands();
  if (watch_->open() >= 0) emit waiting_changed();
}

findings::BoardWish FindingsStation::wish() const {
  findings::BoardWish wish;
  wish.standing = findings::Standing(standing_->currentIndex());
  wish.order = findings::BoardOrder(order_->currentIndex());
  if (const int chosen = severity_->currentIndex(); chosen > 0) wish.severity = findings::Severity(3 - chosen);
  if (rule_->currentIndex() > 0) wish.rule = to_core(rule_->currentData().toString());
  return wish;
}

void FindingsStation::refresh() {
  findings::BoardWish wanted = wish();
  bool nothing = false;
  if (const QString number = number_->text().trimmed(); !number.isEmpty()) {
    const auto sample = custody::sample_by_number(session_.connection, to_core(number));
    nothing = !sample.ok();
    if (sample.ok()) wanted.sample = *sample;
  }
  listed_ = nothing ? std::vector<findings::Noticed>() : findings::listed(watch_->board(), wanted);
  fill_rules();
  list_->refresh();
  tell_progress();
  if (listed_.empty()) page_->show_nothing(watch_->begun() ? tr("Nothing stands here.") : QString());
}

// Only rules that something was noticed by; the chosen one stays.
void FindingsStation::fill_rules() {
  std::vector<std::string_view> seen;
  for (const auto& [sample, noticed] : watch_->board().noticed())
    for (const findings::Noticed& one : noticed)
      if (std::find(seen.begin(), seen.end(), one.rule) == seen.end()) seen.push_back(one.rule);
  std::sort(seen.begin(), seen.end());
  const QVariant chosen = rule_->currentData();
  const QSignalBlocker quiet(rule_);
  while (rule_->count() > 1) rule_->removeItem(1);
  for (const std::string_view rule : seen) {
    const QString words = to_qt(findings::rule_in_words(rule));
    rule_->addItem(words, words);
  }
  rule_->setCurrentIndex(std::max(0, chosen.isValid() ? rule_->findData(chosen) : 0));
}

void FindingsStation::tell_progress() {
  if (!watch_->failed().isEmpty()) return news_->setText(watch_->failed());
  const findings::Board& board = watch_->board();
  const std::size_t all = board.samples(), owed = std::min(board.owed(), all);
  QString words =
      tr("%1 open, of these %2 stop").arg(board.count(findings::Standing::open)).arg(board.count(findings::Severity::stop));
  if (owed > 0) words += QLatin1Char(' ') + tr("· %1 of %2 samples read").arg(all - owed).arg(all);
  if (!board.unread().empty()) words += QLatin1Char(' ') + tr("· %1 can’t be read").arg(board.unread().size());
  news_->setText(words);
}

RecordId FindingsStation::row_id(const findings::Noticed& noticed) const {
  const auto names = findings::rule_names();
  const auto place = std::find(names.begin(), names.end(), noticed.rule) - names.begin();
  return noticed.sample.value * RecordId(names.size()) + place;
}

std::vector<WaitingRow> FindingsStation::rows(int from, int count) const {
  std::vector<WaitingRow> list;
  for (std::size_t i = std::size_t(from); i < listed_.size() && list.size() < std::size_t(count); ++i) {
    const findings::Noticed& one = listed_[i];
    const auto sample = custody::sample(session_.connection, one.sample);
    if (!sample.ok()) continue;
    list.push_back({row_id(one), to_qt(sample->number), to_qt(findings::rule_in_words(one.rule)),
                    QStringLiteral("%1 · %2").arg(severity_word(severity_of(one.severity)), in_short(to_qt(sample->mark), 24)),
                    one.standing == findings::Standing::open ? urgency_of(one.severity) : Urgency::usual});
  }
  return list;
}

void FindingsStation::take(RecordId row) {
  const auto names = findings::rule_names();
  const RecordId many = RecordId(names.size());
  if (row <= 0) return;
  list_->take(row);
  page_->show_finding(SampleId{row / many}, std::string(names[std::size_t(row % many)]));
}

// What is in hand as it is now; else the first of the list.
void FindingsStation::take_what_stands() {
  if (const RecordId row = list_->in_hand())
    take(row);
  else if (!listed_.empty())
    take(row_id(listed_.front()));
}

void FindingsStation::enter() {
  watch_->begin();
  refresh();
  take_what_stands();
  list_->setFocus(Qt::OtherFocusReason);
}

}  // namespace prillbook::ui
