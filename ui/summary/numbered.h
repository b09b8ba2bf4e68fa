// SPDX-License-Identifier: GPL-3.0-or-later
// Numbered summaries of the client in hand: what they show, drafts, issuing, amending and printing again.
#pragma once

#include <QtWidgets/QWidget>
#include <vector>

#include "core/issue/summaries.h"
#include "ui/kit/session.h"

class QCheckBox;
class QComboBox;
class QLabel;
class QLineEdit;
class QListWidget;
class QPushButton;

namespace prillbook::ui {

class MessageBar;
class ReportRun;

class NumberedSummaries : public QWidget {
  Q_OBJECT
 public:
  // `session` outlives the panel.
  explicit NumberedSummaries(Session& session, QWidget* parent = nullptr);

  // Whose summaries are listed, and what a new draft is to speak of.
  void show_client(ClientId client);
  void set_samples(std::vector<SampleId> samples);

  std::vector<std::string> hidden() const;  // parts that are unticked
  bool letter() const;

  void begin_draft();
  void issue_chosen();
  void issue_as_preliminary();  // over an open finding that stops
  void amend_chosen();
  void print_again();  // asks where to
  void stop_issuing();
  bool issuing() const;

 signals:
  void parts_changed();
  void said(const QString& words);
  void issue_ended(bool issued);

 private:
  void fill(const std::string& choose = {});
  void choose();
  const issue::Summary* chosen() const;
  QString line_of(const issue::Summary& summary);
  void print_to(const QString& path);
  void freeze(bool over);
  void end_issue(const std::string& number, bool over, const Result<void>& issued);

  Session& session_;
  QListWidget* list_;
  QComboBox* paper_;
  std::vector<QCheckBox*> parts_;
  QPushButton *begin_, *issue_, *preliminary_, *amend_, *print_, *stop_;
  QWidget* reason_;
  QLineEdit *changed_, *why_;
  MessageBar* news_;
  ReportRun* painting_;
  ClientId client_;
  std::vector<SampleId> samples_;
  std::vector<issue::Summary> all_;
};

}  // namespace prillbook::ui
