// SPDX-License-Identifier: GPL-3.0-or-later
// What became of the client's metal and rests, and figures told before they were written: each is written once, by its
// button, and stands in the thread from then on.
#pragma once

#include <QtWidgets/QWidget>

#include "core/custody/own_metal.h"
#include "ui/kit/fields.h"
#include "ui/kit/session.h"

namespace prillbook::ui {

class PressButton;

class OwnMetalForm : public QWidget {
  Q_OBJECT
 public:
  explicit OwnMetalForm(Session& session, QWidget* parent = nullptr);
  void show_sample(SampleId sample);

 private:
  void write();
  void clear();

  Session& session_;
  custody::NewOwnMetal wished_;
  ChoiceField* what_;
  ChoiceField* fate_;
  ReadingField* mass_;
  DateTimeField* at_;
  TextField* to_whom_;
  TextField* remarks_;
};

class ToldForm : public QWidget {
  Q_OBJECT
 public:
  explicit ToldForm(Session& session, QWidget* parent = nullptr);
  void show_sample(SampleId sample);

 private:
  void write();
  void clear();

  Session& session_;
  custody::NewToldFigure wished_;
  ChoiceField* what_;
  TextField* said_;
  TextField* to_whom_;
  DateTimeField* at_;
};

}  // namespace prillbook::ui
