// SPDX-License-Identifier: GPL-3.0-or-later
// Who is working: initials said once, standing beside every entry from then on.
#pragma once

#include <QtWidgets/QToolButton>
#include <functional>
#include <vector>

#include "core/base/result.h"

class QLineEdit;
class QMenu;

namespace prillbook::ui {

class WorkerChooser : public QToolButton {
  Q_OBJECT
 public:
  WorkerChooser(std::function<std::vector<QString>()> people, std::function<Result<void>(const QString&)> new_person,
                QWidget* parent = nullptr);
  void show_worker(const QString& initials);  // empty: nobody has said

 signals:
  void chosen(const QString& initials);
  void refused(const prillbook::Error& error);

 private:
  void fill();
  void take_new();

  std::function<std::vector<QString>()> people_;
  std::function<Result<void>(const QString&)> new_person_;
  QMenu* menu_;
  QLineEdit* new_line_ = nullptr;
};

}  // namespace prillbook::ui
