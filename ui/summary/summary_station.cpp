// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/summary/summary_station.h"

#include <QtCore/QScopedValueRollback>
#include <QtCore/QTimer>
#include <QtWidgets/QComboBox>
#include <QtWidgets/QHBoxLayout>
#include <QtWidgets/QLabel>
#include <QtWidgets/QListWidget>
#include <QtWidgets/QPushButton>
#include <QtWidgets/QVBoxLayout>
#include <algorithm>

#include "core/custody/custody.h"
#include "core/lab/lab.h"
#include "core/summary/origins.h"
#include "ui/kit/bench.h"
#include "ui/kit/figures.h"
#include "ui/kit/form.h"
#include "ui/kit/messages.h"
#include "ui/kit/pages_view.h"
#include "ui/kit/press_button.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"
#include "ui/kit/waiting_list.h"
#include "ui/paper/paper.h"
#include "ui/summary/milling_panel.h"
#include "ui/summary/numbered.h"
#include "ui/summary/origins_view.h"
#include "ui/summary/own_words.h"
#include "ui/summary/report_run.h"
#include "ui/summary/summary_files.h"

namespace prillbook::ui {
namespace {

constexpr int sample_role = Qt::UserRole;
constexpr std::size_t most_previewed = 6;  // samples; the files hold all
constexpr double preview_dots_per_inch = 96;

std::vector<WaitingRow> rows(store::Connection& connection, int from, int count) {
  std::vector<WaitingRow> list;
  const auto clients = results::clients_with_samples(connection, count, from);
  if (!clients.ok()) return list;
  for (const auto& client : *clients) {
    const QString samples =
        client.samples == 1 ? SummaryStation::tr("1 sample") : SummaryStation::tr("%1 samples").arg(client.samples);
    const QString words = client.tested == 0 ? SummaryStation::tr("%1, no result yet").arg(samples)
                                             : SummaryStation::tr("%1, %2 with results").arg(samples).arg(client.tested);
    list.push_back({client.client.value, {}, to_qt(client.name), words, Urgency::usual});
  }
  return list;
}

}  // namespace

SummaryStation::SummaryStation(Session& session, QWidget* parent)
    : Station(parent),
      session_(session),
      waiting_(new WaitingList(tr("Clients with samples"))),
      head_(new Headline),
      consignments_(new QComboBox),
      samples_(new QListWidget),
      chosen_words_(new QLabel),
      stop_(new QPushButton(tr("Stop"))),
      numbered_(new NumberedSummaries(session)),
      news_(new MessageBar),
      cut_(new QLabel),
      pages_(new PagesView),
      origins_(new OriginsView),
      milling_(new MillingPanel(session)),
      own_words_(new OwnWords(session)),
      soon_(new QTimer(this)),
      preview_(new ReportRun(session.connection, session.journal.clock(), this)),
      file_(new ReportRun(session.connection, session.journal.clock(), this)) {
  auto* whole = new QVBoxLayout(this);
  whole->setContentsMargins(0, 0, 0, 0);
  whole->addWidget(new Bench(waiting_, build_in_hand()));
  soon_->setSingleShot(true);
  soon_->setInterval(120);
  connect(soon_, &QTimer::timeout, this, &SummaryStation::show_pages);
  waiting_->set_empty_words(tr("No client has brought a sample yet."));
  waiting_->read_from([this](int from, int count) { return rows(session_.connection, from, count); });
  connect(waiting_, &WaitingList::taken, this, [this](RecordId id) { take(ClientId{id}); });
  connect(waiting_, &WaitingList::opened, this, [this] { samples_->setFocus(Qt::OtherFocusReason); });
  connect(samples_, &QListWidget::itemChanged, this, [this] {
    if (!filling_) samples_chosen();
  });
  connect(numbered_, &NumberedSummaries::parts_changed, soon_, qOverload<>(&QTimer::start));
  connect(own_words_, &OwnWords::changed, soon_, qOverload<>(&QTimer::start));
  connect(consignments_, &QComboBox::activated, this,
          [this](int row) { choose_consignment(ConsignmentId{consignments_->itemData(row).toLongLong()}); });
  connect(numbered_, &NumberedSummaries::said, this, &SummaryStation::said);
  connect(preview_, &ReportRun::progressed, this, [this](int percent) {
    cut_->setText(tr("The pages are being drawn: %1 %").arg(percent));
    cut_->show();
  });
  connect(file_, &ReportRun::progressed, this,
          [this](int percent) { news_->say(tr("The file is being written: %1 %").arg(percent)); });
  connect(file_, &ReportRun::ended, this, &SummaryStation::set_buttons);
  connect(stop_, &QPushButton::clicked, this, &SummaryStation::stop_writing);
  show_samples();
}

SummaryStation::~SummaryStation() = default;

QWidget* SummaryStation::build_in_hand() {
  consignments_->setAccessibleName(tr("Consignment"));
  samples_->setAccessibleName(tr("Samples that go into the summary"));
  samples_->setFrameShape(QFrame::NoFrame);
  samples_->setFont(face(TextSize::body));
  samples_->setFixedHeight(15 * rhythm);
  samples_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  samples_->setTextElideMode(Qt::ElideRight);
  chosen_words_->setFont(face(TextSize::small));
  chosen_words_->setProperty("tone", "quiet");
  cut_->setFont(face(TextSize::small));
  cut_->setProperty("tone", "quiet");
  auto* files = new QHBoxLayout;
  const std::pair<FileKind, QString> kinds[] = {{FileKind::pdf, tr("Write as &PDF…")},
                                                {FileKind::spreadsheet, tr("as &spreadsheet…")},
                                                {FileKind::list, tr("as &list…")},
                                                {FileKind::plain, tr("as &JSON…")}};
  for (const auto& [kind, words] : kinds) {
    auto* button = new QPushButton(words);
    if (kind == FileKind::pdf) button->setProperty("main", true);
    connect(button, &QPushButton::clicked, this, [this, kind = kind] { write(kind); });
    files->addWidget(button);
    buttons_.push_back(button);
  }
  stop_->hide();
  files->addWidget(stop_);
  files->addStretch();
  auto* hand = new QWidget;
  auto* column = new QVBoxLayout(hand);
  column->setSpacing(rhythm);
  column->addWidget(head_);
  column->addWidget(hairline());
  column->addWidget(chosen_words_);
  column->addWidget(consignments_, 0, Qt::AlignLeft);
  column->addWidget(samples_);
  column->addLayout(files);
  column->addWidget(news_);
  column->addWidget(numbered_);
  column->addWidget(new Fold(tr("Account of a milling lot"), milling_));
  column->addWidget(new Fold(tr("Words of the lab, language"), own_words_));
  column->addWidget(hairline());
  column->addWidget(pages_);
  column->addWidget(cut_);
  column->addWidget(hairline());
  column->addWidget(origins_);
  column->addStretch();
  return hand;
}

StationPlace SummaryStation::place(Session& session) {
  return {tr("Summary"),
          Icon::summary,
          [&session] { return int(results::count_clients_with_results(session.connection).value_or(0)); },
          {history::Entity::client},
          [&session] { return new SummaryStation(session); }};
}

void SummaryStation::notebook_changed(const history::Written&) {
  waiting_->refresh();
  if (client_) show_samples();
}

bool SummaryStation::show_record(const RecordRef& wanted) {
  if (wanted.entity != history::Entity::client || !lab::client(session_.connection, ClientId{wanted.record}).ok()) return false;
  take(ClientId{wanted.record});
  return true;
}

void SummaryStation::take_sample(SampleId sample) {
  const auto record = results::load_sample_record(session_.connection, sample);
  if (!record.ok()) return;
  take(record->client.id);
  tick([sample](SampleId id) { return id == sample; });
}

void SummaryStation::tick(const std::function<bool(SampleId)>& wanted) {
  const QScopedValueRollback<bool> filling(filling_, true);
  for (int i = 0; i < samples_->count(); ++i) {
    QListWidgetItem* item = samples_->item(i);
    item->setCheckState(wanted(SampleId{item->data(sample_role).toLongLong()}) ? Qt::Checked : Qt::Unchecked);
  }
  samples_chosen();
}

// A draft begun at once is of these, however long the pages take.
void SummaryStation::samples_chosen() {
  numbered_->set_samples(chosen());
  soon_->start();
}

void SummaryStation::choose_consignment(ConsignmentId id) {
  std::vector<SampleId> wanted;
  if (id) {
    for (const custody::Sample& sample : custody::samples_of(session_.connection, id).value_or({})) wanted.push_back(sample.id);
  } else {
    for (const auto& sample : results::samples_for_summary(session_.connection, client_).value_or({}))
      if (sample.tested) wanted.push_back(sample.sample);
  }
  tick([&](SampleId one) { return std::find(wanted.begin(), wanted.end(), one) != wanted.end(); });
}

// In the order in which they came.
void SummaryStation::fill_consignments() {
  consignments_->clear();
  consignments_->addItem(tr("Samples with results"), qlonglong(0));
  for (const auto& one : results::consignments_of(session_.connection, client_).value_or({}))
    consignments_->addItem(tr("Consignment %1").arg(to_qt(one.number)), qlonglong(one.consignment.value));
  consignments_->setVisible(client_ && consignments_->count() > 1);
}

void SummaryStation::enter() {
  if (!client_) {
    const auto first = results::clients_with_samples(session_.connection, 1);
    if (first.ok() && !first->empty()) take(first->front().client);
  }
  waiting_->setFocus(Qt::OtherFocusReason);
}

void SummaryStation::take(ClientId client) {
  if (client == client_) return;
  client_ = client;
  waiting_->take(client.value);
  samples_->clear();
  news_->say({});
  show_samples();
}

// Samples with results are chosen at first; what the person chose since stays chosen.
void SummaryStation::show_samples() {
  const auto client = lab::client(session_.connection, client_);
  client_name_ = client.ok() ? to_qt(client->name) : QString();
  const QString shown = QFontMetrics(face(TextSize::large, Weight::bold)).elidedText(client_name_, Qt::ElideRight, 60 * rhythm);
  head_->set(client_ ? shown : tr("Summary"), client_ ? QString() : tr("choose whose samples it is to speak of"));
  for (QWidget* widget : {static_cast<QWidget*>(samples_), static_cast<QWidget*>(chosen_words_)})
    widget->setVisible(bool(client_));
  for (QPushButton* button : buttons_) button->setVisible(bool(client_));
  numbered_->setVisible(bool(client_));
  numbered_->show_client(client_);
  fill_consignments();
  if (!client_) return;
  QHash<qlonglong, Qt::CheckState> before;
  for (int i = 0; i < samples_->count(); ++i)
    before.insert(samples_->item(i)->data(sample_role).toLongLong(), samples_->item(i)->checkState());
  const auto samples = results::samples_for_summary(session_.connection, client_);
  const int row = samples_->currentRow();
  const QScopedValueRollback<bool> filling(filling_, true);
  samples_->clear();
  if (samples.ok())
    for (const auto& sample : *samples) {
      auto* item = new QListWidgetItem(
          QStringLiteral("%1  %2%3")
              .arg(to_qt(sample.number), to_qt(sample.mark), sample.tested ? QString() : tr("  (no result yet)")));
      item->setFlags(Qt::ItemIsUserCheckable | Qt::ItemIsEnabled | Qt::ItemIsSelectable);
      item->setData(sample_role, qlonglong(sample.sample.value));
      item->setCheckState(before.value(sample.sample.value, sample.tested ? Qt::Checked : Qt::Unchecked));
      samples_->addItem(item);
    }
  samples_->setCurrentRow(std::max(0, row));
  samples_chosen();
}

std::vector<SampleId> SummaryStation::chosen() const {
  std::vector<SampleId> list;
  for (int i = 0; i < samples_->count(); ++i)
    if (samples_->item(i)->checkState() == Qt::Checked)
      list.push_back(SampleId{samples_->item(i)->data(sample_role).toLongLong()});
  return list;
}

void SummaryStation::set_buttons() {
  for (QPushButton* button : buttons_) button->setEnabled(!chosen().empty() && !writing());
  stop_->setVisible(writing());
}

void SummaryStation::say_shown(std::size_t shown, std::size_t all) {
  cut_->setText(all > shown ? tr("The first %1 samples are shown; the file holds all %2.").arg(shown).arg(all) : QString());
  cut_->setVisible(all > shown);
}

// Those of the samples that are shown stand there until newer ones are drawn.
void SummaryStation::show_pages() {
  auto samples = chosen();
  chosen_words_->setText(
      tr("%1 of %2 samples go into the summary. Space takes one in or out.").arg(samples.size()).arg(samples_->count()));
  set_buttons();
  milling_->show_sample(samples.size() == 1 ? samples.front() : SampleId());
  const std::size_t all = samples.size();
  samples.resize(std::min(all, most_previewed));
  ReportRun::Plan plan;
  plan.summary = choice(samples);
  plan.gathered = [this](summary::Numbered&, ReportRun::Samples gathered) -> Result<void> {
    std::vector<summary::Origin> origins;
    for (const summary::SummarySample& sample : gathered)
      for (summary::Origin& origin : summary::origins_of(sample, session_.writing.mark)) origins.push_back(std::move(origin));
    origins_->show_origins(origins);
    return {};
  };
  const paper::Paper paper{numbered_->letter() ? paper::PaperSize::letter : paper::PaperSize::a4, {}};
  plan.make = [this, paper, shown = samples.size(), all, dots = preview_dots_per_inch * devicePixelRatioF()](
                  const summary::Numbered& numbered, const Watch& watch) -> std::function<void()> {
    auto images = shown > 0 ? paper::page_images(numbered.report, paper, dots, watch) : std::vector<QImage>();
    return [this, shown, all, images = std::move(images)] {
      pages_->set_pages(images);
      say_shown(shown, all);
    };
  };
  plan.refused = [this](const Error& error) {
    news_->refused(error);
    pages_->set_pages({});
  };
  preview_->begin(std::move(plan));
}

// Without a number, as the choice stands: what shows and what does not.
issue::Summary SummaryStation::choice(const std::vector<SampleId>& samples) const {
  const issue::NewDraft wish = numbered_->wish();
  issue::Summary choice;
  choice.samples = samples;
  choice.hidden = wish.hidden;
  choice.letter = wish.letter;
  choice.price = wish.price;
  choice.language = wish.language;
  choice.title = wish.title;
  choice.remarks = wish.remarks;
  return choice;
}

QString SummaryStation::suggested(const QString& ending) const {
  return file_name(client_name_, date_text(session_.journal.clock().now()), ending);
}

void SummaryStation::write(FileKind kind) {
  if (writing() || chosen().empty()) return;
  const FileWords words = words_of(kind);
  session_.prompter.choose_file({FilePurpose::save, tr("Write the summary"), words.filter, suggested(words.ending)},
                                [this, kind, ending = words.ending](const QString& path) {
                                  write_to(kind, path.endsWith(ending, Qt::CaseInsensitive) ? path : path + ending);
                                });
}

void SummaryStation::write_to(FileKind kind, const QString& path) {
  ReportRun::Plan plan;
  plan.summary = choice(chosen());
  plan.make = [this, kind, path, letter = numbered_->letter()](const summary::Numbered& numbered,
                                                               const Watch& watch) -> std::function<void()> {
    return
        [this, path, outcome = write_file(kind, numbered.report, to_core(path), letter, watch)] { end_writing(path, outcome); };
  };
  plan.refused = [this, path](const Error& error) { end_writing(path, error); };
  file_->begin(std::move(plan));
  news_->say(tr("Writing %1 …").arg(path));
  set_buttons();
}

void SummaryStation::stop_writing() { file_->stop(); }

bool SummaryStation::writing() const { return file_->busy(); }

void SummaryStation::end_writing(const QString& path, const Result<void>& result) {
  set_buttons();
  if (result.ok()) {
    news_->written(tr("Written: %1").arg(path));
    emit said(tr("Summary written: %1").arg(path));
  } else {
    news_->stop(file_sentence(result.error(), path));
  }
  emit finished(result.ok());
}

}  // namespace prillbook::ui
