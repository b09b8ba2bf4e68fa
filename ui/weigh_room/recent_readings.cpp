// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/weigh_room/recent_readings.h"

#include <QtGui/QKeyEvent>
#include <QtWidgets/QHBoxLayout>
#include <QtWidgets/QLabel>
#include <QtWidgets/QLineEdit>
#include <QtWidgets/QToolButton>
#include <QtWidgets/QVBoxLayout>

#include "ui/kit/figures.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"

namespace prillbook::ui {
namespace {

constexpr int most_shown = 5;

QString figure_text(const weighing::RecentWeighing& reading) {
  const auto mass = readings::decode(reading.cell, Measure::mass);
  return mass ? text(as_typed(*mass)) : QString();
}

QString what_text(const weighing::RecentWeighing& reading) {
  const QString kind = reading.from_pan ? RecentReadings::tr("pan") : RecentReadings::tr("fire");
  const QString what = reading.what == weighing::of_gold ? RecentReadings::tr("gold after parting") : RecentReadings::tr("bead");
  return QStringLiteral("%1/%2 %3 %4").arg(to_qt(reading.sample_number)).arg(reading.portion_number).arg(kind, what);
}

// Half the way from ink to quiet at the second reading, all the way from the third on.
QColor faded(int index) {
  if (index == 0) return inks().ink;
  if (index > 1) return inks().quiet;
  const QColor a = inks().ink, b = inks().quiet;
  return QColor((a.red() + b.red()) / 2, (a.green() + b.green()) / 2, (a.blue() + b.blue()) / 2);
}

QLabel* line(const QString& words, int index, Weight weight = Weight::book) {
  auto* label = new QLabel(words);
  label->setTextFormat(Qt::PlainText);
  label->setFont(face(index == 0 ? TextSize::body : TextSize::small, weight));
  QPalette palette = label->palette();
  palette.setColor(QPalette::WindowText, faded(index));
  label->setPalette(palette);
  return label;
}

}  // namespace

RecentReadings::RecentReadings(Session& session, QWidget* parent)
    : QWidget(parent),
      session_(session),
      rows_(new QVBoxLayout),
      correction_(new QWidget),
      corrected_(new ReadingField(tr("Right figure"), {Measure::mass, "mg", session.writing.mark})),
      why_(new TextField(tr("Why it is corrected"))) {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(0);
  auto* title = new QLabel(tr("Last readings"));
  title->setFont(face(TextSize::small));
  title->setProperty("tone", "quiet");
  column->addWidget(title);
  rows_->setSpacing(0);
  column->addWidget(correction_);  // above the rows, so that it opens in sight
  column->addLayout(rows_);
  auto* fields = new QHBoxLayout(correction_);
  fields->setContentsMargins(0, rhythm / 2, 0, 0);
  fields->setSpacing(3 * rhythm);
  fields->addWidget(corrected_);
  fields->addWidget(why_, 1);
  correction_->hide();
  corrected_->on_commit([this](const std::optional<readings::Reading>& figure) -> Result<void> {
    if (!figure) return Error{ErrorCode::missing_key, "weighing.mass", "the figure is missing", {}};
    figure_ = figure;  // written with its reason
    return {};
  });
  why_->on_commit([this](const std::optional<std::string>& why) { return write_correction(why); });
  connect(why_, &Field::committed, this, &RecentReadings::close_correction);
  corrected_->line()->installEventFilter(this);
  why_->line()->installEventFilter(this);
}

void RecentReadings::refresh() {
  auto readings = weighing::recent_weighings(session_.connection, most_shown);
  if (!readings.ok()) return;
  shown_ = *std::move(readings);
  while (QLayoutItem* item = rows_->takeAt(0)) {
    if (item->widget()) item->widget()->deleteLater();
    delete item;
  }
  for (int i = 0; i < int(shown_.size()); ++i) rows_->addWidget(row(shown_[std::size_t(i)], i));
  setVisible(!shown_.empty());
}

QWidget* RecentReadings::row(const weighing::RecentWeighing& reading, int index) {
  auto* holder = new QWidget;
  auto* columns = new QHBoxLayout(holder);
  columns->setContentsMargins(0, 0, 0, 0);
  columns->setSpacing(2 * rhythm);
  auto* figure = line(figure_text(reading), index, Weight::bold);
  figure->setMinimumWidth(12 * rhythm);
  columns->addWidget(figure);
  columns->addWidget(line(what_text(reading), index));
  QString when = reading.weighed_at ? time_text(*reading.weighed_at) : QString();
  if (!reading.who.empty()) when += QLatin1Char(' ') + to_qt(reading.who);
  if (reading.excluded) when += tr(", left out");
  columns->addWidget(line(when, index));
  columns->addStretch();
  auto* button = new QToolButton;
  button->setText(tr("correct"));
  button->setAccessibleName(tr("Correct %1").arg(what_text(reading)));
  button->setFocusPolicy(Qt::TabFocus);
  connect(button, &QToolButton::clicked, this, [this, index] { correct(index); });
  auto* again = new QToolButton;
  again->setText(tr("take in hand"));
  again->setAccessibleName(tr("Take %1 in hand").arg(what_text(reading)));
  again->setFocusPolicy(Qt::TabFocus);
  connect(again, &QToolButton::clicked, this, [this, bead = reading.bead] { emit bead_wanted(bead); });
  for (QToolButton* one : {again, button}) {
    one->setFont(face(TextSize::small));
    one->setMaximumHeight(3 * rhythm + 2);
    columns->addWidget(one);
  }
  return holder;
}

void RecentReadings::correct(int index) {
  if (index < 0 || index >= count() || session_.read_only()) return;
  const weighing::RecentWeighing& reading = shown_[std::size_t(index)];
  correcting_ = reading.id;
  corrected_->leave_record();
  why_->leave_record();
  figure_.reset();
  corrected_->set_label(tr("%1: in place of %2").arg(what_text(reading), figure_text(reading)));
  correction_->show();
  corrected_->line()->setFocus(Qt::OtherFocusReason);
}

void RecentReadings::close_correction() {
  corrected_->leave_record();
  why_->leave_record();
  correction_->hide();
  correcting_ = {};
  figure_.reset();
  QMetaObject::invokeMethod(this, &RecentReadings::done, Qt::QueuedConnection);  // after Enter has run its course
}

Result<void> RecentReadings::write_correction(const std::optional<std::string>& why) {
  if (!figure_) corrected_->commit();
  if (!figure_) return Error{ErrorCode::missing_key, "weighing.mass", "the figure is missing", {}};
  if (!why) return Error{ErrorCode::missing_key, "why", "the reason is missing", {}};
  auto written = weighing::correct(session_.journal, correcting_, *figure_, *why);
  if (!written.ok()) corrected_->show_error(written.error());
  return written;
}

bool RecentReadings::eventFilter(QObject* watched, QEvent* event) {
  if (event->type() == QEvent::ShortcutOverride && static_cast<QKeyEvent*>(event)->key() == Qt::Key_Escape) {
    event->accept();  // it closes the correction before it leaves a page
    return true;
  }
  if (event->type() != QEvent::KeyPress) return false;
  if (static_cast<QKeyEvent*>(event)->key() != Qt::Key_Escape) return false;
  const Field* field = watched == why_->line() ? static_cast<Field*>(why_) : corrected_;
  if (field->pending()) return false;  // Escape first puts the typed text back
  close_correction();
  return true;
}

}  // namespace prillbook::ui
