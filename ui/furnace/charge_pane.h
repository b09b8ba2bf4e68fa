// SPDX-License-Identifier: GPL-3.0-or-later
// One portion at the furnace: what its charge is designed from, what was weighed in, and what the fire did.
#pragma once

#include <QtWidgets/QWidget>
#include <span>

#include "core/fire/design_record.h"
#include "ui/kit/session.h"

class QLabel;
class QVBoxLayout;

namespace prillbook::ui {

class Field;
class Fold;
class PickField;
class PressButton;
class RecordFields;

class ChargePane : public QWidget {
  Q_OBJECT
 public:
  explicit ChargePane(Session& session, QWidget* parent = nullptr);
  void show_portion(PortionId portion);  // with its newest charge, if any
  void refresh();
  void enter();

 signals:
  void said(const QString& words);

 private:
  QWidget* build_design();
  QWidget* build_weighed();
  Field* signs(const QString& label, const history::Field& field, std::span<const std::string_view> words);
  QWidget* build_fusion();
  QWidget* build_cupellation();
  QWidget* build_parting();
  void show_design();
  void show_parting();
  void fill_picks();
  void start();
  Result<void> start_test(const history::Field& field, const history::Value& value);

  Session& session_;
  PortionId portion_, shown_;
  SampleId sample_;
  ChargeId charge_;
  ChargeId to_repeat_;
  RecordFields* design_;
  RecordFields* test_;
  RecordFields* weighed_;
  RecordFields* bead_;
  std::vector<PickField*> litharge_lots_, flux_lots_, lead_lots_, pots_, runs_, recipes_;
  QWidget* own_;  // of a charge
  QLabel* repeats_;
  PressButton* start_;
  QLabel* button_words_;
  QLabel* mixture_;
  QWidget* warnings_;
  QVBoxLayout* warnings_column_;
  QLabel* sources_;
  QLabel* power_;
  QLabel* parting_;
};

}  // namespace prillbook::ui
