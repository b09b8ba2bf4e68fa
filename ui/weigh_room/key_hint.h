// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QtWidgets/QAbstractButton>

namespace prillbook::ui {

// A key and what it does, to be pressed with the mouse as well. Takes no focus: the hand stays at the field.
class KeyHint : public QAbstractButton {
  Q_OBJECT
 public:
  KeyHint(const QString& key, const QString& words, QWidget* parent = nullptr);
  QSize sizeHint() const override;

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  int key_width() const;

  QString key_, words_;
};

}  // namespace prillbook::ui
