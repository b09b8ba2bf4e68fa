// SPDX-License-Identifier: GPL-3.0-or-later
// A form on the grid: rows of fields, headings, rules. No frames, no boxes.
//
//   auto* form = new Form;
//   form->heading(tr("As received"));
//   form->row({mark, kind});
//   form->row({declared, received});
//   form->rule();
#pragma once

#include <QtWidgets/QWidget>
#include <initializer_list>

class QGridLayout;

namespace prillbook::ui {

class Form : public QWidget {
  Q_OBJECT
 public:
  // Fields share `columns` columns of one width, so that labels of all rows stand in line.
  explicit Form(int columns = 2, QWidget* parent = nullptr);

  void heading(const QString& words);
  // Left to right; the last stretches over what is left of the row.
  void row(std::initializer_list<QWidget*> fields);
  void wide(QWidget* widget);  // over all columns
  void rule();
  void space();  // one step of the rhythm

 private:
  QGridLayout* grid_;
  int columns_;
  int next_ = 0;
};

// The big first line of what is in hand: the number, and quieter words after it.
class Headline : public QWidget {
  Q_OBJECT
 public:
  explicit Headline(QWidget* parent = nullptr);
  void set(const QString& number, const QString& words);
  void set_large(int number_px);  // the number in this size; 0: as usual

 private:
  class QLabel* number_;
  class QLabel* words_;
};

// A hairline, lying or upright: it separates where a frame would shut in.
QWidget* hairline(QWidget* parent = nullptr);
QWidget* hairline_upright(QWidget* parent = nullptr);

// Scrolls the place that holds `widget` until it is in sight, once the layout has settled.
void bring_into_view(QWidget* widget);

}  // namespace prillbook::ui
