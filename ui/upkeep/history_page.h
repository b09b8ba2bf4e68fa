// SPDX-License-Identifier: GPL-3.0-or-later
// Every version of one record, or of a sample with all that belongs to it, newest first.
#pragma once

#include <QtWidgets/QWidget>

#include "core/versions/versions.h"
#include "ui/kit/session.h"
#include "ui/kit/station.h"

class QLabel;

namespace prillbook::ui {

class Headline;
class HistoryTable;
class PressButton;

class HistoryPage : public QWidget {
  Q_OBJECT
 public:
  explicit HistoryPage(Session& session, QWidget* parent = nullptr);
  // False where nothing is told of it.
  bool show_record(const RecordRef& wanted);
  void enter();
  int count() const;  // entries
  QString guide_page() const { return QStringLiteral("history"); }

 signals:
  void open_requested(const prillbook::ui::RecordRef& wanted);
  void journal_requested();

 private:
  bool refresh();
  void show_whole();

  Session& session_;
  RecordRef record_;
  Headline* head_;
  PressButton* journal_;
  HistoryTable* table_;
  QLabel* whole_;
};

}  // namespace prillbook::ui
