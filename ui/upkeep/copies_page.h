// SPDX-License-Identifier: GPL-3.0-or-later
// The copies of the notebook: where they go, what each holds, what parts it from today, and the way back to it.
#pragma once

#include <QtWidgets/QWidget>
#include <functional>
#include <optional>
#include <vector>

#include "core/upkeep/copies.h"
#include "core/upkeep/difference.h"
#include "ui/kit/session.h"

class QLabel;
class QThread;

namespace prillbook::ui {

class CopyKeeper;
class Headline;
class MessageBar;
class PressButton;
class TextField;
class WaitingList;

class CopiesPage : public QWidget {
  Q_OBJECT
 public:
  // `keeper` outlives the page.
  CopiesPage(Session& session, CopyKeeper& keeper, QWidget* parent = nullptr);
  ~CopiesPage() override;  // waits for a look that is being taken
  void refresh();
  void enter();
  QString guide_page() const { return QStringLiteral("copies"); }
  const std::vector<upkeep::Copy>& copies() const { return copies_; }
  bool looking() const { return worker_ != nullptr; }
  QString difference_words() const;

 signals:
  // The person wants this copy in the place of the notebook: a plain file that was looked at.
  void restore_wanted(const QString& copy);
  void salvage_wanted();  // the notebook is damaged: what reads of it into a new one
  void looked();

 protected:
  void showEvent(QShowEvent* event) override;

 private:
  struct Look {
    upkeep::Holds holds;
    upkeep::Difference difference;
    std::string opened;  // the plain file
  };
  QWidget* build_places();
  QWidget* build_in_hand();
  TextField* place_field(const QString& label, const QString& hint, std::string upkeep::CopyPlaces::*place);
  void take(RecordId number);
  void choose_another();
  void look(std::string passphrase);
  void end_look(const Result<Look>& look);
  void show_look();
  void show_state();
  void ask_to_restore();
  void forget_opened();

  Session& session_;
  CopyKeeper& keeper_;
  std::vector<upkeep::Copy> copies_;
  std::optional<upkeep::Copy> in_hand_;
  std::optional<Look> look_;
  std::string opened_;  // what a sealed copy was opened into; goes with the page
  QThread* worker_ = nullptr;
  Headline* head_;
  WaitingList* list_;
  TextField* first_;
  TextField* second_;
  PressButton* take_;
  PressButton* salvage_;
  PressButton* another_;
  Headline* copy_head_;
  TextField* passphrase_;
  QLabel* holds_;
  QLabel* parts_;
  QLabel* newest_;
  MessageBar* news_;
  PressButton* restore_;
};

}  // namespace prillbook::ui
