// SPDX-License-Identifier: GPL-3.0-or-later
// The portion in hand, and the form that cuts a new one from it or from the sample.
#pragma once

#include <QtWidgets/QWidget>

#include "core/results/sample_record.h"
#include "ui/kit/record_fields.h"

class QLabel;

namespace prillbook::ui {

class PressButton;

class PortionForm : public QWidget {
  Q_OBJECT
 public:
  explicit PortionForm(Session& session, QWidget* parent = nullptr);
  void show_portion(PortionId id);

 private:
  RecordFields* fields_;
};

// What stayed on the screen and what passed, of a portion cut for metallics: both become portions, tied together.
class ScreenForm : public QWidget {
  Q_OBJECT
 public:
  explicit ScreenForm(Session& session, QWidget* parent = nullptr);
  void show_portion(PortionId id);
  QWidget* next() const { return screen_; }

 signals:
  void screened(prillbook::PortionId coarse);

 private:
  Result<void> screen();

  Session& session_;
  PortionId portion_;
  readings::Figure opening_, coarse_mass_, fine_mass_;
  ReadingField* screen_;
  ReadingField* coarse_;
  ReadingField* fine_;
};

class CutForm : public QWidget {
  Q_OBJECT
 public:
  explicit CutForm(Session& session, QWidget* parent = nullptr);
  // What is cut comes from `parent`; none: from the sample.
  void show_parent(const results::SampleRecord& record, PortionId parent);
  QWidget* next() const { return mass_; }

 signals:
  void cut(prillbook::PortionId made);

 private:
  Result<void> cut_one(const std::optional<readings::Reading>& mass);
  void press();
  std::string usual_purpose(const results::SampleRecord& record) const;

  Session& session_;
  SampleId sample_;
  PortionId parent_;
  QLabel* head_;
  ChoiceField* purpose_;
  ReadingField* mass_;
  PressButton* button_;
};

}  // namespace prillbook::ui
