// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QtWidgets/QPushButton>
#include <QtWidgets/QToolButton>

namespace prillbook::ui {

// A button that Enter presses as well as Space, so that a hand on the number keys never leaves them.
class PressButton : public QPushButton {
  Q_OBJECT
 public:
  enum class Rank { main, usual };
  explicit PressButton(const QString& words, Rank rank = Rank::usual, QWidget* parent = nullptr);

 protected:
  void keyPressEvent(QKeyEvent* event) override;
};

// A word that opens and shuts what is not always needed.
class Fold : public QWidget {
  Q_OBJECT
 public:
  // Takes ownership of `content`; shut at first.
  Fold(const QString& words, QWidget* content, QWidget* parent = nullptr);
  void set_open(bool open);
  bool is_open() const;
  QToolButton* button() const { return button_; }

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  QToolButton* button_;
  QWidget* content_;
};

}  // namespace prillbook::ui
