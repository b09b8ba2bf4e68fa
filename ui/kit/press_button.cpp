// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/kit/press_button.h"

#include <QtCore/QTimer>
#include <QtGui/QKeyEvent>
#include <QtWidgets/QScrollArea>
#include <QtWidgets/QVBoxLayout>
#include <algorithm>

#include "ui/kit/theme.h"

namespace prillbook::ui {
namespace {

// Once the layout has settled: as much of `fold` as there is room for, from its first line.
void bring_up(QWidget* fold) {
  QTimer::singleShot(0, fold, [fold] {
    for (QWidget* place = fold->parentWidget(); place; place = place->parentWidget())
      if (auto* scroll = qobject_cast<QScrollArea*>(place)) {
        const int half = std::min(fold->height(), scroll->viewport()->height()) / 2;
        const QPoint top = fold->mapTo(scroll->widget(), QPoint());
        return scroll->ensureVisible(top.x(), top.y() + half, 0, half);
      }
  });
}

bool is_enter(const QKeyEvent* event) { return event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter; }

}  // namespace

PressButton::PressButton(const QString& words, Rank rank, QWidget* parent) : QPushButton(words, parent) {
  setProperty("main", rank == Rank::main);
  setAutoDefault(false);
  setFont(face(TextSize::body));
}

void PressButton::keyPressEvent(QKeyEvent* event) {
  if (is_enter(event))
    click();
  else
    QPushButton::keyPressEvent(event);
}

Fold::Fold(const QString& words, QWidget* content, QWidget* parent)
    : QWidget(parent), button_(new QToolButton), content_(content) {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(rhythm);
  button_->setText(words);
  button_->setCheckable(true);
  button_->setToolButtonStyle(Qt::ToolButtonTextBesideIcon);
  button_->setFont(face(TextSize::body));
  button_->setFocusPolicy(Qt::StrongFocus);
  button_->setStyleSheet(QStringLiteral("QToolButton { padding-left: 0; }"));
  button_->installEventFilter(this);
  connect(button_, &QToolButton::toggled, this, &Fold::set_open);
  connect(button_, &QToolButton::clicked, this, [this](bool open) {
    if (open) bring_up(this);
  });
  column->addWidget(button_, 0, Qt::AlignLeft);
  column->addWidget(content_);
  set_open(false);
}

void Fold::set_open(bool open) {
  button_->setChecked(open);
  button_->setArrowType(open ? Qt::DownArrow : Qt::RightArrow);
  content_->setVisible(open);
}

bool Fold::is_open() const { return !content_->isHidden(); }

bool Fold::eventFilter(QObject* watched, QEvent* event) {
  if (watched != button_ || event->type() != QEvent::KeyPress || !is_enter(static_cast<QKeyEvent*>(event)))
    return QWidget::eventFilter(watched, event);
  button_->click();
  return true;
}

}  // namespace prillbook::ui
