// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/sieves/curve_panel.h"

#include <QtGui/QClipboard>
#include <QtGui/QGuiApplication>
#include <QtWidgets/QGridLayout>
#include <QtWidgets/QHBoxLayout>
#include <QtWidgets/QLabel>
#include <QtWidgets/QVBoxLayout>
#include <algorithm>
#include <cmath>

#include "core/assay/rounding.h"
#include "core/summary/words_of_sizes.h"
#include "ui/kit/fields.h"
#include "ui/kit/interval_scale.h"
#include "ui/kit/press_button.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"

namespace prillbook::ui {
namespace {

constexpr int law_steps = 60;

QLabel* words_label(TextSize size, const char* tone = "") {
  auto* label = new QLabel;
  label->setFont(face(size));
  label->setProperty("tone", tone);
  label->setTextFormat(Qt::PlainText);
  label->setTextInteractionFlags(Qt::TextSelectableByMouse);
  label->setWordWrap(true);
  return label;
}

QString joined_words(const summary::Sentences& sentences, const QString& between = QStringLiteral("\n")) {
  QStringList list;
  for (const std::string& sentence : sentences) list << to_qt(sentence);
  return list.join(between);
}

void empty_out(QLayout* layout) {
  while (QLayoutItem* item = layout->takeAt(0)) {
    if (QWidget* widget = item->widget()) {
      widget->hide();
      widget->deleteLater();
    }
    delete item;
  }
}

QVBoxLayout* tight_column(QWidget* widget) {
  auto* column = new QVBoxLayout(widget);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(rhythm);
  return column;
}

SizeCurve law_curve(const QString& label, const SizeLaw& law, double (*passing)(const SizeLaw&, Opening),
                    const std::vector<SieveRow>& rows) {
  SizeCurve curve{label, {}, false};
  const double from = rows.back().opening.in(unit::micrometre), to = rows.front().opening.in(unit::micrometre);
  for (int i = 0; i <= law_steps; ++i) {
    const double um = from * std::pow(to / from, double(i) / law_steps);
    curve.points.push_back({um, 100 * passing(law, Opening(um, unit::micrometre))});
  }
  return curve;
}

}  // namespace

CurvePanel::CurvePanel(Session& session, QWidget* parent)
    : QWidget(parent),
      session_(session),
      view_(new CurveView),
      words_(words_label(TextSize::body)),
      laws_words_(words_label(TextSize::small)) {
  laws_ = new Fold(tr("Laws through the curve"), laws_words_);
  others_ = new Fold(tr("Other curves beside it"), build_others());
  metal_ = new Fold(tr("Gold by size"), build_metal());
  grinds_ = new Fold(tr("Recovery against P80"), build_grinds());
  files_ = build_files();
  QVBoxLayout* column = tight_column(this);
  column->addWidget(view_);
  column->addWidget(words_);
  column->addWidget(files_);
  for (Fold* fold : {grinds_, metal_, others_, laws_}) column->addWidget(fold);
  column->addStretch();
  connect(laws_->button(), &QToolButton::toggled, this, [this] { redraw(); });
}

QWidget* CurvePanel::build_files() {
  auto* row_widget = new QWidget;
  auto* row = new QHBoxLayout(row_widget);
  row->setContentsMargins(0, 0, 0, 0);
  row->setSpacing(rhythm);
  const auto button = [&](const QString& words, auto pressed) {
    auto* made = new PressButton(words);
    connect(made, &QPushButton::clicked, this, pressed);
    row->addWidget(made);
  };
  button(tr("Save as PNG"), [this] { save(false); });
  button(tr("as SVG"), [this] { save(true); });
  button(tr("Copy"), [this] {
    QGuiApplication::clipboard()->setImage(curve_image(view_->picture()));
    emit said(tr("The curve is on the clipboard."));
  });
  row->addStretch();
  return row_widget;
}

QWidget* CurvePanel::build_others() {
  auto* holder = new QWidget;
  QVBoxLayout* column = tight_column(holder);
  auto* list = new QWidget;
  others_list_ = tight_column(list);
  another_ = new TextField(tr("One more, by its number"));
  another_->set_hint(tr("“26-0003/4”"));
  another_->on_commit([this](const auto& number) { return add_other(number); });
  column->addWidget(list);
  column->addWidget(another_);
  return holder;
}

QWidget* CurvePanel::build_metal() {
  auto* holder = new QWidget;
  QVBoxLayout* column = tight_column(holder);
  auto* list = new QWidget;
  metal_list_ = tight_column(list);
  make_fractions_ = new PressButton(tr("Make portions of the sizes"));
  make_fractions_->setToolTip(tr("Each can then be fused or panned on the sample sheet"));
  connect(make_fractions_, &QPushButton::clicked, this, &CurvePanel::fractions_wanted);
  column->addWidget(list);
  column->addWidget(make_fractions_, 0, Qt::AlignLeft);
  return holder;
}

QWidget* CurvePanel::build_grinds() {
  auto* holder = new QWidget;
  QVBoxLayout* column = tight_column(holder);
  grind_scale_ = new IntervalScale;
  grind_words_ = words_label(TextSize::small);
  column->addWidget(grind_words_);
  column->addWidget(grind_scale_);
  return holder;
}

void CurvePanel::show_size(const results::SampleRecord& record, const results::SampleResult& result,
                           const results::SizeResult& live, const std::vector<SieveRow>& so_far) {
  if (record.sample.id != sample_) {
    beside_.clear();
    strangers_.clear();
    another_->leave_record();
  }
  sample_ = record.sample.id;
  result_ = result;
  live_ = live;
  so_far_ = so_far;
  const DecimalMark mark = session_.writing.mark;
  words_->setText(joined_words(summary::size_words(live_, mark)));
  laws_words_->setText(joined_words(summary::law_words(live_, mark)));
  laws_->setVisible(live_.state == results::SizeState::done);
  files_->setVisible(live_.curve.has_value());
  show_others();
  show_metal();
  show_grinds();
  redraw();
}

SizeCurve CurvePanel::curve_of(const results::SizeResult& size, const QString& label) const {
  SizeCurve curve{label, {}, !size.curve};
  const auto& rows = size.curve ? size.curve->rows : so_far_;
  for (const SieveRow& row : rows) curve.points.push_back({row.opening.in(unit::micrometre), row.passing_pct});
  return curve;
}

void CurvePanel::redraw() {
  CurvePicture picture;
  picture.mark = session_.writing.mark;
  picture.empty_words = tr("The curve is drawn while the masses are typed.");
  picture.curves.push_back(curve_of(live_, to_qt(live_.label)));
  for (const results::SizeResult& size : result_.sizes)
    if (size.curve && beside_.contains(size.analysis.value) && size.analysis != live_.analysis)
      picture.curves.push_back(curve_of(size, to_qt(size.label)));
  for (const results::SizeResult& size : strangers_) picture.curves.push_back(curve_of(size, to_qt(size.label)));
  if (live_.curve) {
    const auto put = [&](const PassingSize& size, double pct, const char* name) {
      if (size.size)
        picture.marks.push_back(
            {size.size->in(unit::micrometre), pct,
             QStringLiteral("%1 %2").arg(QLatin1String(name), to_qt(size_in_words(*size.size, picture.mark)))});
    };
    put(live_.curve->p80, 80, "P80");
    put(live_.curve->p50, 50, "P50");
    if (laws_->is_open() && live_.gaudin_schuhmann)
      picture.laws.push_back(
          law_curve(tr("Gaudin–Schuhmann"), live_.gaudin_schuhmann->law, gaudin_schuhmann_passing, live_.curve->rows));
    if (laws_->is_open() && live_.rosin_rammler)
      picture.laws.push_back(law_curve(tr("Rosin–Rammler"), live_.rosin_rammler->law, rosin_rammler_passing, live_.curve->rows));
  }
  view_->set_picture(std::move(picture));
}

void CurvePanel::show_others() {
  QStringList wanted;
  for (const results::SizeResult& size : result_.sizes)
    if (size.curve && size.analysis != live_.analysis) wanted << to_qt(size.label);
  if (wanted == others_list_->property("labels").toStringList() && others_list_->count() == int(wanted.size())) return;
  empty_out(others_list_);
  others_list_->setProperty("labels", wanted);
  for (const results::SizeResult& size : result_.sizes) {
    if (!size.curve || size.analysis == live_.analysis) continue;
    const RecordId id = size.analysis.value;
    auto* flag = new FlagField(
        {}, QStringLiteral("%1 · %2").arg(to_qt(size.label), to_qt(summary::size_in_short(size, session_.writing.mark))));
    flag->set_in_row(true);
    flag->set_value(beside_.contains(id));
    flag->on_commit([this, id](bool shown) -> Result<void> {
      if (shown)
        beside_.insert(id);
      else
        beside_.erase(id);
      redraw();
      return {};
    });
    others_list_->addWidget(flag);
  }
}

// An analysis of any sample by the number of its portion; the newest of it that has a curve.
Result<void> CurvePanel::add_other(const std::optional<std::string>& number) {
  if (!number) {
    strangers_.clear();
    redraw();
    return {};
  }
  const std::size_t slash = number->find('/');
  const Error none{ErrorCode::not_found, "sieve_analysis", "there is no such analysis", {*number}};
  if (slash == std::string::npos) return none;
  const auto sample = custody::sample_by_number(session_.connection, trimmed(number->substr(0, slash)));
  if (!sample.ok()) return none;
  PRILLBOOK_ASSIGN(const results::SampleRecord record, results::load_sample_record(session_.connection, *sample));
  const results::SampleResult result = results::compute(record);
  for (std::size_t i = result.sizes.size(); i-- > 0;) {
    const results::SizeResult& size = result.sizes[i];
    if (size.label != trimmed(*number) || !size.curve) continue;
    strangers_.push_back(size);
    redraw();
    return {};
  }
  return none;
}

void CurvePanel::show_metal() {
  empty_out(metal_list_);
  const DecimalMark mark = session_.writing.mark;
  const bool done = live_.state == results::SizeState::done;
  metal_->setVisible(done);
  if (!done) return;
  const auto held = std::find_if(result_.sizes.begin(), result_.sizes.end(),
                                 [&](const results::SizeResult& size) { return size.analysis == live_.analysis; });
  const bool made = held != result_.sizes.end() &&
                    std::any_of(held->metal.begin(), held->metal.end(), [](const auto& one) { return bool(one.portion); });
  if (!live_.metal.empty()) {
    auto* table = new QWidget;
    auto* grid = new QGridLayout(table);
    grid->setContentsMargins(0, 0, 0, 0);
    grid->setHorizontalSpacing(2 * rhythm);
    grid->setVerticalSpacing(2);
    int row = 0;
    const auto put = [&](const QString& words, int column, const char* tone) {
      auto* label = words_label(TextSize::small, tone);
      label->setText(words);
      label->setWordWrap(false);
      if (column > 0) label->setAlignment(Qt::AlignRight);
      grid->addWidget(label, row, column);
    };
    for (const auto& [words, column] :
         {std::pair(tr("Size"), 0), std::pair(tr("Mass"), 1), std::pair(tr("Gold"), 2), std::pair(tr("Of the gold"), 3)})
      put(words, column, "quiet");
    for (const results::FractionMetal& one : live_.metal) {
      ++row;
      put(to_qt(one.size), 0, "");
      put(to_qt(rounded(one.mass_pct, 1, mark)) + QStringLiteral(" %"), 1, "");
      put(one.gold ? to_qt(summary::with_unit(summary::grade_figure(*one.gold, unit::gram_per_tonne, mark))) : tr("not assayed"),
          2, one.gold ? "" : "quiet");
      if (one.gold_pct) put(to_qt(rounded(*one.gold_pct, 0, mark)) + QStringLiteral(" %"), 3, "");
    }
    grid->setColumnStretch(4, 1);
    metal_list_->addWidget(table);
  }
  auto* words = words_label(TextSize::small, live_.metal.empty() ? "quiet" : "");
  words->setText(live_.metal.empty()
                     ? tr("No size was assayed. Portions of the sizes can be fused or panned on the sample sheet.")
                     : joined_words(summary::metal_words(live_, mark)));
  metal_list_->addWidget(words);
  make_fractions_->setVisible(!made && !session_.read_only());
}

void CurvePanel::show_grinds() {
  const auto& study = result_.grinds;
  const DecimalMark mark = session_.writing.mark;
  grinds_->setVisible(!study.steps.empty());
  if (study.steps.empty()) return;
  QStringList sentences;
  for (const std::string& sentence : summary::grind_words(study, mark)) sentences << to_qt(sentence);
  IntervalPicture picture;
  picture.unit = QStringLiteral("%");
  picture.mark = mark;
  for (const results::GrindPoint& point : study.points) {
    if (!point.recovery || !point.interval || !point.interval->hi) {
      sentences << to_qt(summary::grind_point_words(point, mark));
      continue;
    }
    IntervalRow row;
    row.label = to_qt(size_in_words(point.p80, mark));
    row.value = 100 * *point.recovery;
    row.lo = std::min(row.value, 100 * point.interval->lo);
    row.hi = std::max(row.value, 100 * *point.interval->hi);
    row.words = to_qt(rounded(row.value, 0, mark)) + QStringLiteral(" %");
    picture.rows.push_back(std::move(row));
  }
  grind_words_->setText(sentences.join(QLatin1Char('\n')));
  grind_scale_->setVisible(!picture.rows.empty());
  grind_scale_->set_picture(std::move(picture));
}

void CurvePanel::save(bool svg) {
  const CurvePicture picture = view_->picture();
  QString name = to_qt(live_.label);
  name.replace(QLatin1Char('/'), QLatin1Char('-'));
  const QString ending = svg ? QStringLiteral(".svg") : QStringLiteral(".png");
  FileWish wish{FilePurpose::save, tr("Save the curve"), svg ? tr("Drawing (*.svg)") : tr("Picture (*.png)"),
                tr("sieve curve %1").arg(name) + ending};
  session_.prompter.choose_file(wish, [this, picture, svg, ending](const QString& chosen) {
    const QString path = chosen.endsWith(ending, Qt::CaseInsensitive) ? chosen : chosen + ending;
    const auto written = svg ? write_curve_svg(picture, path) : write_curve_png(picture, path);
    emit said(written.ok() ? tr("The curve was written to %1.").arg(path) : file_sentence(written.error(), path));
  });
}

}  // namespace prillbook::ui
