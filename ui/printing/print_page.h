// SPDX-License-Identifier: GPL-3.0-or-later
// A page of the window that ends on paper: choices at the left, the pages as they will be printed at the right.
#pragma once

#include <QtWidgets/QWidget>
#include <functional>

#include "ui/kit/session.h"
#include "ui/paper/pages.h"

class QBoxLayout;
class QTimer;

namespace prillbook::ui {

class Headline;
class MessageBar;
class PagesView;
class PickField;
class PressButton;

// Where printing goes; a test hands in its own.
struct Printing {
  std::function<QStringList()> printers = paper::printers;
  std::function<Result<void>(const paper::Pages&, const QString& printer)> print = paper::print;
};

class PrintPage : public QWidget {
  Q_OBJECT
 public:
  // Asks where to and writes there.
  void write_pdf();
  void print();
  const PagesView* preview() const { return preview_; }
  const MessageBar* news() const { return news_; }

 signals:
  void said(const QString& words);  // news for the bottom line

 protected:
  PrintPage(Session& session, Printing printing, QWidget* parent);
  Session& session() const { return session_; }
  Headline* head() const { return head_; }
  QBoxLayout* choices() const { return choices_; }  // the left column

  virtual Result<paper::Pages> pages() const = 0;
  virtual QString file_name() const = 0;  // proposed, without the ending
  // Tab leads from the last choice to the printer and the buttons, though these stand above.
  void tab_on_from(QWidget* last_choice);
  // The choices changed: the pages are laid out again, soon.
  void renew();
  void showEvent(QShowEvent* event) override;

 private:
  void tell(const QString& words);
  void show_pages();
  void list_printers();
  void write_to(const QString& path);

  Session& session_;
  Printing printing_;
  Headline* head_;
  QBoxLayout* choices_;
  PressButton* pdf_;
  PressButton* print_;
  PickField* printer_;
  QStringList printer_names_;
  QString printer_name_;  // in hand
  MessageBar* news_;
  PagesView* preview_;
  QTimer* soon_;
};

}  // namespace prillbook::ui
