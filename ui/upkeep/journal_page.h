// SPDX-License-Identifier: GPL-3.0-or-later
// The whole journal, newest first: by person, by kind of record, by days, by words. Read page by page, so that a million
// entries open at once; a filter that rarely fits looks on while the window lives.
#pragma once

#include <QtWidgets/QWidget>
#include <memory>

#include "core/base/progress.h"
#include "core/versions/versions.h"
#include "ui/kit/session.h"
#include "ui/kit/station.h"

class QLabel;
class QThread;
class QTimer;

namespace prillbook::ui {

class DateTimeField;
class Headline;
class HistoryTable;
class MessageBar;
class PickField;
class PressButton;
class TextField;

class JournalPage : public QWidget {
  Q_OBJECT
 public:
  explicit JournalPage(Session& session, QWidget* parent = nullptr);
  ~JournalPage() override;  // a list in the writing is stopped and leaves nothing
  void enter();
  void refresh();
  void set_filter(const versions::JournalFilter& filter);
  const versions::JournalFilter& filter() const { return filter_; }
  int count() const;  // entries shown
  bool reading() const;
  bool writing() const { return worker_ != nullptr; }
  QString guide_page() const { return QStringLiteral("history"); }

 signals:
  void open_requested(const prillbook::ui::RecordRef& wanted);
  void said(const QString& words);
  void written(bool done);  // the list

 private:
  QWidget* build_filters();
  void fill_choices();
  void read_more();
  void read_on();
  void show_state();
  void write_list();
  void write_to(const QString& path);

  Session& session_;
  versions::JournalFilter filter_;
  std::unique_ptr<versions::JournalReader> reader_;
  bool end_ = false;
  std::size_t wanted_ = 0;  // entries still to be found for this page
  std::int64_t looked_at_ = 0, total_ = 0;
  std::vector<std::string> authors_;
  std::shared_ptr<Cancellation> cancellation_;
  QThread* worker_ = nullptr;
  Headline* head_;
  PressButton* list_;
  PickField* who_;
  PickField* kind_;
  DateTimeField* from_;
  DateTimeField* until_;
  TextField* words_;
  MessageBar* news_;
  HistoryTable* table_;
  QLabel* whole_;
  QTimer* timer_;
};

}  // namespace prillbook::ui
