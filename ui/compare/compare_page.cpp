// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/compare/compare_page.h"

#include <QtWidgets/QGridLayout>
#include <QtWidgets/QLabel>
#include <QtWidgets/QLineEdit>
#include <QtWidgets/QPushButton>
#include <QtWidgets/QToolButton>
#include <QtWidgets/QVBoxLayout>

#include "core/summary/next_test.h"
#include "core/summary/picture.h"
#include "core/summary/words.h"
#include "ui/compare/doubt_bars.h"
#include "ui/compare/draws_panel.h"
#include "ui/compare/figure_lines.h"
#include "ui/kit/figures.h"
#include "ui/kit/form.h"
#include "ui/kit/interval_scale.h"
#include "ui/kit/messages.h"
#include "ui/kit/press_button.h"
#include "ui/kit/reason_line.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"

namespace prillbook::ui {
namespace {

constexpr int most_open = 3, mark_length = 60;

QLabel* words_label(TextSize size, bool quiet = false) {
  auto* label = new QLabel;
  label->setFont(face(size));
  label->setWordWrap(true);
  label->setTextFormat(Qt::PlainText);
  if (quiet) label->setProperty("tone", "quiet");
  return label;
}

QLabel* small_title(const QString& words) {
  auto* label = words_label(TextSize::small, true);
  label->setText(words);
  return label;
}

Severity shown(findings::Severity severity) {
  switch (severity) {
    case findings::Severity::note: return Severity::note;
    case findings::Severity::caution: return Severity::caution;
    case findings::Severity::stop: return Severity::stop;
  }
  return Severity::note;
}

QString joined(const std::vector<std::string>& sentences) {
  QStringList list;
  for (const std::string& one : sentences) list << to_qt(one);
  return list.join(QLatin1Char(' '));
}

IntervalPicture on_screen(const summary::IntervalPicture& paper, DecimalMark mark) {
  IntervalPicture picture;
  picture.mark = mark;
  for (const summary::PictureRow& row : paper.rows) {
    const double value = row.figure.value.value_or(0);
    IntervalRow line{to_qt(row.label).section(QLatin1Char(','), 0, 0),
                     row.metal == summary::Metal::gold ? Metal::gold : Metal::silver,
                     value,
                     row.figure.lo.value_or(row.figure.value ? value : 0),
                     row.figure.hi.value_or(value),
                     {},
                     to_qt(summary::with_unit(row.figure))};
    if (row.sampling_lo && row.sampling_hi) line.sampling = {*row.sampling_lo, *row.sampling_hi};
    line.dots = row.dots;
    picture.rows.push_back(std::move(line));
  }
  if (paper.gap_from && paper.gap_to) picture.gap = {*paper.gap_from, *paper.gap_to};
  picture.gap_words = to_qt(paper.gap_label);
  return picture;
}

}  // namespace

ComparePage::ComparePage(Session& session, QWidget* parent)
    : QWidget(parent),
      session_(session),
      head_(new Headline),
      scale_(new IntervalScale),
      verdict_(words_label(TextSize::large)),
      next_(words_label(TextSize::body)),
      beside_(words_label(TextSize::small, true)),
      draws_(new DrawsPanel(session.writing.mark)),
      draws_fold_(new Fold(tr("By a million draws"), draws_)),
      figures_(new QWidget),
      figure_grid_(new QGridLayout(figures_)),
      doubt_(new QWidget),
      doubt_title_(small_title({})),
      bars_(new DoubtBars),
      remedy_(words_label(TextSize::small, true)),
      tests_(new QWidget),
      test_grid_(new QGridLayout(tests_)),
      findings_(new QVBoxLayout),
      more_(new QToolButton),
      reason_(new ReasonLine),
      sheet_(new QPushButton(tr("Open the sample sheet"))) {
  build();
}

void ComparePage::build() {
  auto* doubt_column = new QVBoxLayout(doubt_);
  doubt_column->setContentsMargins(0, 0, 0, 0);
  doubt_column->setSpacing(rhythm / 2);
  for (QWidget* widget : {static_cast<QWidget*>(doubt_title_), static_cast<QWidget*>(bars_), static_cast<QWidget*>(remedy_)})
    doubt_column->addWidget(widget);
  for (QGridLayout* grid : {figure_grid_, test_grid_}) {
    grid->setContentsMargins(0, 0, 0, 0);
    grid->setHorizontalSpacing(3 * rhythm);
    grid->setVerticalSpacing(rhythm / 2);
  }
  auto* column = new QVBoxLayout(this);
  column->setSpacing(rhythm);
  column->addWidget(head_);
  column->addWidget(hairline());
  column->addWidget(scale_);
  column->addWidget(verdict_);
  column->addWidget(next_);
  column->addWidget(beside_);
  findings_->setSpacing(0);
  column->addLayout(findings_);
  column->addWidget(more_, 0, Qt::AlignLeft);
  column->addWidget(reason_);
  column->addWidget(hairline());
  column->addWidget(figures_);
  column->addSpacing(rhythm);
  column->addWidget(doubt_);
  column->addWidget(draws_fold_);
  column->addWidget(hairline());
  column->addWidget(tests_);
  column->addSpacing(rhythm);
  column->addWidget(sheet_, 0, Qt::AlignLeft);
  column->addStretch();
  connect(sheet_, &QPushButton::clicked, this, &ComparePage::sheet_wanted);
  connect(more_, &QToolButton::clicked, this, [this] {
    unfolded_ = !unfolded_;
    show_findings();
  });
  connect(reason_, &ReasonLine::given, this, [this] { sheet_->setFocus(Qt::OtherFocusReason); });
}

QString ComparePage::verdict() const { return verdict_->text(); }

void ComparePage::show_nothing(const QString& words) {
  sample_ = {};
  reason_->close();
  head_->set(tr("Pan and fire"), {});
  verdict_->setText(words);
  for (QWidget* widget : {static_cast<QWidget*>(scale_), static_cast<QWidget*>(next_), static_cast<QWidget*>(beside_),
                          static_cast<QWidget*>(draws_fold_), figures_, doubt_, tests_, static_cast<QWidget*>(sheet_)})
    widget->hide();
  show_findings();
}

void ComparePage::show_sample(SampleId sample) {
  const auto gathered = summary::gather(session_.connection, sample);
  if (!gathered.ok()) return show_nothing(sentence(gathered.error()));
  if (sample != sample_) {
    reason_->close();
    unfolded_ = false;
  }
  sample_ = sample;
  const auto& record = gathered->record;
  QString mark = to_qt(record.sample.mark);
  if (mark.size() > mark_length) mark = mark.left(mark_length - 1) + QChar(0x2026);
  head_->set(to_qt(record.sample.number), QStringLiteral("%1 · %2").arg(mark, to_qt(record.client.name)));
  show_picture(*gathered);
  show_words(*gathered);
  show_figures(*gathered);
  show_doubt(*gathered);
  show_tests(*gathered);
  show_findings();
  sheet_->show();
}

void ComparePage::show_picture(const summary::SummarySample& sample) {
  IntervalPicture picture =
      on_screen(summary::picture_of(sample, session_.writing.mark, summary::SilverRows::of_both), session_.writing.mark);
  scale_->setVisible(!picture.rows.empty());
  scale_->set_picture(std::move(picture));
}

void ComparePage::show_words(const summary::SummarySample& sample) {
  const DecimalMark mark = session_.writing.mark;
  const auto& result = sample.result;
  std::vector<std::string> missing = summary::what_is_missing(result);
  std::vector<std::string> beside;
  if (result.comparison) {
    const std::string head = summary::head_sentence(*result.comparison, mark);
    verdict_->setText(to_qt((head.empty() ? "" : head + " ") + summary::verdict_sentence(*result.comparison, mark)));
    if (const auto next = summary::next_test(sample))
      missing.push_back(to_core(tr("Next: %1 %2").arg(to_qt(next->words), to_qt(summary::cost_words(*next, mark)))));
    beside.push_back(summary::silver_sentence(sample, mark));
  } else if (result.comparison_error) {
    verdict_->setText(tr("Pan and fire can’t be compared. %1").arg(sentence(*result.comparison_error)));
    missing.push_back(result.comparison_error->detail + ".");
  } else {
    const auto found = summary::what_we_found(sample, mark);
    verdict_->setText(found.empty() ? QString() : to_qt(found.front()));
  }
  next_->setText(joined(missing));
  next_->setVisible(!missing.empty());
  beside_->setText(joined(beside));
  beside_->setVisible(!beside_->text().isEmpty());
  draws_->set_comparison(result.comparison, std::uint64_t(sample.record.sample.id.value));
  draws_fold_->setVisible(result.comparison && result.comparison->gold.verdict != Verdict::not_determined);
}

void ComparePage::show_figures(const summary::SummarySample& sample) {
  clear(figure_grid_);
  const auto lines = figure_lines(sample, session_.writing.mark);
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const int row = int(i);
    auto* label = words_label(TextSize::small, true);
    label->setText(lines[i].label);
    label->setWordWrap(false);
    auto* figure = words_label(TextSize::body);
    figure->setText(lines[i].figure);
    figure_grid_->addWidget(label, row, 0, Qt::AlignTop);
    if (lines[i].other.isEmpty()) {
      figure_grid_->addWidget(figure, row, 1, 1, 2);
      continue;
    }
    figure->setWordWrap(false);
    figure_grid_->addWidget(figure, row, 1);
    auto* other = words_label(TextSize::small, true);
    other->setText(lines[i].other);
    other->setWordWrap(false);
    figure_grid_->addWidget(other, row, 2);
  }
  figure_grid_->setColumnStretch(2, 1);
  figures_->setVisible(!lines.empty());
}

void ComparePage::show_doubt(const summary::SummarySample& sample) {
  const auto& result = sample.result;
  // Sampling has a bar of its own where the verdict allows for it.
  std::optional<MeasuredGrade> with_sampling;
  if (result.comparison && result.comparison->basis == VerdictBasis::weighing_and_sampling)
    with_sampling = measured(result.fire.gold.mean->value, result.comparison->gold_sides.fire_parts);
  const MeasuredGrade* grade = with_sampling           ? &*with_sampling
                               : result.fire.gold.mean ? &*result.fire.gold.mean
                               : result.leading_pan    ? &*result.pan[*result.leading_pan].grade->gold
                                                       : nullptr;
  std::vector<DoubtBars::Line> lines;
  QString remedy;
  if (grade)
    for (const summary::DoubtLine& line : summary::doubt_lines(*grade)) {
      if (lines.empty()) remedy = to_qt(line.remedy);
      lines.push_back({to_qt(line.from), line.share_pct});
    }
  doubt_title_->setText(result.fire.gold.mean ? tr("What the doubt of the fire comes from")
                                              : tr("What the doubt of the pan comes from"));
  doubt_->setVisible(!lines.empty());
  bars_->set_lines(std::move(lines));
  remedy_->setText(remedy);
  remedy_->setVisible(!remedy.isEmpty());
}

void ComparePage::show_tests(const summary::SummarySample& sample) {
  clear(test_grid_);
  const auto lines = test_lines(sample, session_.writing.mark);
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const TestLine& line = lines[i];
    const int row = int(i);
    auto* label = words_label(TextSize::small);
    label->setText(line.label);
    label->setWordWrap(false);
    auto* kind = words_label(TextSize::small, true);
    kind->setText(line.kind);
    kind->setWordWrap(false);
    auto* gold = words_label(TextSize::small);
    gold->setText(line.result);
    test_grid_->addWidget(label, row, 0, Qt::AlignTop);
    test_grid_->addWidget(kind, row, 1, Qt::AlignTop);
    test_grid_->addWidget(gold, row, 2, Qt::AlignTop);
  }
  test_grid_->setColumnStretch(2, 1);
  tests_->setVisible(!lines.empty());
}

void ComparePage::show_findings() {
  clear(findings_);
  more_->hide();
  if (!sample_) return;
  const auto entries = findings::findings_of(session_.connection, sample_);
  if (!entries.ok()) return;
  int open = 0, folded = 0;
  for (const auto& entry : *entries) {
    const bool stands_open = !entry.answer && open < most_open;
    if (!stands_open && !unfolded_) {
      ++folded;
      continue;
    }
    if (stands_open) ++open;
    add_finding(entry);
  }
  if (folded == 0 && !unfolded_) return;
  more_->setText(unfolded_ ? tr("fold away") : tr("%1 more, or answered").arg(folded));
  more_->show();
}

void ComparePage::add_finding(const findings::OpenOrAnswered& entry) {
  QString words = unbroken(to_qt(entry.finding.seen)) + QLatin1Char(' ') + to_qt(entry.finding.to_do);
  if (entry.answer)
    words = tr("%1 Explained by %2, %3: %4")
                .arg(unbroken(to_qt(entry.finding.seen)), to_qt(entry.answer->who), date_text(entry.answer->when),
                     to_qt(entry.answer->explanation));
  const bool answerable = !entry.answer && !session_.read_only();
  auto* row = new FindingRow(shown(entry.finding.severity), words, answerable ? tr("explain") : QString());
  connect(row, &FindingRow::action_wanted, this, [this, finding = entry.finding] { ask_for_answer(finding); });
  findings_->addWidget(row);
}

void ComparePage::ask_for_answer(const findings::Finding& finding) {
  reason_->ask(tr("Explanation: %1").arg(to_qt(finding.seen)),
               [this, finding](const QString& words) { return findings::answer(session_.journal, finding, to_core(words)); });
}

}  // namespace prillbook::ui
