// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/summary/numbered.h"

#include <QtWidgets/QCheckBox>
#include <QtWidgets/QComboBox>
#include <QtWidgets/QGridLayout>
#include <QtWidgets/QHBoxLayout>
#include <QtWidgets/QLabel>
#include <QtWidgets/QLineEdit>
#include <QtWidgets/QListWidget>
#include <QtWidgets/QPushButton>
#include <QtWidgets/QVBoxLayout>

#include "core/exchange/issue_summary.h"
#include "core/exchange/part_file.h"
#include "core/lab/lab.h"
#include "ui/kit/figures.h"
#include "ui/kit/messages.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"
#include "ui/paper/paper.h"
#include "ui/summary/report_run.h"
#include "ui/summary/summary_files.h"

namespace prillbook::ui {
namespace {

QString part_words(std::string_view part) {
  if (part == "pictures") return NumberedSummaries::tr("Pan and fire picture");
  if (part == "sieves") return NumberedSummaries::tr("Sieve curves");
  if (part == "photographs") return NumberedSummaries::tr("Photographs");
  if (part == "custody") return NumberedSummaries::tr("Dates and hands");
  if (part == "methods") return NumberedSummaries::tr("Methods");
  return NumberedSummaries::tr("Every test");
}

}  // namespace

NumberedSummaries::NumberedSummaries(Session& session, QWidget* parent)
    : QWidget(parent),
      session_(session),
      list_(new QListWidget),
      paper_(new QComboBox),
      begin_(new QPushButton(tr("&Begin a draft"))),
      issue_(new QPushButton(tr("Iss&ue"))),
      preliminary_(new QPushButton(tr("Issue as pre&liminary"))),
      amend_(new QPushButton(tr("A&mend"))),
      print_(new QPushButton(tr("Print agai&n…"))),
      stop_(new QPushButton(tr("St&op"))),
      reason_(new QWidget),
      changed_(new QLineEdit),
      why_(new QLineEdit),
      news_(new MessageBar),
      painting_(new ReportRun(session.connection, session.journal.clock(), this)) {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(rhythm);
  auto* shown = new QGridLayout;
  shown->setHorizontalSpacing(2 * rhythm);
  shown->setVerticalSpacing(rhythm);
  constexpr int abreast = 4;  // what a window of 1280 pixels has room for
  int place = 0;
  for (const std::string_view part : issue::parts()) {
    auto* box = new QCheckBox(part_words(part));
    box->setChecked(true);
    connect(box, &QCheckBox::toggled, this, &NumberedSummaries::parts_changed);
    parts_.push_back(box);
    shown->addWidget(box, place / abreast, place % abreast);
    ++place;
  }
  paper_->addItems({tr("A4"), tr("Letter")});
  paper_->setAccessibleName(tr("Paper"));
  connect(paper_, &QComboBox::currentIndexChanged, this, &NumberedSummaries::parts_changed);
  shown->addWidget(paper_, place / abreast, place % abreast, Qt::AlignLeft);
  shown->setColumnStretch(abreast, 1);
  column->addLayout(shown);
  list_->setAccessibleName(tr("Numbered summaries of this client"));
  list_->setFrameShape(QFrame::NoFrame);
  list_->setFont(face(TextSize::body));
  list_->setFixedHeight(8 * rhythm);
  list_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  connect(list_, &QListWidget::currentRowChanged, this, &NumberedSummaries::choose);
  column->addWidget(list_);
  auto* buttons = new QHBoxLayout;
  for (QPushButton* button : {begin_, issue_, preliminary_, amend_, print_, stop_}) buttons->addWidget(button);
  buttons->addStretch();
  column->addLayout(buttons);
  auto* lines = new QGridLayout(reason_);
  lines->setContentsMargins(0, 0, 0, 0);
  int row = 0;
  for (const auto& [edit, words] : {std::pair{changed_, tr("What is different")}, {why_, tr("Why")}}) {
    auto* label = new QLabel(words);
    label->setBuddy(edit);
    edit->setAccessibleName(words);
    lines->addWidget(label, row, 0);
    lines->addWidget(edit, row++, 1);
  }
  column->addWidget(reason_);
  column->addWidget(news_);
  connect(begin_, &QPushButton::clicked, this, &NumberedSummaries::begin_draft);
  connect(issue_, &QPushButton::clicked, this, &NumberedSummaries::issue_chosen);
  connect(preliminary_, &QPushButton::clicked, this, &NumberedSummaries::issue_as_preliminary);
  connect(amend_, &QPushButton::clicked, this, &NumberedSummaries::amend_chosen);
  connect(print_, &QPushButton::clicked, this, &NumberedSummaries::print_again);
  connect(stop_, &QPushButton::clicked, this, &NumberedSummaries::stop_issuing);
  connect(painting_, &ReportRun::progressed, this,
          [this](int percent) { news_->say(tr("The pages are being painted: %1 %").arg(percent)); });
  connect(painting_, &ReportRun::ended, this, &NumberedSummaries::choose);
  choose();
}

void NumberedSummaries::show_client(ClientId client) {
  const bool another = client != client_;
  client_ = client;
  if (another) news_->say({});
  const issue::Summary* held = another ? nullptr : chosen();
  fill(held ? held->number : std::string());
}

void NumberedSummaries::set_samples(std::vector<SampleId> samples) {
  samples_ = std::move(samples);
  begin_->setEnabled(!samples_.empty());
}

std::vector<std::string> NumberedSummaries::hidden() const {
  std::vector<std::string> names;
  for (std::size_t i = 0; i < parts_.size(); ++i)
    if (!parts_[i]->isChecked()) names.emplace_back(issue::parts()[i]);
  return names;
}

bool NumberedSummaries::letter() const { return paper_->currentIndex() == 1; }

QString NumberedSummaries::line_of(const issue::Summary& one) {
  const QString number = to_qt(one.number);
  const QString samples = one.samples.size() == 1 ? tr("1 sample") : tr("%1 samples").arg(one.samples.size());
  if (!one.is_issued()) return tr("%1  draft, %2").arg(number, samples);
  QString words = one.preliminary ? tr("%1  issued %2 as preliminary, %3") : tr("%1  issued %2, %3");
  words = words.arg(number, date_text(*one.issued_at), samples);
  const auto next = issue::amended_by(session_.connection, one.id);
  return next.ok() && *next ? tr("%1; %2 took its place").arg(words, to_qt((*next)->number)) : words;
}

void NumberedSummaries::fill(const std::string& choose_number) {
  const auto found = client_ ? issue::summaries(session_.connection, client_) : Result(std::vector<issue::Summary>());
  if (!found.ok()) news_->refused(found.error());
  all_ = found.value_or(std::vector<issue::Summary>());
  list_->clear();
  int row = all_.empty() ? -1 : 0;
  for (std::size_t i = 0; i < all_.size(); ++i) {
    list_->addItem(line_of(all_[i]));
    if (all_[i].number == choose_number) row = int(i);
  }
  list_->setVisible(!all_.empty());
  list_->setCurrentRow(row);
  choose();
}

const issue::Summary* NumberedSummaries::chosen() const {
  const int row = list_->currentRow();
  return row >= 0 && std::size_t(row) < all_.size() ? &all_[std::size_t(row)] : nullptr;
}

// What can be done with the summary in hand.
void NumberedSummaries::choose() {
  const issue::Summary* held = chosen();
  issue_->setVisible(held && !held->is_issued());
  issue_->setEnabled(!issuing());
  stop_->setVisible(issuing());
  preliminary_->hide();
  print_->setVisible(held && held->is_issued());
  amend_->setVisible(held && held->is_issued());
  reason_->setVisible(held && held->is_issued());
}

void NumberedSummaries::begin_draft() {
  const auto made = issue::begin_draft(session_.journal, {client_, samples_, hidden(), letter(), {}});
  if (!made.ok()) return news_->refused(made.error());
  const auto draft = issue::summary(session_.connection, *made);
  if (!draft.ok()) return news_->refused(draft.error());
  fill(draft->number);
  news_->written(tr("%1 is begun. It can be changed until it is issued.").arg(to_qt(draft->number)));
}

void NumberedSummaries::issue_chosen() { freeze(false); }

void NumberedSummaries::issue_as_preliminary() { freeze(true); }

void NumberedSummaries::stop_issuing() { painting_->stop(); }

bool NumberedSummaries::issuing() const { return painting_->busy(); }

// Gathered here, painted beside, and kept only where nothing was written in between.
void NumberedSummaries::freeze(bool over) {
  const issue::Summary* held = chosen();
  if (!held || issuing()) return;
  const std::string number = held->number;
  const auto person = lab::person_by_initials(session_.connection, session_.journal.author());
  if (!person.ok()) return news_->stop(tr("Say first who is working: a summary is issued by somebody."));
  const exchange::IssueWish wish{held->id, person->id, nullptr, over};
  auto draft = exchange::draft_to_issue(session_.connection, wish, session_.journal.clock().now());
  if (!draft.ok()) return end_issue(number, over, draft.error());
  const auto ready = std::make_shared<exchange::Prepared>();
  ReportRun::Plan plan;
  plan.summary = *draft;
  plan.gathered = [this, wish, ready, draft = *draft](summary::Numbered& numbered, ReportRun::Samples) -> Result<void> {
    PRILLBOOK_ASSIGN(*ready, exchange::prepared(session_.connection, wish, draft, numbered));
    return {};
  };
  plan.make = [this, wish, ready, number, over](const summary::Numbered& numbered,
                                                const Watch& watch) -> std::function<void()> {
    const paper::Paper paper{ready->draft.letter ? paper::PaperSize::letter : paper::PaperSize::a4, {}};
    return [this, wish, ready, number, over, pdf = paper::pdf_bytes(numbered.report, paper, watch)] {
      end_issue(number, over, pdf.ok() ? exchange::keep_issued(session_.journal, wish, *ready, *pdf) : pdf.error());
    };
  };
  plan.refused = [this, number, over](const Error& error) { end_issue(number, over, error); };
  painting_->begin(std::move(plan));
  choose();
}

void NumberedSummaries::end_issue(const std::string& number, bool over, const Result<void>& issued) {
  if (issued.ok()) {
    fill(number);
    news_->written((over ? tr("%1 is issued as preliminary and kept: from now on it is amended, not changed.")
                         : tr("%1 is issued and kept: from now on it is amended, not changed."))
                       .arg(to_qt(number)));
    emit said(tr("Summary %1 issued").arg(to_qt(number)));
  } else if (const Error& error = issued.error(); error.code == ErrorCode::conflict && !error.arguments.empty()) {
    choose();
    preliminary_->show();
    news_->stop(tr("%1 is held back until this finding is answered, or goes out as preliminary: %2")
                    .arg(to_qt(number), to_qt(error.arguments.front())));
  } else {
    news_->refused(error);
  }
  emit issue_ended(issued.ok());
}

void NumberedSummaries::amend_chosen() {
  const issue::Summary* held = chosen();
  if (!held) return;
  if (changed_->text().trimmed().isEmpty() || why_->text().trimmed().isEmpty()) {
    news_->stop(tr("Say what is different and why: both are printed."));
    return (changed_->text().trimmed().isEmpty() ? changed_ : why_)->setFocus(Qt::OtherFocusReason);
  }
  const std::string old = held->number;
  const auto made = issue::amend(session_.journal, held->id, to_core(changed_->text()), to_core(why_->text()));
  if (!made.ok()) return news_->refused(made.error());
  const auto draft = issue::summary(session_.connection, *made);
  if (!draft.ok()) return news_->refused(draft.error());
  changed_->clear(), why_->clear();
  fill(draft->number);
  news_->written(tr("%1 is begun; once issued it takes the place of %2.").arg(to_qt(draft->number), to_qt(old)));
}

void NumberedSummaries::print_again() {
  const issue::Summary* held = chosen();
  if (!held) return;
  const FileWords words = words_of(FileKind::pdf);
  session_.prompter.choose_file(
      {FilePurpose::save, tr("Write the issued summary again"), words.filter, to_qt(held->number) + words.ending},
      [this, ending = words.ending](const QString& path) {
        print_to(path.endsWith(ending, Qt::CaseInsensitive) ? path : path + ending);
      });
}

void NumberedSummaries::print_to(const QString& path) {
  const issue::Summary* held = chosen();
  if (!held) return;
  const auto bytes = issue::issued_pdf(session_.connection, held->id);
  if (!bytes.ok()) return news_->refused(bytes.error());
  const auto written = exchange::write_whole(to_core(path), *bytes);
  if (!written.ok()) return news_->stop(file_sentence(written.error(), path));
  news_->written(tr("Written as it was issued: %1").arg(path));
}

}  // namespace prillbook::ui
