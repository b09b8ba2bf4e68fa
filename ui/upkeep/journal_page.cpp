// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/upkeep/journal_page.h"

#include <QtCore/QLocale>
#include <QtCore/QThread>
#include <QtCore/QTimer>
#include <QtWidgets/QHBoxLayout>
#include <QtWidgets/QLabel>
#include <QtWidgets/QVBoxLayout>
#include <optional>

#include "core/exchange/journal_csv.h"
#include "core/versions/names.h"
#include "ui/kit/fields.h"
#include "ui/kit/form.h"
#include "ui/kit/messages.h"
#include "ui/kit/press_button.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"
#include "ui/upkeep/history_table.h"

namespace prillbook::ui {
namespace {

constexpr std::size_t page_size = 100;

}  // namespace

JournalPage::JournalPage(Session& session, QWidget* parent)
    : QWidget(parent),
      session_(session),
      head_(new Headline),
      list_(new PressButton(tr("Write as CSV…"))),
      who_(new PickField(tr("Who"))),
      kind_(new PickField(tr("Record"))),
      from_(new DateTimeField(tr("From"), session.journal.clock())),
      until_(new DateTimeField(tr("Until"), session.journal.clock())),
      words_(new TextField(tr("Words"))),
      news_(new MessageBar),
      table_(new HistoryTable(tr("Journal"))),
      whole_(new QLabel),
      timer_(new QTimer(this)) {
  auto* whole = new QVBoxLayout(this);
  whole->setContentsMargins(3 * rhythm, 2 * rhythm, 3 * rhythm, rhythm);
  whole->setSpacing(rhythm);
  auto* top = new QHBoxLayout;
  top->addWidget(head_, 1);
  top->addWidget(list_, 0, Qt::AlignTop);
  whole->addLayout(top);
  whole->addWidget(build_filters());
  whole->addWidget(news_);
  whole->addWidget(table_, 1);
  whole->addWidget(hairline());
  whole_->setFont(face(TextSize::body));
  whole_->setWordWrap(true);
  whole->addWidget(whole_);
  table_->set_empty_words(tr("No entry fits."));
  timer_->setSingleShot(true);
  connect(timer_, &QTimer::timeout, this, &JournalPage::read_on);
  connect(table_, &HistoryTable::end_reached, this, &JournalPage::read_more);
  connect(table_, &HistoryTable::taken, this, [this] { whole_->setText(table_->whole_words()); });
  connect(table_, &HistoryTable::opened, this, [this](qint64 entity, qint64 record) {
    emit open_requested({history::Entity(entity), record});
  });
  connect(list_, &QPushButton::clicked, this, &JournalPage::write_list);
  news_->hide();
}

JournalPage::~JournalPage() {
  if (!worker_) return;
  cancellation_->request();
  worker_->wait();
  delete worker_;
}

QWidget* JournalPage::build_filters() {
  auto* part = new QWidget;
  auto* row = new QHBoxLayout(part);
  row->setContentsMargins(0, 0, 0, 0);
  row->setSpacing(3 * rhythm);
  row->addWidget(who_, 2);
  row->addWidget(kind_, 3);
  row->addWidget(from_, 4);
  row->addWidget(until_, 4);
  row->addWidget(words_, 5);
  const auto narrow = [this](auto&& change) {
    versions::JournalFilter filter = filter_;
    change(filter);
    set_filter(filter);
    return Result<void>{};
  };
  who_->on_commit([this, narrow](std::optional<std::int64_t> who) {
    return narrow([&](auto& filter) { filter.who = who ? authors_[std::size_t(*who) - 1] : ""; });
  });
  kind_->on_commit([narrow](std::optional<std::int64_t> kind) {
    return narrow([&](auto& filter) { filter.kind = kind ? std::optional(history::Entity(*kind)) : std::nullopt; });
  });
  from_->on_commit([narrow](std::optional<Instant> from) {
    return narrow([&](auto& filter) { filter.from_ms = from ? std::optional(from->utc_ms) : std::nullopt; });
  });
  until_->on_commit([narrow](std::optional<Instant> until) {
    return narrow([&](auto& filter) { filter.until_ms = until ? std::optional(until->utc_ms) : std::nullopt; });
  });
  words_->on_commit([narrow](const std::optional<std::string>& words) {
    return narrow([&](auto& filter) { filter.words = words.value_or(""); });
  });
  return part;
}

void JournalPage::fill_choices() {
  authors_ = versions::authors(session_.connection).value_or({});
  std::vector<PickField::Item> people, kinds;
  for (std::size_t i = 0; i < authors_.size(); ++i) people.push_back({std::int64_t(i) + 1, to_qt(authors_[i])});
  for (const history::EntitySpec& entity : history::catalogue())
    kinds.push_back({std::int64_t(entity.entity), to_qt(versions::kind_name(entity))});
  who_->set_items(std::move(people));
  kind_->set_items(std::move(kinds));
}

void JournalPage::enter() {
  fill_choices();
  refresh();
  table_->setFocus();
}

void JournalPage::set_filter(const versions::JournalFilter& filter) {
  filter_ = filter;
  refresh();
}

void JournalPage::refresh() {
  table_->lines().clear();
  reader_ = std::make_unique<versions::JournalReader>(session_.connection, filter_);
  total_ = versions::entries(session_.connection).value_or(0);
  looked_at_ = 0;
  wanted_ = 0;
  end_ = false;
  read_more();
  table_->selectRow(0);
}

int JournalPage::count() const { return table_->lines().rowCount(); }
bool JournalPage::reading() const { return wanted_ > 0 && !end_; }

void JournalPage::read_more() {
  if (end_ || !reader_ || reading()) return;
  wanted_ = page_size;
  read_on();
}

void JournalPage::read_on() {
  if (!reading()) return;
  const auto page = reader_->next(wanted_);
  if (!page) {
    end_ = true;
    news_->refused(page.error());
    news_->show();
    return;
  }
  end_ = page->end;
  looked_at_ += page->looked_at;
  wanted_ -= page->versions.size();
  table_->lines().append(session_.connection, page->versions);
  if (table_->currentIndex().row() < 0 && count() > 0) table_->selectRow(0);
  if (end_) wanted_ = 0;
  if (reading()) timer_->start(0);
  show_state();
}

void JournalPage::show_state() {
  whole_->setText(table_->whole_words());
  const QLocale locale = QLocale::c();
  const QString all = locale.toString(qlonglong(total_)).replace(',', ' ');
  const bool filtered = !(filter_ == versions::JournalFilter{});
  if (!filtered) return head_->set(tr("Journal"), tr("%1 entries").arg(all));
  const int percent = total_ > 0 ? int(100 * looked_at_ / total_) : 100;
  if (end_) return head_->set(tr("Journal"), tr("%1 of %2 entries fit").arg(count()).arg(all));
  head_->set(tr("Journal"), reading() ? tr("looking through %1 entries, %2 %").arg(all).arg(percent)
                                      : tr("%1 fit among the newest %2 % of %3 entries").arg(count()).arg(percent).arg(all));
}

void JournalPage::write_list() {
  if (worker_) return cancellation_->request();
  session_.prompter.choose_file(
      {FilePurpose::save, tr("Write the journal"), tr("Lists (*.csv)"), QStringLiteral("journal.csv")},
      [this](const QString& path) {
        write_to(path.endsWith(QLatin1String(".csv"), Qt::CaseInsensitive) ? path : path + QStringLiteral(".csv"));
      });
}

void JournalPage::write_to(const QString& path) {
  cancellation_ = std::make_shared<Cancellation>();
  auto outcome = std::make_shared<std::optional<Result<exchange::JournalList>>>();
  worker_ = QThread::create(
      [outcome, stop = cancellation_, notebook = session_.connection.path(), filter = filter_, to = to_core(path)] {
        const auto written = [&]() -> Result<exchange::JournalList> {
          PRILLBOOK_ASSIGN(const auto connection, store::Connection::open(notebook, store::Access::read_only));
          return exchange::write_journal(*connection, filter, to, stop.get());
        };
        outcome->emplace(written());
      });
  connect(worker_, &QThread::finished, this, [this, path, outcome] {
    worker_->deleteLater();
    worker_ = nullptr;
    list_->setText(tr("Write as CSV…"));
    const auto& list = **outcome;
    if (list)
      news_->written(tr("Written: %1 (%n entries)", nullptr, int(list->lines)).arg(path));
    else
      news_->stop(file_sentence(list.error(), path));
    if (list) emit said(tr("Written: %1").arg(path));
    emit written(list.ok());
  });
  list_->setText(tr("Stop writing"));
  news_->say(tr("Writing %1 …").arg(path));
  news_->show();
  worker_->start();
}

}  // namespace prillbook::ui
