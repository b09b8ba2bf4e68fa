// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/summary/numbered.h"

#include <QtCore/QSignalBlocker>
#include <QtWidgets/QGridLayout>
#include <QtWidgets/QHBoxLayout>
#include <QtWidgets/QLabel>
#include <QtWidgets/QLineEdit>
#include <QtWidgets/QListWidget>
#include <QtWidgets/QPushButton>
#include <QtWidgets/QVBoxLayout>

#include "core/exchange/key_file.h"
#include "core/lab/lab.h"
#include "core/store/part_file.h"
#include "ui/kit/figures.h"
#include "ui/kit/messages.h"
#include "ui/kit/press_button.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"
#include "ui/paper/paper.h"
#include "ui/summary/draft_fields.h"
#include "ui/summary/report_run.h"
#include "ui/summary/summary_files.h"

namespace prillbook::ui {
NumberedSummaries::NumberedSummaries(Session& session, QWidget* parent)
    : QWidget(parent),
      session_(session),
      fields_(new DraftFields(session)),
      list_(new QListWidget),
      begin_(new QPushButton(tr("&Begin a draft"))),
      put_in_(new QPushButton(tr("Put the ticked samples in"))),
      drop_(new QPushButton(tr("Drop the draft"))),
      issue_(new QPushButton(tr("Iss&ue"))),
      preliminary_(new QPushButton(tr("Issue as pre&liminary"))),
      amend_(new QPushButton(tr("A&mend"))),
      print_(new QPushButton(tr("Print agai&n…"))),
      stop_(new QPushButton(tr("Stop"))),
      reason_(new QWidget),
      changed_(new QLineEdit),
      why_(new QLineEdit),
      signing_(new Signing(session)),
      news_(new MessageBar),
      painting_(new ReportRun(session.connection, session.journal.clock(), this)) {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(rhythm);
  column->addWidget(fields_);
  list_->setAccessibleName(tr("Numbered summaries of this client"));
  list_->setFrameShape(QFrame::NoFrame);
  list_->setFont(face(TextSize::body));
  list_->setFixedHeight(8 * rhythm);
  list_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  column->addWidget(list_);
  auto* buttons = new QHBoxLayout;
  for (QPushButton* button : {begin_, put_in_, issue_, preliminary_, amend_, print_, drop_, stop_}) buttons->addWidget(button);
  buttons->addStretch();
  column->addLayout(buttons);
  column->addWidget(reason_);
  column->addWidget(news_);
  column->addWidget(new Fold(tr("Sign what is issued"), signing_));
  build_reason();
  fields_->on_change([this] { return change_draft(); });
  connect(fields_, &DraftFields::changed, this, &NumberedSummaries::parts_changed);
  connect(fields_, &DraftFields::refused, this, [this](const Error& error) { news_->refused(error); });
  connect(list_, &QListWidget::currentRowChanged, this, &NumberedSummaries::take_up);
  connect(begin_, &QPushButton::clicked, this, &NumberedSummaries::begin_draft);
  connect(put_in_, &QPushButton::clicked, this, &NumberedSummaries::put_samples_in);
  connect(drop_, &QPushButton::clicked, this, &NumberedSummaries::drop_draft);
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

// Asked before an issued summary is amended.
void NumberedSummaries::build_reason() {
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
}

void NumberedSummaries::show_client(ClientId client) {
  const bool another = client != client_;
  client_ = client;
  if (another) {
    news_->say({});
    fields_->leave_draft();
    fields_->show_client(client);
  }
  const issue::Summary* held = another ? nullptr : chosen();
  fill(held ? held->number : std::string());
}

void NumberedSummaries::set_samples(std::vector<SampleId> samples) {
  samples_ = std::move(samples);
  begin_->setEnabled(!samples_.empty());
  choose();
}

issue::NewDraft NumberedSummaries::wish() const {
  issue::NewDraft wish = fields_->wish();
  wish.client = client_;
  wish.samples = samples_;
  return wish;
}

std::vector<std::string> NumberedSummaries::hidden() const { return fields_->wish().hidden; }

bool NumberedSummaries::letter() const { return fields_->wish().letter; }

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
  const QSignalBlocker quiet(list_);
  list_->clear();
  int row = all_.empty() ? -1 : 0;
  for (std::size_t i = 0; i < all_.size(); ++i) {
    list_->addItem(line_of(all_[i]));
    if (all_[i].number == choose_number) row = int(i);
  }
  list_->setVisible(!all_.empty());
  list_->setCurrentRow(row);
  take_up();
}

const issue::Summary* NumberedSummaries::chosen() const {
  const int row = list_->currentRow();
  return row >= 0 && std::size_t(row) < all_.size() ? &all_[std::size_t(row)] : nullptr;
}

// Another summary in the list is in hand: a draft shows what it says.
void NumberedSummaries::take_up() {
  const issue::Summary* held = chosen();
  const SummaryId before = std::exchange(in_hand_, held ? held->id : SummaryId());
  if (in_hand_ != before) {
    held && !held->is_issued() ? fields_->show_draft(*held) : fields_->leave_draft();
    emit parts_changed();
  }
  choose();
}

// What can be done with the summary in hand.
void NumberedSummaries::choose() {
  const issue::Summary* held = chosen();
  const bool draft = held && !held->is_issued();
  issue_->setVisible(draft);
  issue_->setEnabled(!issuing());
  drop_->setVisible(draft);
  put_in_->setVisible(draft && !samples_.empty() && held->samples != samples_);
  stop_->setVisible(issuing());
  preliminary_->hide();
  print_->setVisible(held && held->is_issued());
  amend_->setVisible(held && held->is_issued());
  reason_->setVisible(held && held->is_issued());
}

// What the fields say is written to the draft in hand; without one it is kept for the next.
Result<void> NumberedSummaries::change_draft() {
  const issue::Summary* held = chosen();
  if (!held || held->is_issued()) return {};
  issue::NewDraft wanted = wish();
  wanted.samples = held->samples;
  return rewrite(*held, wanted);
}

Result<void> NumberedSummaries::rewrite(const issue::Summary& draft, const issue::NewDraft& wanted) {
  const std::string number = draft.number;
  PRILLBOOK_TRY(issue::change_draft(session_.journal, draft.id, wanted));
  fill(number);
  return {};
}

void NumberedSummaries::put_samples_in() {
  const issue::Summary* held = chosen();
  if (!held || held->is_issued()) return;
  const std::string number = held->number;
  if (const auto written = rewrite(*held, wish()); !written.ok()) return news_->refused(written.error());
  news_->written(tr("%1 speaks of the samples that are ticked.").arg(to_qt(number)));
}

void NumberedSummaries::drop_draft() {
  const issue::Summary* held = chosen();
  if (!held) return;
  const QString number = to_qt(held->number);
  if (const auto dropped = issue::drop_draft(session_.journal, held->id); !dropped.ok()) return news_->refused(dropped.error());
  fill({});
  news_->written(tr("%1 is dropped; its number is not given again.").arg(number));
}

void NumberedSummaries::begin_draft() {
  const auto made = issue::begin_draft(session_.journal, wish());
  if (!made.ok()) return news_->refused(made.error());
  const auto draft = issue::summary(session_.connection, *made);
  if (!draft.ok()) return news_->refused(draft.error());
  fill(draft->number);
  news_->written(tr("%1 is begun. It can be changed until it is issued.").arg(to_qt(draft->number)));
}

// Beside: opening the key takes its time on purpose, and painting many samples does.
std::shared_ptr<Result<NumberedSummaries::Painted>> NumberedSummaries::paint_and_open(const summary::Numbered& numbered,
                                                                                      bool letter,
                                                                                      const std::optional<Signing::Wish>& sign,
                                                                                      const Watch& watch) {
  const auto attempt = [&]() -> Result<Painted> {
    Painted painted;
    if (sign) {
      PRILLBOOK_ASSIGN(issue::LabKey key, exchange::open_key_file(sign->file, sign->passphrase));
      painted.key = std::make_shared<issue::LabKey>(std::move(key));
    }
    PRILLBOOK_ASSIGN(painted.pdf,
                     paper::pdf_bytes(numbered.report, {letter ? paper::PaperSize::letter : paper::PaperSize::a4, {}}, watch));
    return painted;
  };
  return std::make_shared<Result<Painted>>(attempt());
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
  if (const QString missing = signing_->missing(); !missing.isEmpty()) return news_->stop(missing);
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
  plan.make = [this, wish, ready, number, over, sign = signing_->wish()](const summary::Numbered& numbered,
                                                                         const Watch& watch) -> std::function<void()> {
    const auto made = paint_and_open(numbered, ready->draft.letter, sign, watch);
    return [this, wish, ready, number, over, made] { keep(number, wish, *ready, over, *made); };
  };
  plan.refused = [this, number, over](const Error& error) { end_issue(number, over, error); };
  painting_->begin(std::move(plan));
  choose();
}

void NumberedSummaries::keep(const std::string& number, exchange::IssueWish wish, const exchange::Prepared& ready, bool over,
                             const Result<Painted>& painted) {
  if (!painted.ok()) return end_issue(number, over, painted.error());
  wish.key = painted->key.get();
  end_issue(number, over, exchange::keep_issued(session_.journal, wish, ready, painted->pdf));
}

void NumberedSummaries::end_issue(const std::string& number, bool over, const Result<void>& issued) {
  if (issued.ok()) {
    fill(number);
    news_->written((over ? tr("%1 is issued as preliminary and kept: from now on it is amended, not changed.")
                         : tr("%1 is issued and kept: from now on it is amended, not changed."))
                       .arg(to_qt(number)));
    emit said(tr("Summary %1 issued").arg(to_qt(number)));
  } else if (const Error& error = issued.error(); error.field == "passphrase") {
    choose();
    news_->stop(tr("%1 is not issued: the passphrase does not open the key.").arg(to_qt(number)));
  } else if (error.code == ErrorCode::conflict && !error.arguments.empty()) {
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
  const auto written = store::write_whole(to_core(path), *bytes);
  if (!written.ok()) return news_->stop(file_sentence(written.error(), path));
  news_->written(tr("Written as it was issued: %1").arg(path));
}

}  // namespace prillbook::ui
