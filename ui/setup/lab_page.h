// SPDX-License-Identifier: GPL-3.0-or-later
// Settings of the lab, each a field that writes itself.
#pragma once

#include <QtWidgets/QWidget>
#include <string>
#include <utility>
#include <vector>

#include "core/lab/settings.h"
#include "ui/kit/fields.h"
#include "ui/kit/session.h"

namespace prillbook::ui {

// One setting on a line; a limit is a bare number, with a point or a comma as the lab writes.
class SettingField : public TextField {
  Q_OBJECT
 public:
  SettingField(Session& session, const std::string& name, const QString& label);
  void refresh(const lab::Settings& settings);

 private:
  std::string name_;
};

class LabPage : public QWidget {
  Q_OBJECT
 public:
  enum class Shows {
    lab,     // name, address, contact, how numbers are written
    limits,  // every other setting, with its meaning and where its default comes from
  };
  LabPage(Session& session, Shows shows, QWidget* parent = nullptr);
  void refresh();

 private:
  void build_lab();
  void build_limits();

  Session& session_;
  std::vector<SettingField*> fields_;
  ChoiceField* mark_ = nullptr;
};

}  // namespace prillbook::ui
