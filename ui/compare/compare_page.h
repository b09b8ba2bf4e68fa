// SPDX-License-Identifier: GPL-3.0-or-later
// One sample, pan against fire.
#pragma once

#include <QtWidgets/QWidget>
#include <optional>

#include "core/findings/finding.h"
#include "core/summary/gather.h"
#include "ui/kit/session.h"

class QGridLayout;
class QLabel;
class QPushButton;
class QToolButton;
class QVBoxLayout;

namespace prillbook::ui {

class DoubtBars;
class DrawsPanel;
class Fold;
class Headline;
class IntervalScale;
class ReasonLine;

class ComparePage : public QWidget {
  Q_OBJECT
 public:
  explicit ComparePage(Session& session, QWidget* parent = nullptr);
  // Shows the sample as the notebook has it; an answer being typed stays.
  void show_sample(SampleId sample);
  void show_nothing(const QString& words);

  QString verdict() const;
  ReasonLine* reason() const { return reason_; }
  QPushButton* sheet_button() const { return sheet_; }

 signals:
  void sheet_wanted();

 private:
  void build();
  void show_picture(const summary::SummarySample& sample);
  void show_words(const summary::SummarySample& sample);
  void show_figures(const summary::SummarySample& sample);
  void show_doubt(const summary::SummarySample& sample);
  void show_tests(const summary::SummarySample& sample);
  void show_findings();
  void add_finding(const findings::OpenOrAnswered& entry);
  void ask_for_answer(const findings::Finding& finding);

  Session& session_;
  Headline* head_;
  IntervalScale* scale_;
  QLabel* verdict_;
  QLabel* next_;
  QLabel* beside_;
  DrawsPanel* draws_;
  Fold* draws_fold_;
  QWidget* figures_;
  QGridLayout* figure_grid_;
  QWidget* doubt_;
  QLabel* doubt_title_;
  DoubtBars* bars_;
  QLabel* remedy_;
  QWidget* tests_;
  QGridLayout* test_grid_;
  QVBoxLayout* findings_;
  QToolButton* more_;
  ReasonLine* reason_;
  QPushButton* sheet_;
  SampleId sample_;
  bool unfolded_ = false;
};

}  // namespace prillbook::ui
