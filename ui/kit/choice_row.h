// SPDX-License-Identifier: GPL-3.0-or-later
// The words of a ChoiceField on their ruled line.
#pragma once

#include <QtCore/QRect>
#include <QtCore/QStringList>
#include <QtWidgets/QWidget>
#include <vector>

namespace prillbook::ui {

// The key of each word: its first letter that no word before it has; a digit where every letter is taken.
struct WordKey {
  QChar key;
  int at = -1;  // index of the letter in the word; -1: a digit
};
std::vector<WordKey> keys_of(const QStringList& words);

class ChoiceRow : public QWidget {
  Q_OBJECT
 public:
  explicit ChoiceRow(const QStringList& words, QWidget* parent = nullptr);
  void show_chosen(int index);
  int chosen() const { return chosen_; }
  void set_read_only(bool read_only);
  QSize sizeHint() const override;
  QSize minimumSizeHint() const override;
  bool hasHeightForWidth() const override { return true; }
  int heightForWidth(int width) const override;
  QRect word_area(int index) const;

 signals:
  void wanted(int index);  // -1: left open

 protected:
  void paintEvent(QPaintEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;
  void mousePressEvent(QMouseEvent* event) override;
  void wheelEvent(QWheelEvent* event) override;
  void focusInEvent(QFocusEvent* event) override;
  void focusOutEvent(QFocusEvent* event) override;

 private:
  std::vector<QRect> areas(int width) const;

  QStringList words_;
  std::vector<WordKey> keys_;
  int chosen_ = -1;
  bool read_only_ = false;
};

}  // namespace prillbook::ui
