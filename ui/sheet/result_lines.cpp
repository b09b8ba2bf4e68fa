// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/sheet/result_lines.h"

#include <QtCore/QCoreApplication>
#include <QtCore/QEvent>
#include <QtGui/QPainter>

#include "core/assay/rounding.h"
#include "ui/kit/messages.h"
#include "ui/kit/record_fields.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"

namespace prillbook::ui {
namespace {

constexpr int line_height = 3 * rhythm + 4, metal_room = 8 * rhythm - 2;

struct ResultWords {
  Q_DECLARE_TR_FUNCTIONS(ResultWords)
};

Figure grade_figure(const MeasuredGrade& grade, DecimalMark mark) {
  std::optional<double> half_width;
  if (grade.lo && grade.hi) half_width = (grade.hi->in(unit::gram_per_tonne)-grade.lo->in(unit::gram_per_tonne)) / 2;
  return {to_qt(written(grade.g_t(), half_width, {}, mark)), QStringLiteral("g/t")};
}

QString silver_words(const GradeResult& grade) {
  if (grade.silver || grade.none_seen) return {};
  if (grade.silver_status == SilverStatus::not_above_blank) return ResultWords::tr("silver not above the blank");
  return grade.fineness_known ? ResultWords::tr("silver not determined") : QString();
}

// What slag and cupel gave back is in the figure and stands beside it as one of its own.
QString recovered_words(const GradeResult& grade, DecimalMark mark) {
  if (grade.recovered_gold)
    return ResultWords::tr("%1 of it from slag and cupel").arg(text(grade_figure(*grade.recovered_gold, mark)));
  return grade.recovered ? ResultWords::tr("with %1 of metal from slag and cupel").arg(text(grade_figure(*grade.recovered, mark)))
                         : QString();
}

void add_grade(ResultLine& line, const GradeResult& grade, DecimalMark mark) {
  if (grade.silver) line.silver = grade_figure(*grade.silver, mark);
  if (grade.none_seen) {
    line.words = ResultWords::tr("no bead seen");
    if (grade.gold && grade.gold->hi)
      line.gold = {QStringLiteral("<") + to_qt(written(grade.gold->hi->in(unit::gram_per_tonne),
                                                       grade.gold->hi->in(unit::gram_per_tonne) / 10, {}, mark))
                                             .section(QLatin1Char(' '), 0, 0),
                   QStringLiteral("g/t")};
    return;
  }
  if (grade.gold) {
    line.gold = grade_figure(*grade.gold, mark);
    line.words = silver_words(grade);
  } else {
    line.words = ResultWords::tr("bead %1 of metal, fineness not known").arg(text(grade_figure(grade.bead, mark)));
  }
  const QString recovered = recovered_words(grade, mark);
  if (!recovered.isEmpty()) line.words = line.words.isEmpty() ? recovered : line.words + QStringLiteral(" · ") + recovered;
}

ResultLine line_of(const results::SampleRecord& record, const results::TestResult& test) {
  ResultLine line;
  const portions::Portion* portion = record.portion(test.portion);
  line.label = to_qt(test.label);
  line.label = line.label.mid(line.label.indexOf(QLatin1Char('/')));  // the sheet's own number stands above
  // An assay of what the pan left speaks of that, not of the rock.
  const portions::Portion* product = record.pan_product_of(test.portion);
  line.kind = test.pan_test ? ResultWords::tr("pan") : product ? choice_word(product->purpose) : ResultWords::tr("fire");
  if (test.grade) add_grade(line, *test.grade, record.settings.decimal_mark);
  const QString reason = to_qt(test.reason);
  switch (test.state) {
    case results::TestState::waiting:
      line.words =
          portion && portion->mass ? ResultWords::tr("waits for its bead") : ResultWords::tr("waits for the mass of its portion");
      break;
    case results::TestState::spoiled: line.words = ResultWords::tr("spoiled: %1").arg(reason); break;
    case results::TestState::excluded: line.words = ResultWords::tr("left out: %1").arg(reason); break;
    case results::TestState::refused:
      line.words = test.error ? sentence(*test.error) : QString();
      line.stopped = true;
      break;
    case results::TestState::done: break;
  }
  return line;
}

ResultLine line_of_metallics(const results::MetallicsOf& metallics, DecimalMark mark) {
  ResultLine line;
  line.label = to_qt(metallics.label);
  line.label = line.label.mid(line.label.indexOf(QLatin1Char('/')));
  line.kind = ResultWords::tr("metallics");
  if (metallics.gold) line.gold = grade_figure(*metallics.gold, mark);
  if (metallics.result && metallics.result->coarse_share)
    line.words = ResultWords::tr("%1 % of it coarse").arg(to_qt(rounded(100 * *metallics.result->coarse_share, 0, mark)));
  QStringList waits;
  for (const std::string& one : metallics.waits_for) waits << to_qt(one);
  if (!waits.isEmpty()) line.words = ResultWords::tr("waits for %1").arg(waits.join(QStringLiteral(", ")));
  if (metallics.error) {
    line.words = sentence(*metallics.error);
    line.stopped = true;
  }
  return line;
}

}  // namespace

std::vector<ResultLine> result_lines(const results::SampleRecord& record, const results::SampleResult& result) {
  std::vector<ResultLine> lines;
  for (const results::TestResult& test : result.pan) lines.push_back(line_of(record, test));
  for (const results::Group* group : {&result.fire, &result.remainder, &result.tail}) {
    for (const results::TestResult& test : group->tests) lines.push_back(line_of(record, test));
    if (group->gold.valid < 2 || !group->gold.mean) continue;
    ResultLine mean;
    mean.kind = ResultWords::tr("mean of %n", nullptr, group->gold.valid);
    mean.gold = grade_figure(*group->gold.mean, record.settings.decimal_mark);
    if (group->silver.mean) mean.silver = grade_figure(*group->silver.mean, record.settings.decimal_mark);
    lines.push_back(mean);
  }
  for (const results::MetallicsOf& one : result.metallics) lines.push_back(line_of_metallics(one, record.settings.decimal_mark));
  return lines;
}

void ResultLines::set_lines(std::vector<ResultLine> lines) {
  lines_ = std::move(lines);
  setFixedHeight(int(lines_.size()) * line_height);
  setVisible(!lines_.empty());
  QStringList told;
  for (const ResultLine& line : lines_)
    told << QStringLiteral("%1 %2: %3 %4 %5").arg(line.label, line.kind, text(line.gold), text(line.silver), line.words);
  setAccessibleName(told.join(QStringLiteral("; ")));
  update();
}

QSize ResultLines::sizeHint() const { return {50 * rhythm, int(lines_.size()) * line_height}; }

// Columns: test, gold on its mark, silver on its mark, words.
void ResultLines::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  const Inks& ink = inks();
  const QFont body = face(TextSize::body), bold = face(TextSize::body, Weight::bold), small = face(TextSize::small);
  const int kind_at = 4 * rhythm + 4, gold_at = 21 * rhythm, silver_at = gold_at + 23 * rhythm - 4,
            words_at = silver_at + 11 * rhythm;
  int base = 20;
  const auto metal = [&](int mark, const QString& name, const Figure& figure) {
    if (!figure.measured()) return;
    painter.setFont(small);
    painter.setPen(ink.quiet);
    painter.drawText(mark - metal_room, base, name);
    painter.setFont(body);
    painter.setPen(ink.ink);
    draw_on_mark(painter, QPointF(mark, base), figure, 6 * rhythm);
  };
  for (const ResultLine& line : lines_) {
    painter.setPen(ink.ink);
    painter.setFont(bold);
    painter.drawText(0, base, line.label);
    painter.setFont(small);
    painter.setPen(ink.quiet);
    painter.drawText(line.label.isEmpty() ? 0 : kind_at, base, line.kind);
    metal(gold_at, tr("Au"), line.gold);
    metal(silver_at, tr("Ag"), line.silver);
    const int at = line.silver.measured() ? words_at : line.gold.measured() ? silver_at - metal_room : gold_at - metal_room;
    painter.setFont(small);
    painter.setPen(line.stopped ? ink.signal : ink.quiet);
    int from = at;
    if (line.stopped) {
      draw_mark(painter, QRectF(at, base - 12, 14, 14), Severity::stop);
      from += 18;
    }
    painter.drawText(from, base, QFontMetrics(small).elidedText(line.words, Qt::ElideRight, width() - from));
    base += line_height;
  }
}

void ResultLines::changeEvent(QEvent* event) {
  QWidget::changeEvent(event);
  if (event->type() == QEvent::PaletteChange) update();
}

}  // namespace prillbook::ui
