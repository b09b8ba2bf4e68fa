// SPDX-License-Identifier: GPL-3.0-or-later
// One control material: what vouches for it, what is left of it, its results and their bias.
#pragma once

#include <QtWidgets/QWidget>

#include "core/controls/materials.h"
#include "ui/kit/session.h"

class QLabel;

namespace prillbook::ui {

class ChoiceField;
class ControlPicture;
class Form;
class PressButton;
class ReadingField;
class RecordFields;

class MaterialPane : public QWidget {
  Q_OBJECT
 public:
  explicit MaterialPane(Session& session, QWidget* parent = nullptr);
  void show_material(ControlMaterialId id);
  void enter();

 signals:
  void said(const QString& words);

 private:
  Result<void> weigh_in(const std::optional<readings::Reading>& mass);
  void show_results();
  QString left_words() const;

  Session& session_;
  controls::Material material_;
  RecordFields* fields_;
  ReadingField* weigh_;
  PressButton* make_flux_;
  ReadingField* stock_;
  QLabel* left_;
  ControlPicture* picture_;
  QLabel* limits_;
  QLabel* signals_;
  QLabel* bias_;
  QWidget* values_;
  ChoiceField* meaning_;
};

}  // namespace prillbook::ui
