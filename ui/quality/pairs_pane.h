// SPDX-License-Identifier: GPL-3.0-or-later
// Duplicates: how far they lie apart, against their grade, and a new pair.
#pragma once

#include <QtWidgets/QWidget>

#include "core/results/duplicate_pairs.h"
#include "ui/kit/session.h"
#include "ui/kit/station.h"

class QLabel;

namespace prillbook::ui {

class ChoiceField;
class PairsPicture;
class RowList;
class TextField;

class PairsPane : public QWidget {
  Q_OBJECT
 public:
  explicit PairsPane(Session& session, QWidget* parent = nullptr);
  void refresh();
  void enter();

 signals:
  void open_requested(const prillbook::ui::RecordRef& wanted);

 private:
  Result<void> join(const std::optional<std::string>& kind);
  void show_statistics(const std::vector<results::DuplicatePair>& pairs);

  Session& session_;
  PairsPicture* picture_;
  QLabel* statistics_;
  RowList* list_;
  TextField* second_;
  TextField* first_;
  ChoiceField* kind_;
  std::string second_label_, first_label_;
};

}  // namespace prillbook::ui
