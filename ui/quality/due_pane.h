// SPDX-License-Identifier: GPL-3.0-or-later
// What is due, how often the lab wants it, and a new control material.
#pragma once

#include <QtWidgets/QWidget>
#include <vector>

#include "core/controls/insertion.h"
#include "ui/kit/session.h"

class QLabel;

namespace prillbook::ui {

class ChoiceField;
class RowList;
class TextField;
class WholeField;

class DuePane : public QWidget {
  Q_OBJECT
 public:
  explicit DuePane(Session& session, QWidget* parent = nullptr);
  void refresh();
  void enter();

 signals:
  void made(prillbook::ControlMaterialId id);

 private:
  WholeField* setting(const QString& label, const char* name);
  Result<void> add(const std::optional<std::string>& kind);

  struct Setting {
    WholeField* field;
    std::string name;
  };
  Session& session_;
  QLabel* teach_;
  RowList* list_;
  std::vector<Setting> settings_;
  TextField* name_;
  ChoiceField* kind_;
  std::string fresh_name_;
};

}  // namespace prillbook::ui
