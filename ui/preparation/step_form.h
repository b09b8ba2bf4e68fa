// SPDX-License-Identifier: GPL-3.0-or-later
// The next step on the rock in hand. Its figures are one entry: "Write the step" writes all of them together.
#pragma once

#include <QtWidgets/QWidget>

#include "core/milling/machines.h"
#include "core/results/sample_record.h"
#include "ui/kit/fields.h"
#include "ui/kit/session.h"

class QLabel;
class QVBoxLayout;

namespace prillbook::ui {

class PressButton;

class StepForm : public QWidget {
  Q_OBJECT
 public:
  explicit StepForm(Session& session, QWidget* parent = nullptr);
  void show_holder(const results::SampleRecord& record, PortionId holder, const std::vector<milling::Machine>& machines);
  void show_nothing();
  void set_machine(MachineId machine);
  void enter();

  ChoiceField* kind() const { return kind_; }
  ChoiceField* method() const { return method_; }
  ReadingField* mass_in() const { return mass_in_; }
  ReadingField* mass_out() const { return mass_out_; }
  ReadingField* top_size() const { return top_size_; }
  FlagField* closed() const { return closed_; }
  PickField* machine() const { return machine_; }
  ReadingField* part_mass(int row) const { return parts_[std::size_t(row)].mass; }
  PickField* part_purpose(int row) const { return parts_[std::size_t(row)].purpose; }
  PressButton* button() const { return write_; }
  QString refusal_words() const;

 signals:
  void written(prillbook::StepId step);

 private:
  struct PartRow {
    PickField* purpose;
    ReadingField* mass;
    std::optional<std::int64_t> chosen;
    readings::Figure figure;
  };
  void build();
  void bind();
  void show_shape();
  void show_scatter();
  bool commit_all();
  void write();
  void clear();
  void refuse(const Error& error);
  milling::NewStep entered() const;

  Session& session_;
  SampleId sample_;
  PortionId holder_;
  std::optional<Mass> left_;
  std::optional<Opening> top_size_now_;
  milling::NewStep draft_;
  QLabel* head_;
  ChoiceField* kind_;
  ChoiceField* method_;
  PickField* machine_;
  ReadingField* mass_in_;
  ReadingField* mass_out_;
  ReadingField* top_size_;
  DateTimeField* began_;
  DateTimeField* done_;
  FlagField* closed_;
  TextField* remarks_;
  QWidget* parts_part_;
  std::vector<PartRow> parts_;
  PressButton* write_;
  QLabel* refused_;
};

}  // namespace prillbook::ui
