// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/findings/findings_panel.h"

#include <QtWidgets/QLabel>
#include <QtWidgets/QLineEdit>
#include <QtWidgets/QToolButton>
#include <QtWidgets/QVBoxLayout>
#include <algorithm>

#include "ui/kit/figures.h"
#include "ui/kit/messages.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"

namespace prillbook::ui {
namespace {

QLabel* quiet_line(const QString& words) {
  auto* label = new QLabel(words);
  label->setFont(face(TextSize::small));
  label->setProperty("tone", "quiet");
  label->setTextFormat(Qt::PlainText);
  label->setWordWrap(true);
  label->setContentsMargins(3 * rhythm - 2, 0, 0, rhythm / 2);
  return label;
}

}  // namespace

Severity severity_of(findings::Severity severity) {
  switch (severity) {
    case findings::Severity::note: return Severity::note;
    case findings::Severity::caution: return Severity::caution;
    case findings::Severity::stop: return Severity::stop;
  }
  return Severity::note;
}

FindingsPanel::FindingsPanel(Session& session, QWidget* parent)
    : QWidget(parent), session_(session), column_(new QVBoxLayout(this)) {
  column_->setContentsMargins(0, 0, 0, 0);
  column_->setSpacing(0);
}

void FindingsPanel::show_sample(SampleId sample) {
  if (sample != sample_) {
    all_ = false;
    shown_.clear();
    explaining_ = nullptr;
  }
  sample_ = sample;
  refresh();
}

// Built anew only where the findings or their answers are others: words being typed into an answer stay.
void FindingsPanel::refresh() {
  using Found = std::vector<findings::OpenOrAnswered>;
  auto found =
      sample_ ? findings::findings_of(session_.connection, sample_, session_.journal.clock().now()) : Result<Found>(Found{});
  if (found.ok() && !only_.empty())
    std::erase_if(*found, [this](const findings::OpenOrAnswered& entry) {
      return std::find(only_.begin(), only_.end(), entry.finding.rule) == only_.end();
    });
  std::vector<std::string> shown;
  if (found.ok())
    for (const auto& entry : *found) shown.push_back(entry.finding.evidence_hash() + (entry.answer ? "+" : "-"));
  if (!found.ok()) shown.push_back(found.error().detail);
  shown.push_back(all_ ? "all" : "some");
  if (shown == shown_) return;
  shown_ = std::move(shown);
  explaining_ = nullptr;
  while (QLayoutItem* item = column_->takeAt(0)) {
    if (item->widget()) item->widget()->hide(), item->widget()->deleteLater();
    delete item;
  }
  open_count_ = 0;
  setVisible(!found.ok() || !found->empty());
  if (!found.ok()) return column_->addWidget(new FindingRow(Severity::stop, sentence(found.error())));
  for (const auto& entry : *found)
    if (!entry.answer && (++open_count_ <= open_at_once || all_)) add_open(entry.finding);
  if (open_count_ > open_at_once && !all_) {
    auto* more = new QToolButton;
    more->setText(tr("%n more…", nullptr, open_count_ - open_at_once));
    connect(more, &QToolButton::clicked, this, [this] { all_ = true, refresh(); });
    column_->addWidget(more, 0, Qt::AlignLeft);
  }
  for (const auto& entry : *found)
    if (entry.answer) add_answered(entry);
}

void FindingsPanel::add_open(const findings::Finding& finding) {
  auto* row = new FindingRow(severity_of(finding.severity), unbroken(to_qt(finding.seen)),
                             session_.read_only() ? QString() : tr("Explain"));
  row->setToolTip(to_qt(finding.why));
  column_->addWidget(row);
  auto* to_do = quiet_line(to_qt(finding.to_do));
  column_->addWidget(to_do);
  connect(row, &FindingRow::action_wanted, this, [this, finding, to_do] { explain(finding, to_do); });
}

void FindingsPanel::add_answered(const findings::OpenOrAnswered& entry) {
  const QString who = to_qt(entry.answer->who);
  column_->addWidget(quiet_line(tr("%1 Explained%2, %3: %4")
                                    .arg(unbroken(to_qt(entry.finding.seen)), who.isEmpty() ? QString() : tr(" by %1").arg(who),
                                         date_text(entry.answer->when), to_qt(entry.answer->explanation))));
}

void FindingsPanel::explain(const findings::Finding& finding, QWidget* after) {
  if (explaining_) explaining_->deleteLater();
  auto* words = new TextField(tr("What explains it"));
  words->set_hint(tr("Enter writes the answer; it stands for this evidence only."));
  words->on_commit([this, finding](const std::optional<std::string>& text) {
    return findings::answer(session_.journal, finding, text.value_or(std::string()));
  });
  words->setContentsMargins(3 * rhythm - 2, 0, 0, 0);
  words->keep_drafts(session_.drafts, QStringLiteral("finding/%1/%2").arg(to_qt(finding.scope()), to_qt(finding.rule)));
  explaining_ = words;
  column_->insertWidget(column_->indexOf(after) + 1, words);
  words->line()->setFocus(Qt::OtherFocusReason);
}

}  // namespace prillbook::ui
