// SPDX-License-Identifier: GPL-3.0-or-later
// The sample in hand at Receiving. Without one, its mark logs it and the lab number appears; Enter on the last field
// and on "Next sample" leads to the next.
#pragma once

#include <QtWidgets/QWidget>

#include "core/custody/custody.h"
#include "ui/kit/record_fields.h"

class QLabel;

namespace prillbook::ui {

class FindingsPanel;
class Fold;
class HandOverForm;
class PressButton;

class SampleForm : public QWidget {
  Q_OBJECT
 public:
  explicit SampleForm(Session& session, QWidget* parent = nullptr);
  // `sample` none: the next one of the consignment.
  void show_sample(ConsignmentId consignment, SampleId sample);
  SampleId sample() const { return SampleId{fields_->record()}; }
  void refresh();
  void enter();
  void enter_received_mass();

 signals:
  void logged(prillbook::SampleId id);
  void next_wanted();
  void sweepings_wanted();
  void sheet_wanted();
  void custody_record_wanted();

 private:
  void bind();
  Result<void> write_mark(RecordId record, const history::Value& mark, const RecordFields::Why& why);
  void show_state();
  QWidget* buttons();

  Session& session_;
  ConsignmentId consignment_;
  SampleId shown_;
  RecordFields* fields_;
  TextField* mark_;
  FigureEntry* received_;
  QLabel* head_;
  QWidget* after_;
  PressButton* next_;
  PressButton* sweepings_;
  PressButton* sheet_;
  PressButton* record_;
  HandOverForm* hand_over_;
  Fold* holder_;
  FindingsPanel* findings_;
};

}  // namespace prillbook::ui
