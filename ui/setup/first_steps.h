// SPDX-License-Identifier: GPL-3.0-or-later
// What an empty lab sees first, for WindowParts::first_page.
#pragma once

#include <QtWidgets/QWidget>
#include <functional>

#include "ui/kit/session.h"

class QLabel;

namespace prillbook::ui {

class PressButton;
class RecordTable;
class SettingField;

class FirstSteps : public QWidget {
  Q_OBJECT
 public:
  struct Ways {
    std::function<void()> log_first;                          // on to Receiving
    std::function<void()> show_demonstration;                 // not set: the button is left out
    std::function<void(const QString& initials)> works_here;  // the first person was named; may be empty
  };
  FirstSteps(Session& session, Ways ways, QWidget* parent = nullptr);
  // True for a notebook without people, balances and clients: the page is of use.
  static bool wanted(Session& session);

 private:
  void refresh();
  QWidget* step(int number, const QString& words, const QString& why, QWidget* content);

  Session& session_;
  Ways ways_;
  SettingField* name_;
  RecordTable* people_;
  RecordTable* balances_;
  RecordTable* clients_;
  PressButton* on_;
  std::vector<QLabel*> marks_;
};

}  // namespace prillbook::ui
