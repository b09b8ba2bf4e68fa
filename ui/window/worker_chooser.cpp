// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/window/worker_chooser.h"

#include <QtWidgets/QLineEdit>
#include <QtWidgets/QMenu>
#include <QtWidgets/QWidgetAction>

#include "ui/kit/icons.h"
#include "ui/kit/theme.h"

namespace prillbook::ui {

WorkerChooser::WorkerChooser(std::function<std::vector<QString>()> people, std::function<Result<void>(const QString&)> new_person,
                             QWidget* parent)
    : QToolButton(parent), people_(std::move(people)), new_person_(std::move(new_person)), menu_(new QMenu(this)) {
  setToolButtonStyle(Qt::ToolButtonTextBesideIcon);
  setIcon(line_icon(Icon::person));
  setIconSize({20, 20});
  setPopupMode(QToolButton::InstantPopup);
  setMenu(menu_);
  connect(menu_, &QMenu::aboutToShow, this, &WorkerChooser::fill);
  show_worker({});
}

void WorkerChooser::show_worker(const QString& initials) {
  setText(initials.isEmpty() ? tr("Who is working?") : tr("%1 working").arg(initials));
  setAccessibleName(text());
}

void WorkerChooser::fill() {
  menu_->clear();
  for (const QString& initials : people_ ? people_() : std::vector<QString>{})
    connect(menu_->addAction(initials), &QAction::triggered, this, [this, initials] { emit chosen(initials); });
  if (!new_person_) return;
  menu_->addSeparator();
  auto* holder = new QWidgetAction(menu_);
  new_line_ = new QLineEdit;
  new_line_->setPlaceholderText(tr("somebody else: initials"));
  new_line_->setAccessibleName(tr("Initials of somebody else"));
  new_line_->setMaxLength(8);
  new_line_->setContentsMargins(3 * rhythm, 0, 3 * rhythm, rhythm);
  connect(new_line_, &QLineEdit::returnPressed, this, &WorkerChooser::take_new);
  holder->setDefaultWidget(new_line_);
  menu_->addAction(holder);
}

void WorkerChooser::take_new() {
  const QString initials = new_line_->text().trimmed();
  if (initials.isEmpty()) return;
  const auto made = new_person_(initials);
  menu_->hide();
  if (made.ok())
    emit chosen(initials);
  else
    emit refused(made.error());
}

}  // namespace prillbook::ui
