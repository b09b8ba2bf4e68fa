// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/sieves/sieve_lines.h"

#include <QtWidgets/QGridLayout>
#include <QtWidgets/QLabel>
#include <QtWidgets/QLineEdit>
#include <QtWidgets/QVBoxLayout>
#include <algorithm>

#include "core/assay/rounding.h"
#include "ui/kit/form.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"

namespace prillbook::ui {
namespace {

QLabel* small_label(const QString& words, const char* tone) {
  auto* label = new QLabel(words);
  label->setFont(face(TextSize::small));
  label->setProperty("tone", tone);
  label->setTextFormat(Qt::PlainText);
  return label;
}

QString line_name(const sieves::Cut& cut, DecimalMark mark) {
  return cut.opening ? to_qt(opening_in_words(*cut.opening, mark)) : SieveLines::tr("Pan");
}

// "200 ASTM E11"; empty where the rim says no more than the opening.
QString rim_words(const sieves::Cut& cut) {
  if (!cut.series) return {};
  const QString name = to_qt(cut.name);
  const bool by_number = std::all_of(name.begin(), name.end(), [](QChar c) { return c.isDigit() || c == QLatin1Char('.'); });
  const QString series = to_qt(series_words(*cut.series));
  return by_number ? name + QLatin1Char(' ') + series : series;
}

}  // namespace

SieveLines::SieveLines(Session& session, QWidget* parent) : QWidget(parent), session_(session) {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
}

void SieveLines::show_analysis(const sieves::Analysis& analysis) {
  const bool same =
      analysis.id == analysis_ && std::equal(lines_.begin(), lines_.end(), analysis.cuts.begin(), analysis.cuts.end(),
                                             [](const Line& line, const sieves::Cut& cut) { return line.cut == cut.id; });
  if (!same) rebuild(analysis);
  for (std::size_t i = 0; i < lines_.size(); ++i) lines_[i].mass->set_value(analysis.cuts[i].retained);
  for (Line& line : lines_)
    if (!line.mass->field()->pending()) line.typed.reset();
}

void SieveLines::rebuild(const sieves::Analysis& analysis) {
  for (const Line& line : lines_) line.mass->field()->leave_record();  // typed text stays as a draft
  if (sheet_) {
    sheet_->hide();
    sheet_->deleteLater();
  }
  lines_.clear();
  analysis_ = analysis.id;
  sheet_ = new QWidget;
  grid_ = new QGridLayout(sheet_);
  grid_->setContentsMargins(0, 0, 0, 0);
  grid_->setHorizontalSpacing(2 * rhythm);
  grid_->setVerticalSpacing(0);
  grid_->setColumnStretch(2, 1);
  grid_->addWidget(small_label(tr("Sieve"), "quiet"), 0, 0);
  grid_->addWidget(small_label(tr("On it"), "quiet"), 0, 1);
  grid_->addWidget(small_label(tr("Passing"), "quiet"), 0, 2);
  lines_.reserve(analysis.cuts.size());
  int row = 1;
  for (const sieves::Cut& cut : analysis.cuts) add_line(cut, row++);
  layout()->addWidget(sheet_);
}

void SieveLines::add_line(const sieves::Cut& cut, int row) {
  const QString name = line_name(cut, session_.writing.mark);
  auto* words = new QWidget;
  auto* column = new QVBoxLayout(words);
  column->setContentsMargins(0, 3, 0, 3);
  column->setSpacing(0);
  auto* opening = new QLabel(name);
  opening->setFont(face(TextSize::body, Weight::bold));
  column->addWidget(opening);
  if (const QString rim = rim_words(cut); !rim.isEmpty()) column->addWidget(small_label(rim, "quiet"));
  grid_->addWidget(words, row, 0, Qt::AlignTop);
  const QString label = cut.opening ? tr("On %1").arg(name) : tr("In the pan");
  auto* mass = new FigureEntry(label, {Measure::mass, "g", session_.writing.mark, true});
  mass->field()->set_in_row(true);
  mass->field()->set_width_in_digits(8);
  mass->field()->set_read_only(session_.read_only());
  mass->field()->keep_drafts(session_.drafts, QStringLiteral("sieve_cut/%1/retained").arg(cut.id.value));
  const SieveCutId id = cut.id;
  mass->on_commit(
      [this, id](const auto& reading, const auto& why) { return sieves::set_retained(session_.journal, id, reading, why); });
  const std::size_t place = lines_.size();
  mass->field()->on_typing([this, place](const readings::Reading* reading) {
    if (place >= lines_.size()) return;
    lines_[place].typed = reading ? std::optional(*reading) : std::nullopt;
    emit typing();
  });
  grid_->addWidget(mass, row, 1, Qt::AlignTop);
  auto* behind = small_label({}, "quiet");
  behind->setContentsMargins(0, 6, 0, 0);
  behind->setWordWrap(true);
  grid_->addWidget(behind, row, 2, Qt::AlignTop);
  lines_.push_back({id, cut.opening, mass, behind, {}});
}

sieves::Analysis SieveLines::as_typed(const sieves::Analysis& written) const {
  sieves::Analysis typed = written;
  for (const Line& line : lines_)
    for (sieves::Cut& cut : typed.cuts)
      if (cut.id == line.cut && line.typed && line.typed->measure == Measure::mass) cut.retained = line.typed;
  return typed;
}

void SieveLines::show_result(const results::SizeResult& result, const std::vector<SieveRow>& so_far) {
  const auto& rows = result.curve ? result.curve->rows : so_far;
  for (const Line& line : lines_) {
    QString words;
    for (const SieveRow& row : rows)
      if (line.opening && row.opening == *line.opening)
        words = to_qt(rounded(row.passing_pct, 1, session_.writing.mark)) + QStringLiteral(" %");
    bool overloaded = false;
    for (const results::Overload& overload : result.overloads)
      if (overload.cut == line.cut) {
        overloaded = true;
        words += tr(" · overloaded, carries %1 g").arg(to_qt(rounded(overload.limit.in(unit::gram), 0, session_.writing.mark)));
      }
    line.behind->setText(words);
    line.behind->setProperty("tone", overloaded ? "signal" : "quiet");
    restyle(line.behind);
  }
}

void SieveLines::enter() {
  for (const Line& line : lines_)
    if (line.mass->field()->typed().isEmpty()) {
      line.mass->setFocus(Qt::OtherFocusReason);
      return bring_into_view(line.mass);
    }
  if (!lines_.empty()) lines_.front().mass->setFocus(Qt::OtherFocusReason);
}

}  // namespace prillbook::ui
