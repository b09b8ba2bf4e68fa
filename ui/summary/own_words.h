// SPDX-License-Identifier: GPL-3.0-or-later
// The lab's own words on the client's pages: each text of ours, what stands in its place, checked as it is typed.
#pragma once

#include <QtWidgets/QWidget>

#include "core/wording/speech.h"
#include "ui/kit/session.h"

class QComboBox;
class QLabel;
class QListWidget;
class QPlainTextEdit;
class QPushButton;

namespace prillbook::ui {

class ChoiceField;

class OwnWords : public QWidget {
  Q_OBJECT
 public:
  explicit OwnWords(Session& session, QWidget* parent = nullptr);

  void refresh();
  // The text in hand; nullptr where there is none.
  const wording::Text* in_hand() const;
  bool take(std::string_view key);
  void keep();      // what is typed, where it is fit
  void put_back();  // to ours

 signals:
  void changed();  // pages say something else now

 private:
  void fill();
  void show_text();
  void check();
  QWidget* build_editor();
  wording::Language language() const;

  Session& session_;
  ChoiceField* usual_;
  QComboBox* language_;
  QListWidget* list_;
  QLabel *ours_, *names_, *error_;
  QPlainTextEdit* edit_;
  QPushButton *keep_, *back_;
  wording::OwnTexts own_;
};

}  // namespace prillbook::ui
