// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/setup/page_line.h"

#include <QtCore/QEvent>
#include <QtCore/QSignalBlocker>
#include <QtGui/QKeyEvent>
#include <QtWidgets/QHBoxLayout>
#include <QtWidgets/QLabel>
#include <QtWidgets/QLineEdit>
#include <algorithm>

#include "ui/kit/icons.h"
#include "ui/kit/press_button.h"
#include "ui/kit/theme.h"

namespace prillbook::ui {

PageLine::PageLine(const QString& heading, QWidget* parent)
    : QWidget(parent),
      find_(new QLineEdit),
      range_(new QLabel),
      back_(new PressButton(tr("Page back"))),
      on_(new PressButton(tr("Page on"))) {
  const QString name = tr("Find: %1").arg(heading.toLower());
  find_->setPlaceholderText(name);
  find_->setAccessibleName(name);
  find_->setToolTip(tr("Page Up and Page Down turn the page"));
  find_->addAction(line_icon(Icon::find), QLineEdit::LeadingPosition);
  find_->setClearButtonEnabled(true);
  find_->installEventFilter(this);
  range_->setFont(face(TextSize::small));
  range_->setProperty("tone", "quiet");
  auto* row = new QHBoxLayout(this);
  row->setContentsMargins(0, 0, 0, rhythm);
  row->setSpacing(rhythm);
  row->addWidget(find_, 1);
  row->addSpacing(rhythm);
  row->addWidget(range_);
  row->addStretch(1);
  row->addWidget(back_);
  row->addWidget(on_);
  connect(find_, &QLineEdit::textChanged, this, [this] {
    first_ = 0;
    emit turned();
  });
  connect(back_, &QPushButton::clicked, this, [this] { turn(-1); });
  connect(on_, &QPushButton::clicked, this, [this] { turn(1); });
  hide();
}

QString PageLine::wanted() const { return find_->text().trimmed(); }

void PageLine::set_rows(int found, int all) {
  found_ = found;
  first_ = std::clamp(first_, 0, std::max(0, (found - 1) / page_size * page_size));
  const int last = std::min(found, first_ + page_size);
  range_->setText(found == 0 ? tr("Nothing found") : tr("%1–%2 of %3").arg(first_ + 1).arg(last).arg(found));
  back_->setEnabled(first_ > 0);
  on_->setEnabled(last < found);
  setVisible(all > page_size);
}

void PageLine::show_row(int row) {
  const QSignalBlocker silent(find_);
  find_->clear();
  first_ = row / page_size * page_size;
}

void PageLine::turn(int pages) {
  const int to = first_ + pages * page_size;
  if (to < 0 || to >= found_) return;
  first_ = to;
  emit turned();
}

bool PageLine::eventFilter(QObject* watched, QEvent* event) {
  if (event->type() != QEvent::KeyPress) return QWidget::eventFilter(watched, event);
  switch (static_cast<QKeyEvent*>(event)->key()) {
    case Qt::Key_PageUp: turn(-1); return true;
    case Qt::Key_PageDown: turn(1); return true;
    case Qt::Key_Down:
    case Qt::Key_Return:
    case Qt::Key_Enter: emit entered(); return true;
    default: return QWidget::eventFilter(watched, event);
  }
}

}  // namespace prillbook::ui
