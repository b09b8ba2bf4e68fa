// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/kit/bench.h"

#include <QtGui/QResizeEvent>
#include <QtWidgets/QHBoxLayout>
#include <QtWidgets/QScrollArea>
#include <QtWidgets/QToolButton>
#include <QtWidgets/QVBoxLayout>

#include "ui/kit/form.h"
#include "ui/kit/icons.h"
#include "ui/kit/theme.h"

namespace prillbook::ui {

Bench::Bench(QWidget* waiting, QWidget* in_hand, QWidget* parent) : QWidget(parent), waiting_(waiting), in_hand_(in_hand) {
  auto* columns = new QHBoxLayout(this);
  columns->setContentsMargins(0, 0, 0, 0);
  columns->setSpacing(0);
  waiting_->setFixedWidth(38 * rhythm);

  toggle_ = new QToolButton;
  toggle_->setCheckable(true);
  toggle_->setToolButtonStyle(Qt::ToolButtonTextBesideIcon);
  toggle_->setText(tr("Waiting"));
  toggle_->setIcon(line_icon(Icon::fold));
  connect(toggle_, &QToolButton::toggled, this, [this](bool shown) { show_waiting(shown); });

  scroll_ = new QScrollArea;
  scroll_->setWidgetResizable(true);
  scroll_->setFrameShape(QFrame::NoFrame);
  scroll_->setFocusPolicy(Qt::NoFocus);
  in_hand->setContentsMargins(3 * rhythm, rhythm, 3 * rhythm, rhythm);
  in_hand->setAutoFillBackground(false);
  in_hand->setParent(scroll_->viewport());
  scroll_->viewport()->setAutoFillBackground(false);

  auto* second = new QVBoxLayout;
  second->setContentsMargins(0, 0, 0, 0);
  second->setSpacing(0);
  auto* fold_row = new QHBoxLayout;
  fold_row->setContentsMargins(2 * rhythm, rhythm, 0, 0);
  fold_row->addWidget(toggle_);
  fold_row->addStretch();
  second->addLayout(fold_row);
  second->addWidget(scroll_);

  columns->addWidget(waiting_);
  columns->addWidget(hairline_upright(this));
  columns->addLayout(second, 1);
  toggle_->hide();
}

bool Bench::waiting_shown() const { return !waiting_->isHidden(); }

void Bench::show_waiting(bool shown) {
  waiting_->setVisible(shown);
  toggle_->setChecked(shown);
}

// The scroll area measures what it is given, and whatever was measured is styled anew at each move to another parent: it
// is given what is in hand once the bench stands where it stays.
void Bench::showEvent(QShowEvent* event) {
  if (!scroll_->widget()) scroll_->setWidget(in_hand_);
  QWidget::showEvent(event);
}

void Bench::resizeEvent(QResizeEvent* event) {
  QWidget::resizeEvent(event);
  const bool narrow = event->size().width() < fold_width;
  if (narrow != folded_) fold(narrow);
}

void Bench::fold(bool folded) {
  folded_ = folded;
  toggle_->setVisible(folded);
  show_waiting(!folded);
}

}  // namespace prillbook::ui
