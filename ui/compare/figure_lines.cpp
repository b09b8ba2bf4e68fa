// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/compare/figure_lines.h"

#include <QtCore/QCoreApplication>
#include <QtWidgets/QLayout>
#include <QtWidgets/QWidget>

#include "core/assay/rounding.h"
#include "core/summary/lines.h"
#include "core/summary/words.h"
#include "ui/kit/sentences.h"

namespace prillbook::ui {
namespace {

using results::TestResult;
using results::TestState;

QString tr(const char* words) { return QCoreApplication::translate("ComparePage", words); }

void add_grade(std::vector<FigureLine>& lines, const QString& label, const MeasuredGrade& grade, DecimalMark mark) {
  summary::Figure ounces = summary::grade_figure(grade, unit::ounce_per_short_ton, mark);
  ounces.unit = "troy oz per short ton";
  lines.push_back({label, to_qt(summary::with_unit(summary::grade_figure(grade, unit::gram_per_tonne, mark))),
                   to_qt(summary::with_unit(ounces))});
}

QString percent(double ratio, DecimalMark mark) { return to_qt(rounded(100 * ratio, 0, mark)) + QStringLiteral(" %"); }

void add_balance(std::vector<FigureLine>& lines, const PanBalance& balance, DecimalMark mark) {
  add_grade(lines, tr("Calculated head"), balance.calculated_head, mark);
  if (balance.recovery_of_head)
    lines.push_back({tr("Recovery of head"), tr("%1 as free gold").arg(percent(*balance.recovery_of_head, mark)), {}});
  if (balance.gravity_recovery)
    lines.push_back({tr("Gravity recovery"), tr("%1 with the remainder").arg(percent(*balance.gravity_recovery, mark)), {}});
  if (balance.closure) lines.push_back({tr("Closure"), tr("%1 of what the fire found").arg(percent(*balance.closure, mark)), {}});
  const double grams = balance.unaccounted.in(unit::gram);
  lines.push_back({grams < 0 ? tr("Gained") : tr("Unaccounted"),
                   to_qt(written(grams < 0 ? -grams : grams, {}, 0.1, mark)) + QStringLiteral(" g"),
                   {}});
  for (const BalanceWarning warning : balance.warnings)
    lines.push_back({tr("Look at"),
                     warning == BalanceWarning::remainder_missing
                         ? tr("the remainder was not assayed; gold that is missing may be in it")
                         : tr("remainder and tail weigh more than the portion panned"),
                     {}});
}

const TestResult* first_done(const std::vector<TestResult>& tests) {
  for (const TestResult& test : tests)
    if (test.state == TestState::done) return &test;
  return nullptr;
}

QString size_words(const Opening& size, DecimalMark mark) {
  return to_qt(summary::with_unit(summary::figure(size.in(unit::micrometre), {}, {}, unit::micrometre.symbol, {}, mark)));
}

// The P80 that was panned, and the finest that the sieves found of the sample.
QString grind_line(const summary::SummarySample& sample, const TestResult* pan, DecimalMark mark) {
  QStringList words;
  if (pan && pan->grind) words << tr("P80 %1 as panned").arg(size_words(*pan->grind, mark));
  for (const results::SizeResult& size : sample.result.sizes)
    if (size.curve && size.curve->p80.size)
      words << tr("P80 %1 by sieves (%2)").arg(size_words(*size.curve->p80.size, mark), to_qt(size.label));
  return words.join(QStringLiteral(", "));
}

void add_silver(std::vector<FigureLine>& lines, const summary::SummarySample& sample, const TestResult* test,
                const MeasuredGrade* silver, const QString& label, DecimalMark mark) {
  if (silver) return add_grade(lines, label, *silver, mark);
  if (!test || !test->grade || test->grade->none_seen) return;
  const QString why = to_qt(summary::silver_words(sample.record, *test, mark));
  if (!why.isEmpty()) lines.push_back({label, why, {}});
}

}  // namespace

std::vector<FigureLine> figure_lines(const summary::SummarySample& sample, DecimalMark mark) {
  std::vector<FigureLine> lines;
  const auto& result = sample.result;
  const TestResult* pan = result.leading_pan ? &result.pan[*result.leading_pan] : first_done(result.pan);
  const TestResult* fire = first_done(result.fire.tests);
  if (result.comparison && result.comparison->gold.recovery)
    lines.push_back({tr("Recovery"), to_qt(summary::recovery_words(result.comparison->gold, mark)), {}});
  if (const auto split = summary::where_the_gap_is(sample, mark); !split.empty()) {
    QStringList words;
    for (const std::string& one : split) words << to_qt(one);
    lines.push_back({tr("Where it is"), words.join(QStringLiteral(" · ")), {}});
  }
  if (const QString grind = grind_line(sample, pan, mark); !grind.isEmpty()) lines.push_back({tr("Grind"), grind, {}});
  if (pan && pan->grade->gold) add_grade(lines, tr("Gold in the pan"), *pan->grade->gold, mark);
  if (pan && !pan->grade->gold) add_grade(lines, tr("Pan bead, gold and silver"), pan->grade->bead, mark);
  if (result.fire.gold.mean) add_grade(lines, tr("Gold by fire"), *result.fire.gold.mean, mark);
  if (fire && !result.fire.gold.mean) add_grade(lines, tr("Fire bead, gold and silver"), fire->grade->bead, mark);
  for (const results::MetallicsOf& metallics : result.metallics) {
    if (!metallics.gold) continue;
    add_grade(lines, tr("Gold by metallics"), *metallics.gold, mark);
    lines.push_back({tr("Metallics"), to_qt(summary::metallics_note(metallics, mark)), {}});
  }
  if (pan) add_silver(lines, sample, pan, pan->grade->silver ? &*pan->grade->silver : nullptr, tr("Silver in the pan"), mark);
  if (fire) add_silver(lines, sample, fire, summary::common_silver(result.fire), tr("Silver by fire"), mark);
  if (result.comparison && result.comparison->balance) add_balance(lines, *result.comparison->balance, mark);
  return lines;
}

std::vector<TestLine> test_lines(const summary::SummarySample& sample, DecimalMark mark) {
  std::vector<TestLine> lines;
  const auto add = [&](const std::vector<TestResult>& tests, const QString& kind) {
    for (const TestResult& test : tests) {
      QString words;
      if (test.grade) {
        const MeasuredGrade& grade = test.grade->gold ? *test.grade->gold : test.grade->bead;
        const QString figure = to_qt(summary::with_unit(summary::grade_figure(grade, unit::gram_per_tonne, mark)));
        words = (test.grade->gold ? tr("gold %1") : tr("gold and silver %1")).arg(figure);
      }
      switch (test.state) {
        case TestState::done: break;
        case TestState::waiting: words = tr("waits for its bead, or the mass of its portion"); break;
        case TestState::spoiled: words = tr("spoiled: %1").arg(to_qt(test.reason)); break;
        case TestState::excluded: words = tr("%1, left out: %2").arg(words, to_qt(test.reason)); break;
        case TestState::refused: words = test.error ? sentence(*test.error) : QString(); break;
      }
      lines.push_back({to_qt(test.label), kind, words});
    }
  };
  add(sample.result.pan, tr("pan test"));
  add(sample.result.fire.tests, tr("charge"));
  add(sample.result.remainder.tests, tr("charge of the remainder"));
  add(sample.result.tail.tests, tr("charge of the tail"));
  return lines;
}

void clear(QLayout* layout) {
  while (QLayoutItem* item = layout->takeAt(0)) {
    if (item->widget()) {
      item->widget()->hide();
      item->widget()->deleteLater();
    }
    delete item;
  }
}

}  // namespace prillbook::ui
