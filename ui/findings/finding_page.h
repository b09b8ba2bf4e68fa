// SPDX-License-Identifier: GPL-3.0-or-later
// One finding in hand: what was seen with its records, why it matters, what to do, and its answer.
#pragma once

#include <QtWidgets/QWidget>
#include <string>

#include "core/findings/board.h"
#include "ui/kit/session.h"
#include "ui/kit/station.h"

class QLabel;
class QVBoxLayout;

namespace prillbook::ui {

class Fold;
class FindingsPanel;
class Headline;
class Ledger;
class PressButton;
class TextField;

class FindingPage : public QWidget {
  Q_OBJECT
 public:
  explicit FindingPage(Session& session, QWidget* parent = nullptr);

  // The finding of this rule as the notebook has it now; an answer being typed stays.
  void show_finding(SampleId sample, const std::string& rule);
  void show_nothing(const QString& words);
  Ledger* evidence() const { return evidence_; }
  TextField* answer_field() const { return answer_; }
  // To where the next thing is typed.
  void enter();

 signals:
  void open_requested(const prillbook::ui::RecordRef& wanted);

 private:
  void build();
  void show_open(const findings::OpenOrAnswered& entry);
  void show_gone();
  void show_head();
  void show_past(const std::vector<findings::OpenOrAnswered>& standing);
  void bind_answer(const findings::Finding& finding);
  Result<void> write_answer(const findings::Finding& finding, const std::optional<std::string>& words);

  Session& session_;
  SampleId sample_;
  std::string rule_;
  std::vector<findings::Evidence> behind_;
  std::string bound_to_;  // the finding whose answer is being typed
  Headline* head_;
  QWidget* row_ = nullptr;  // severity and rule
  QVBoxLayout* row_place_;
  QLabel* seen_;
  QLabel* held_;
  QLabel* why_;
  QLabel* to_do_;
  QLabel* source_;
  QWidget* body_;
  Ledger* evidence_;
  QLabel* explained_;
  TextField* answer_;
  QLabel* past_;
  PressButton* sheet_;
  FindingsPanel* others_;
  Fold* others_fold_;
};

}  // namespace prillbook::ui
