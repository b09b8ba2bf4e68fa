// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/kit/reason_line.h"

#include <QtGui/QKeyEvent>
#include <QtWidgets/QLineEdit>
#include <QtWidgets/QVBoxLayout>

#include "ui/kit/sentences.h"

namespace prillbook::ui {

ReasonLine::ReasonLine(QWidget* parent) : QWidget(parent), field_(new TextField(QString())) {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->addWidget(field_);
  field_->set_hint(tr("Enter writes it; Escape on an empty line leaves everything as it was"));
  field_->line()->installEventFilter(this);
  field_->on_commit([this](const std::optional<std::string>& words) -> Result<void> {
    if (!words) return Error{ErrorCode::missing_key, "reason", "a reason is needed", {}};
    return write_ ? write_(to_qt(*words)) : Result<void>{};
  });
  connect(field_, &Field::committed, this, [this] {
    hide();
    // After Enter has run its course: it steps on to the next field.
    QMetaObject::invokeMethod(this, &ReasonLine::given, Qt::QueuedConnection);
  });
  hide();
}

void ReasonLine::ask(const QString& label, std::function<Result<void>(const QString&)> write) {
  write_ = std::move(write);
  field_->leave_record();
  field_->set_label(label);
  show();
  field_->line()->setFocus(Qt::OtherFocusReason);
}

void ReasonLine::close() {
  field_->leave_record();
  if (!open()) return;
  hide();
  emit closed();
}

bool ReasonLine::eventFilter(QObject*, QEvent* event) {
  if (event->type() == QEvent::ShortcutOverride && static_cast<QKeyEvent*>(event)->key() == Qt::Key_Escape) {
    event->accept();  // it closes the line before it leaves a page
    return true;
  }
  if (event->type() != QEvent::KeyPress) return false;
  const auto* key = static_cast<QKeyEvent*>(event);
  if (key->key() != Qt::Key_Escape || field_->pending()) return false;
  close();
  return true;
}

}  // namespace prillbook::ui
