// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/findings/finding_page.h"

#include <QtWidgets/QLabel>
#include <QtWidgets/QLineEdit>
#include <QtWidgets/QVBoxLayout>

#include "core/custody/custody.h"
#include "ui/findings/findings_panel.h"
#include "ui/kit/figures.h"
#include "ui/kit/form.h"
#include "ui/kit/ledger.h"
#include "ui/kit/messages.h"
#include "ui/kit/press_button.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"

namespace prillbook::ui {
namespace {

constexpr int reading_width = 88 * rhythm;

QLabel* lines(TextSize size, bool quiet) {
  auto* label = new QLabel;
  label->setFont(face(size));
  label->setWordWrap(true);
  label->setTextFormat(Qt::PlainText);
  label->setMaximumWidth(reading_width);
  if (quiet) label->setProperty("tone", "quiet");
  return label;
}

QLabel* title_line(const QString& words) {
  QLabel* label = lines(TextSize::small, true);
  label->setText(words);
  return label;
}

}  // namespace

FindingPage::FindingPage(Session& session, QWidget* parent)
    : QWidget(parent),
      session_(session),
      head_(new Headline),
      row_place_(new QVBoxLayout),
      seen_(lines(TextSize::large, false)),
      held_(lines(TextSize::small, false)),
      why_(lines(TextSize::body, false)),
      to_do_(lines(TextSize::body, false)),
      source_(lines(TextSize::small, true)),
      body_(new QWidget),
      evidence_(new Ledger(tr("What was seen"))),
      explained_(lines(TextSize::body, false)),
      answer_(new TextField(tr("What explains it"))),
      past_(lines(TextSize::small, true)),
      sheet_(new PressButton(tr("Open the sample sheet"))),
      others_(new FindingsPanel(session)),
      others_fold_(new Fold(tr("All that was noticed of this sample"), others_)) {
  build();
}

void FindingPage::build() {
  auto* body = new QVBoxLayout(body_);
  body->setContentsMargins(0, 0, 0, 0);
  body->setSpacing(rhythm / 2);
  body->addWidget(title_line(tr("Why it matters")));
  body->addWidget(why_);
  body->addSpacing(rhythm);
  body->addWidget(title_line(tr("What to do")));
  body->addWidget(to_do_);
  body->addSpacing(rhythm);
  body->addWidget(title_line(tr("What was seen; Enter opens the record")));
  body->addWidget(evidence_);
  body->addWidget(source_);
  auto* column = new QVBoxLayout(this);
  column->setSpacing(rhythm);
  column->addWidget(head_);
  column->addWidget(hairline());
  row_place_->setContentsMargins(0, 0, 0, 0);
  column->addLayout(row_place_);
  column->addWidget(seen_);
  column->addWidget(held_);
  column->addWidget(explained_);
  column->addWidget(answer_);
  column->addWidget(body_);
  column->addWidget(past_);
  column->addWidget(others_fold_);
  column->addWidget(sheet_, 0, Qt::AlignLeft);
  column->addStretch();
  answer_->setMaximumWidth(reading_width);
  answer_->set_hint(tr("Enter writes it with your initials; it stands for this evidence only."));
  connect(sheet_, &QPushButton::clicked, this, [this] { emit open_requested({history::Entity::sample, sample_.value}); });
  connect(evidence_, &Ledger::opened, this, [this](RecordId row) {
    const findings::Evidence& one = behind_[std::size_t(row - 1)];
    if (one.record > 0) emit open_requested({one.entity, one.record});
  });
}

void FindingPage::show_nothing(const QString& words) {
  sample_ = {};
  rule_.clear();
  head_->set(tr("Findings"), {});
  seen_->setText(words);
  for (QWidget* widget : {static_cast<QWidget*>(held_), body_, static_cast<QWidget*>(explained_), static_cast<QWidget*>(answer_),
                          static_cast<QWidget*>(past_), static_cast<QWidget*>(sheet_), static_cast<QWidget*>(others_fold_)})
    widget->hide();
  delete row_;
  row_ = nullptr;
}

void FindingPage::show_finding(SampleId sample, const std::string& rule) {
  const auto standing = findings::findings_of(session_.connection, sample, session_.journal.clock().now());
  if (!standing.ok()) return show_nothing(sentence(standing.error()));
  sample_ = sample;
  rule_ = rule;
  show_head();
  const auto found = std::find_if(standing->begin(), standing->end(),
                                  [&](const findings::OpenOrAnswered& one) { return one.finding.rule == rule; });
  if (found == standing->end())
    show_gone();
  else
    show_open(*found);
  show_past(*standing);
  others_->show_sample(sample);
  others_fold_->setVisible(standing->size() > 1);
  sheet_->show();
}

void FindingPage::show_head() {
  const auto sample = custody::sample(session_.connection, sample_);
  if (!sample.ok()) return head_->set({}, sentence(sample.error()));
  head_->set(to_qt(sample->number), in_short(to_qt(sample->mark), 60));
}

void FindingPage::show_open(const findings::OpenOrAnswered& entry) {
  const findings::Finding& finding = entry.finding;
  delete row_;
  row_ = new FindingRow(severity_of(finding.severity), to_qt(findings::rule_in_words(finding.rule)));
  row_place_->addWidget(row_);
  seen_->setText(unbroken(to_qt(finding.seen)));
  why_->setText(to_qt(finding.why));
  to_do_->setText(to_qt(finding.to_do));
  source_->setText(tr("Source: %1").arg(to_qt(finding.source)));
  behind_ = finding.evidence;
  std::vector<LedgerRow> rows;
  for (const findings::Evidence& one : behind_)
    rows.push_back({RecordId(rows.size() + 1), 0, {}, to_qt(one.what), {}, false, to_qt(one.figure)});
  evidence_->set_rows(std::move(rows));
  body_->show();
  const bool stops = finding.severity == findings::Severity::stop && !entry.answer;
  held_->setText(tr("A summary with this sample is held back until this is answered, or goes out as preliminary."));
  held_->setVisible(stops);
  explained_->setVisible(entry.answer.has_value());
  if (entry.answer)
    explained_->setText(tr("Explained by %1 on %2: %3")
                            .arg(entry.answer->who.empty() ? tr("nobody named") : to_qt(entry.answer->who),
                                 date_text(entry.answer->when), to_qt(entry.answer->explanation)));
  answer_->setVisible(!entry.answer && !session_.read_only());
  if (!entry.answer) bind_answer(finding);
}

void FindingPage::show_gone() {
  delete row_;
  row_ = new FindingRow(Severity::note, to_qt(findings::rule_in_words(rule_)));
  row_place_->addWidget(row_);
  seen_->setText(tr("What was seen is gone: the records behind it are others now."));
  for (QWidget* widget : {static_cast<QWidget*>(held_), body_, static_cast<QWidget*>(explained_), static_cast<QWidget*>(answer_)})
    widget->hide();
}

// Answers to evidence that is no longer what it was.
void FindingPage::show_past(const std::vector<findings::OpenOrAnswered>& standing) {
  const auto past = findings::past_answers(session_.connection, sample_, standing);
  QStringList words;
  if (past.ok())
    for (const findings::PastAnswer& one : *past)
      if (one.rule == rule_)
        words << tr("Explained on %1 by %2, on other evidence: %3")
                     .arg(date_text(one.answer.when), one.answer.who.empty() ? tr("nobody named") : to_qt(one.answer.who),
                          to_qt(one.answer.explanation));
  past_->setText(words.join(QLatin1Char('\n')));
  past_->setVisible(!words.isEmpty());
}

void FindingPage::bind_answer(const findings::Finding& finding) {
  const std::string to = finding.scope() + finding.evidence_hash();
  if (to == bound_to_) return;
  bound_to_ = to;
  answer_->leave_record();
  answer_->on_commit([this, finding](const std::optional<std::string>& words) { return write_answer(finding, words); });
  answer_->keep_drafts(session_.drafts, QStringLiteral("finding/%1/%2").arg(to_qt(finding.scope()), to_qt(finding.rule)));
}

// An answer is taken as it is typed: Enter on an empty line writes nothing.
Result<void> FindingPage::write_answer(const findings::Finding& finding, const std::optional<std::string>& words) {
  if (!words) return {};
  return findings::answer(session_.journal, finding, *words);
}

void FindingPage::enter() {
  if (answer_->isVisibleTo(this))
    answer_->line()->setFocus(Qt::OtherFocusReason);
  else
    sheet_->setFocus(Qt::OtherFocusReason);
}

}  // namespace prillbook::ui
