// SPDX-License-Identifier: GPL-3.0-or-later
// Numbered summaries of the client in hand: drafts and what they say, issuing, signing, amending and printing again.
#pragma once

#include <QtWidgets/QWidget>
#include <memory>
#include <optional>
#include <vector>

#include "core/exchange/issue_summary.h"
#include "ui/kit/session.h"
#include "ui/summary/signing.h"

class QLineEdit;
class QListWidget;
class QPushButton;

namespace prillbook::ui {

class DraftFields;
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

  // What the fields say, of the samples chosen.
  issue::NewDraft wish() const;
  std::vector<std::string> hidden() const;  // parts that are unticked
  bool letter() const;

  void begin_draft();
  void put_samples_in();  // those chosen, into the draft in hand
  void drop_draft();
  void issue_chosen();
  void issue_as_preliminary();  // over an open finding that stops
  void amend_chosen();
  void print_again();  // asks where to
  void stop_issuing();
  bool issuing() const;
  Signing& signing() { return *signing_; }
  DraftFields& fields() { return *fields_; }

 signals:
  void parts_changed();
  void said(const QString& words);
  void issue_ended(bool issued);

 private:
  struct Painted {
    std::string pdf;
    std::shared_ptr<issue::LabKey> key;  // none: not signed
  };
  void build_reason();
  void fill(const std::string& choose = {});
  void take_up();
  void choose();
  const issue::Summary* chosen() const;
  QString line_of(const issue::Summary& summary);
  Result<void> change_draft();
  Result<void> rewrite(const issue::Summary& draft, const issue::NewDraft& wanted);
  void print_to(const QString& path);
  void freeze(bool over);
  static std::shared_ptr<Result<Painted>> paint_and_open(const summary::Numbered& numbered, bool letter,
                                                         const std::optional<Signing::Wish>& sign, const Watch& watch);
  void keep(const std::string& number, exchange::IssueWish wish, const exchange::Prepared& ready, bool over,
            const Result<Painted>& painted);
  void end_issue(const std::string& number, bool over, const Result<void>& issued);

  Session& session_;
  DraftFields* fields_;
  QListWidget* list_;
  QPushButton *begin_, *put_in_, *drop_, *issue_, *preliminary_, *amend_, *print_, *stop_;
  QWidget* reason_;
  QLineEdit *changed_, *why_;
  Signing* signing_;
  MessageBar* news_;
  ReportRun* painting_;
  ClientId client_;
  SummaryId in_hand_;
  std::vector<SampleId> samples_;
  std::vector<issue::Summary> all_;
};

}  // namespace prillbook::ui
