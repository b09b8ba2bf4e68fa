// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/preparation/enough_pane.h"

#include <QtCharts/QChart>
#include <QtCharts/QChartView>
#include <QtCharts/QLegend>
#include <QtCharts/QLineSeries>
#include <QtCharts/QLogValueAxis>
#include <QtCharts/QScatterSeries>
#include <QtCore/QEvent>
#include <QtWidgets/QLabel>
#include <QtWidgets/QVBoxLayout>

#include "core/lab/settings.h"
#include "core/preparation/grains.h"
#include "core/preparation/nomogram.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"
#include "ui/preparation/words.h"

namespace prillbook::ui {
namespace {

QString none_words(const GrainCount& grains, DecimalMark mark) {
  constexpr double least_pct = 0.01;  // less is none for every practical end
  const double pct = 100 * grains.none_probability;
  return pct < least_pct ? QStringLiteral("< ") + number_words(least_pct, mark) : number_words(pct, mark);
}

// The forms that the trade uses; another exponent is set in Lab set-up.
std::vector<ChoiceField::Choice> forms() {
  return {{"1.5", EnoughPane::tr("exponent 1.5")},
          {"2.5", EnoughPane::tr("square root, exponent 2.5")},
          {"1", EnoughPane::tr("1, as calibrated ores gave")}};
}

QString form_word(double exponent, DecimalMark mark) {
  const QString number = figure(shortest(exponent), {}, mark).number;
  return exponent == 2.5 ? EnoughPane::tr("in the square-root form, exponent %1").arg(number)
                         : EnoughPane::tr("with exponent %1").arg(number);
}

// The lab's form first, then the two that are mixed up most.
QStringList errors_by_form(const GyInput& input, Share wanted, DecimalMark mark) {
  QStringList lines;
  std::vector<double> exponents{input.exponent};
  for (const double usual : {1.5, 2.5})
    if (usual != input.exponent) exponents.push_back(usual);
  for (const double exponent : exponents) {
    GyInput asked = input;
    asked.exponent = exponent;
    asked.target = wanted;
    const auto gy = gy_error(asked);
    if (!gy) continue;
    lines << (lines.isEmpty() ? EnoughPane::tr("Sampling error %1 % %2: for %3 % take %4.")
                              : EnoughPane::tr("%1 % %2: for %3 % take %4."))
                 .arg(number_words(gy->relative_sd_pct, mark), form_word(exponent, mark),
                      number_words(wanted.in(unit::percent), mark), mass_words(*gy->mass_for_target, mark));
  }
  return lines;
}

}  // namespace

EnoughPane::EnoughPane(Session& session, QWidget* parent)
    : QWidget(parent),
      session_(session),
      words_(new QLabel),
      form_(new ChoiceField(tr("Form of Gy’s formula"), forms())),
      column_(new QVBoxLayout(this)) {
  form_->set_required(true);
  form_->set_read_only(session.read_only());
  form_->on_commit([this](const auto& exponent) {
    return lab::set_setting(session_.journal, "preparation.sampling_exponent", exponent.value_or(""));
  });
  words_->setTextFormat(Qt::PlainText);
  words_->setWordWrap(true);
  column_->setContentsMargins(0, 0, 0, 0);
  column_->setSpacing(rhythm);
  column_->addWidget(words_);
  column_->addWidget(form_);
  show_nothing();
}

QString EnoughPane::words() const { return words_->text(); }

void EnoughPane::show_nothing() {
  input_.reset();
  stages_.clear();
  form_->hide();
  words_->setText(tr("Say the top size after crushing and weigh a portion: then its sampling error stands here."));
  draw();
}

void EnoughPane::show_portion(const results::SampleRecord& record, const results::SampleResult& result, PortionId wanted) {
  const portions::Portion* portion = record.portion(wanted);
  std::optional<GyInput> input;
  if (portion) input = results::sampling_input(record, result, *portion);
  for (auto one = record.portions.rbegin(); !input && one != record.portions.rend(); ++one) {
    input = results::sampling_input(record, result, *one);
    portion = &*one;
  }
  if (!input || !portion) return show_nothing();
  input_ = input;
  stages_ = results::stages_to(record, *portion);
  form_->show();
  const std::string exponent = shortest(input->exponent);
  form_->set_value(exponent);
  form_->set_hint(form_->value() == exponent
                      ? QString()
                      : tr("%1, as Lab set-up says.").arg(form_word(input->exponent, session_.writing.mark)));
  show_words(record, *input, *portion);
  draw();
}

void EnoughPane::show_words(const results::SampleRecord& record, const GyInput& input, const portions::Portion& portion) {
  const DecimalMark mark = session_.writing.mark;
  const auto grains = grain_count(input.grade, input.mass, {input.liberation, {}});
  QStringList lines;
  lines << tr("%1: %2 of %3 µm top size, gold of %4 µm at %5.")
               .arg(to_qt(record.portion_label(portion.id)), mass_words(input.mass, mark),
                    number_words(input.top_size.in(unit::micrometre), mark),
                    number_words(input.liberation.in(unit::micrometre), mark), grade_words(input.grade, mark));
  lines << errors_by_form(input, Share(record.settings.sampling_limit_pct, unit::percent), mark);
  if (grains)
    lines << tr("As free grains of that size: %1 expected, %2 to %3 in 19 of 20 portions, none in %4 %.")
                 .arg(number_words(grains->expected, mark), number_words(grains->lo, mark), number_words(grains->hi, mark),
                      none_words(*grains, mark));
  if (const auto total = error_of_stages(stages_, input); total && !stages_.empty())
    lines << tr("All stages together: %1 %; with the ways of splitting %2 %.")
                 .arg(number_words(total->fundamental_pct, mark), number_words(total->total_pct, mark));
  words_->setText(lines.join('\n'));
}

void EnoughPane::changeEvent(QEvent* event) {
  QWidget::changeEvent(event);
  if (event->type() == QEvent::PaletteChange) draw();
}

void EnoughPane::showEvent(QShowEvent* event) {
  QWidget::showEvent(event);
  draw();
}

// A chart costs more than the words: it is made where it is seen.
void EnoughPane::draw() {
  delete chart_;
  chart_ = nullptr;
  if (!input_ || !isVisible()) return;
  const auto nomogram = nomogram_of(*input_, stages_);
  if (!nomogram) return;
  auto* chart = new QChart;
  chart->setBackgroundVisible(false);
  chart->setMargins({0, rhythm, 0, 0});
  chart->legend()->setLabelColor(inks().quiet);
  chart->legend()->setFont(face(TextSize::small));
  chart->legend()->setMarkerShape(QLegend::MarkerShapeFromSeries);
  auto* across = new QLogValueAxis;
  auto* down = new QLogValueAxis;
  for (QLogValueAxis* axis : {across, down}) {
    axis->setBase(10);
    axis->setLabelFormat(QStringLiteral("%g"));
    axis->setLabelsColor(inks().quiet);
    axis->setLabelsFont(face(TextSize::small));
    axis->setTitleFont(face(TextSize::small));
    axis->setTitleBrush(inks().quiet);
    axis->setGridLineColor(inks().rule);
    axis->setLinePenColor(inks().line);
  }
  across->setTitleText(tr("mass of the portion, g"));
  down->setTitleText(tr("sampling error, %"));
  across->setRange(nomogram->least_g, nomogram->most_g);
  constexpr double below = 0.999;  // so that the lowest power of ten has its label
  down->setRange(below * nomogram->least_pct, nomogram->most_pct);
  chart->addAxis(across, Qt::AlignBottom);
  chart->addAxis(down, Qt::AlignLeft);
  const Qt::PenStyle styles[] = {Qt::SolidLine, Qt::DashLine, Qt::DotLine, Qt::DashDotLine, Qt::DashDotDotLine};
  std::size_t number = 0;
  const auto add = [&](QXYSeries* series, const std::vector<NomogramPoint>& points) {
    for (const NomogramPoint& point : points) series->append(point.mass_g, point.sd_pct);
    chart->addSeries(series);
    series->attachAxis(across);
    series->attachAxis(down);
  };
  for (const NomogramLine& line : nomogram->lines) {
    auto* series = new QLineSeries;
    series->setName(tr("%1 µm").arg(number_words(line.top_size.in(unit::micrometre), session_.writing.mark)));
    series->setPen(QPen(inks().quiet, 1.2, styles[number++ % std::size(styles)]));
    add(series, line.points);
  }
  auto* way = new QLineSeries;
  way->setName(tr("the way it went"));
  way->setPen(QPen(inks().accent, 2.5));
  add(way, nomogram->way);
  auto* marks = new QScatterSeries;
  marks->setName(tr("portions"));
  marks->setMarkerSize(9);
  marks->setBrush(inks().gold);
  marks->setPen(QPen(inks().ink, 1.2));
  add(marks, nomogram->way);
  auto* view = new QChartView(chart);
  view->setRenderHint(QPainter::Antialiasing);
  view->setFrameShape(QFrame::NoFrame);
  view->setBackgroundBrush(Qt::NoBrush);
  view->setMinimumHeight(50 * rhythm);
  view->setObjectName(QStringLiteral("nomogram"));
  view->setAccessibleName(tr("Nomogram: sampling error against mass"));
  view->setAccessibleDescription(words_->text());
  view->setFocusPolicy(Qt::NoFocus);
  chart_ = view;
  column_->addWidget(view);
  view->show();  // at once, so that whoever opened the fold can bring it into view
}

}  // namespace prillbook::ui
