// SPDX-License-Identifier: GPL-3.0-or-later
// A lot that was milled for its owner: what was weighed and assayed of it, and the account that follows.
#pragma once

#include <QtWidgets/QWidget>

#include "core/base/id.h"
#include "ui/kit/session.h"

class QLabel;

namespace prillbook::ui {

class PressButton;
class RecordFields;

class MillingPanel : public QWidget {
  Q_OBJECT
 public:
  explicit MillingPanel(Session& session, QWidget* parent = nullptr);

  // The sample that may stand for a head; none hides the panel's fields.
  void show_sample(SampleId sample);
  void refresh();
  void begin();

 private:
  QWidget* build_form();
  void show_account();
  void refuse(const Error& error);

  Session& session_;
  SampleId sample_;
  PressButton* begin_;
  RecordFields* fields_;
  QWidget* form_;
  QLabel *words_, *refused_, *account_;
};

}  // namespace prillbook::ui
