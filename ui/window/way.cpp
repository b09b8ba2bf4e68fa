// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/window/way.h"

#include <QtGui/QPainter>
#include <QtWidgets/QVBoxLayout>

#include "ui/kit/form.h"
#include "ui/kit/theme.h"

namespace prillbook::ui {

WayStep::WayStep(const QString& title, Icon icon, QWidget* parent) : QAbstractButton(parent), icon_(icon) {
  setText(title);
  setCheckable(true);
  setFocusPolicy(Qt::TabFocus);
  setCursor(Qt::PointingHandCursor);
  setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
  setAccessibleName(title);
}

void WayStep::set_waiting(int count) {
  waiting_ = count;
  setAccessibleName(count < 0 ? text() : tr("%1, %n waiting", nullptr, count).arg(text()));
  update();
}

QSize WayStep::sizeHint() const { return {22 * rhythm, 5 * rhythm}; }

void WayStep::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  const Inks& ink = inks();
  if (isChecked()) {
    painter.fillRect(rect(), ink.ground);
    painter.fillRect(QRect(0, 0, 3, height()), ink.accent);
  }
  const QColor colour = isChecked() || underMouse() ? ink.ink : ink.quiet;
  painter.drawPixmap(2 * rhythm, (height() - 22) / 2, pixmap(icon_, isChecked() ? ink.accent : colour, 22, devicePixelRatioF()));
  painter.setFont(face(TextSize::body, isChecked() ? Weight::bold : Weight::book));
  painter.setPen(ink.ink);
  const QRect words = rect().adjusted(6 * rhythm, 0, -2 * rhythm, 0);
  painter.drawText(words, Qt::AlignVCenter | Qt::AlignLeft, text());
  if (waiting_ >= 0) {
    painter.setFont(face(TextSize::body, waiting_ > 0 ? Weight::bold : Weight::book));
    painter.setPen(waiting_ > 0 ? ink.ink : ink.quiet);
    painter.drawText(words, Qt::AlignVCenter | Qt::AlignRight, QString::number(waiting_));
  }
  if (!hasFocus()) return;
  painter.setPen(QPen(ink.accent, 2));
  painter.drawRect(rect().adjusted(1, 1, -1, -1));
}

Way::Way(QWidget* parent) : QWidget(parent), column_(new QVBoxLayout(this)) {
  column_->setContentsMargins(0, 2 * rhythm, 0, 2 * rhythm);
  column_->setSpacing(0);
  column_->addStretch();
  setAccessibleName(tr("The way of the rock"));
}

WayStep* Way::add(const QString& title, Icon icon) {
  auto* step = new WayStep(title, icon);
  const int index = int(steps_.size());
  connect(step, &QAbstractButton::clicked, this, [this, index] { emit chosen(index); });
  column_->insertWidget(column_->count() - 1, step);
  steps_.push_back(step);
  return step;
}

void Way::add_rule() {
  auto* holder = new QWidget;
  auto* layout = new QVBoxLayout(holder);
  layout->setContentsMargins(2 * rhythm, rhythm, 2 * rhythm, rhythm);
  layout->addWidget(hairline(holder));
  column_->insertWidget(column_->count() - 1, holder);
}

void Way::set_waiting(int step, int count) { steps_[std::size_t(step)]->set_waiting(count); }

void Way::show_current(int step) {
  for (std::size_t i = 0; i < steps_.size(); ++i) steps_[i]->setChecked(int(i) == step);
}

void Way::paintEvent(QPaintEvent*) { QPainter(this).fillRect(rect(), inks().shaded); }

}  // namespace prillbook::ui
