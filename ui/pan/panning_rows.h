// SPDX-License-Identifier: GPL-3.0-or-later
// The pannings of one test, a line each, and the keys that note another.
#pragma once

#include <QtWidgets/QWidget>
#include <vector>

#include "core/results/sample_record.h"
#include "ui/kit/figure_entry.h"
#include "ui/kit/session.h"

class QGridLayout;

namespace prillbook::ui {

class PressButton;

class PanningRows : public QWidget {
  Q_OBJECT
 public:
  explicit PanningRows(Session& session, QWidget* parent = nullptr);
  void show_pannings(const results::SampleRecord& record, const results::PanEntry& entry);

 signals:
  void said(const QString& words);

 private:
  struct Row {
    PanningId id;
    FigureEntry* kept;
    class QLabel* words;
  };
  void rebuild(const results::PanEntry& entry);
  void add_row(const gravity::Panning& panning);
  void add(const std::string& kind);

  Session& session_;
  PanTestId test_;
  std::vector<Row> rows_;
  QWidget* sheet_ = nullptr;
  QGridLayout* grid_ = nullptr;
  PressButton* first_;
  PressButton* repan_;
  PressButton* clean_up_;
};

}  // namespace prillbook::ui
