// SPDX-License-Identifier: GPL-3.0-or-later
// A client's list before it is entered: how the file was read, what each column stands for, every row with what is
// wrong with it. All of it is entered in one gesture, or nothing is.
#pragma once

#include <QtCore/QTimer>
#include <QtWidgets/QWidget>
#include <vector>

#include "core/custody/custody.h"
#include "ui/kit/session.h"
#include "ui/receiving/import_model.h"

class QCheckBox;
class QComboBox;
class QLabel;
class QTableView;

namespace prillbook::ui {

class ColumnStrip;
class Headline;
class MessageBar;
class PressButton;

class ImportPage : public QWidget {
  Q_OBJECT
 public:
  explicit ImportPage(Session& session, QWidget* parent = nullptr);

  // Reads the file; what can't be read is said on the page.
  void open_file(ConsignmentId consignment, const QString& path);
  // Rows copied from a spreadsheet.
  void open_rows(ConsignmentId consignment, const QString& text);
  ConsignmentId consignment() const { return consignment_; }
  ImportModel& model() { return model_; }
  QTableView* table() const { return table_; }
  QString count_text() const;

 signals:
  void entered();  // written
  void left();     // not wanted after all

 protected:
  bool event(QEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;

 private:
  QWidget* build_reading();
  QWidget* build_foot();
  QComboBox* combo(const QString& label, QWidget* row);
  void open(ConsignmentId consignment, std::string bytes, const QString& name, const intake::ListOptions& options);
  void read_again(const std::function<void(intake::ListOptions&)>& change);
  void read_rest();
  void show_opened();
  void show_refused(const Error& error);
  void show_reading();
  void show_notes();
  void show_columns();
  void next_refused();
  void enter_list();

  Session& session_;
  ConsignmentId consignment_;
  ImportModel model_;
  bool showing_ = false;
  QTimer rest_;  // the first rows are painted before the rest is read
  Headline* head_;
  QComboBox* encoding_ = nullptr;
  QComboBox* delimiter_ = nullptr;
  QComboBox* mark_ = nullptr;
  QCheckBox* heading_ = nullptr;
  QWidget* reading_;
  ColumnStrip* strip_;
  QTableView* table_;
  MessageBar* words_;
  QLabel* count_ = nullptr;
  PressButton* next_ = nullptr;
  PressButton* enter_ = nullptr;
};

}  // namespace prillbook::ui
