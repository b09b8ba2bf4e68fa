// SPDX-License-Identifier: GPL-3.0-or-later
// The line above a long table: words to find by, which rows are in sight, and the way to the others.
#pragma once

#include <QtWidgets/QWidget>

class QLabel;
class QLineEdit;

namespace prillbook::ui {

class PressButton;

class PageLine : public QWidget {
  Q_OBJECT
 public:
  static constexpr int page_size = 25;

  // Finds by what stands under this heading. Out of sight as long as one page holds all.
  explicit PageLine(const QString& heading, QWidget* parent = nullptr);
  QString wanted() const;  // "" where nothing is looked for
  int first() const { return first_; }
  // How many rows are found, and of how many; the page stays within them.
  void set_rows(int found, int all);
  void show_row(int row);  // the page that holds it, with nothing looked for; does not tell

 signals:
  void turned();
  void entered();  // on to the rows

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  void turn(int pages);

  QLineEdit* find_;
  QLabel* range_;
  PressButton* back_;
  PressButton* on_;
  int first_ = 0, found_ = 0;
};

}  // namespace prillbook::ui
