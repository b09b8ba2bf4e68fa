// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/window/find_line.h"

#include <QtCore/QEvent>
#include <QtGui/QKeyEvent>
#include <QtWidgets/QHBoxLayout>
#include <QtWidgets/QLabel>
#include <QtWidgets/QLineEdit>
#include <QtWidgets/QListWidget>
#include <algorithm>

#include "ui/kit/icons.h"
#include "ui/kit/theme.h"

namespace prillbook::ui {
namespace {

constexpr int most = 8, answer_height = 4 * rhythm;

}  // namespace

FindLine::FindLine(Find find, QWidget* parent) : QWidget(parent), find_(std::move(find)), line_(new QLineEdit) {
  auto* row = new QHBoxLayout(this);
  row->setContentsMargins(0, 0, 0, 0);
  line_->setPlaceholderText(tr("Find: number, mark, or scan a label"));
  line_->setAccessibleName(tr("Find"));
  line_->addAction(line_icon(Icon::find), QLineEdit::LeadingPosition);
  line_->setToolTip(tr("Ctrl+F"));
  line_->installEventFilter(this);
  row->addWidget(line_);

  answers_ = new QListWidget(this);
  answers_->setProperty("floating", true);
  answers_->setFocusPolicy(Qt::NoFocus);
  answers_->setAccessibleName(tr("Found"));
  answers_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  answers_->hide();
  connect(line_, &QLineEdit::textEdited, this, &FindLine::look);
  connect(answers_, &QListWidget::itemClicked, this, [this] { choose(answers_->currentRow()); });
}

void FindLine::start() {
  line_->setFocus(Qt::ShortcutFocusReason);
  line_->selectAll();
}

void FindLine::look() {
  const QString typed = line_->text().trimmed();
  found_ = typed.isEmpty() || !find_ ? std::vector<Found>{} : find_(typed, most);
  answers_->clear();
  for (const Found& found : found_) {
    auto* item = new QListWidgetItem(QStringLiteral("%1   %2").arg(found.number, found.words), answers_);
    item->setSizeHint({0, answer_height});
  }
  if (found_.empty() && !typed.isEmpty()) {
    auto* none = new QListWidgetItem(tr("Nothing found"), answers_);
    none->setFlags(Qt::NoItemFlags);
    none->setSizeHint({0, answer_height});
  }
  if (!found_.empty()) answers_->setCurrentRow(0);
  answers_->setVisible(!typed.isEmpty());
  place_answers();
}

// The list hangs over the page, not in the line: its parent is the window.
void FindLine::place_answers() {
  if (!answers_->isVisibleTo(answers_->parentWidget())) return;
  const bool visible = answers_->isVisible();
  if (answers_->parentWidget() != window()) answers_->setParent(window());
  const QPoint corner = line_->mapTo(window(), QPoint(0, line_->height()));
  answers_->setGeometry(QRect(corner, QSize(std::max(line_->width(), 52 * rhythm), answers_->count() * answer_height + 4)));
  answers_->setVisible(true);
  if (!visible) answers_->raise();
}

void FindLine::choose(int row) {
  if (row < 0 || std::size_t(row) >= found_.size()) return;
  const RecordRef what = found_[std::size_t(row)].what;
  answers_->hide();
  line_->clear();
  emit chosen(what);
}

bool FindLine::eventFilter(QObject* watched, QEvent* event) {
  if (watched == line_ && event->type() == QEvent::FocusOut) answers_->hide();
  if (watched != line_ || event->type() != QEvent::KeyPress) return QWidget::eventFilter(watched, event);
  const int last = int(found_.size()) - 1;
  switch (static_cast<QKeyEvent*>(event)->key()) {
    case Qt::Key_Down: answers_->setCurrentRow(std::min(last, answers_->currentRow() + 1)); return true;
    case Qt::Key_Up: answers_->setCurrentRow(std::max(0, answers_->currentRow() - 1)); return true;
    case Qt::Key_Return:
    case Qt::Key_Enter: choose(answers_->currentRow()); return true;
    case Qt::Key_Escape:
      answers_->hide();
      line_->clear();
      return true;
    default: return false;
  }
}

}  // namespace prillbook::ui
