// SPDX-License-Identifier: GPL-3.0-or-later
// The only way to a dialog. It is handed in, so that a test can answer; answers come by callback, so that no event loop
// is nested. Only decisions go here: an error is shown at its field, news on the message bar.
#pragma once

#include <QtCore/QPointer>
#include <QtCore/QString>
#include <QtCore/QStringList>
#include <QtWidgets/QWidget>
#include <functional>

namespace prillbook::ui {

struct Decision {
  QString words;        // what is to be decided, one sentence
  QString more;         // what follows from it; may be empty
  QStringList answers;  // verbs, the usual one first
  int safe = 0;         // index taken by Escape and by closing
};

enum class FilePurpose { open, save, folder };

struct FileWish {
  FilePurpose purpose = FilePurpose::open;
  QString title;
  QString filter;     // "Notebooks (*.prillbook)"
  QString suggested;  // path or name
};

class Prompter {
 public:
  virtual ~Prompter() = default;
  // `answered` gets an index into `answers`.
  virtual void decide(const Decision& decision, std::function<void(int)> answered) = 0;
  // `chosen` gets a path; it is not called where the person changed their mind.
  virtual void choose_file(const FileWish& wish, std::function<void(const QString&)> chosen) = 0;
};

// Window-modal dialogs over `window`.
class DialogPrompter : public Prompter {
 public:
  explicit DialogPrompter(QWidget* window) : window_(window) {}
  void set_window(QWidget* window) { window_ = window; }
  void decide(const Decision& decision, std::function<void(int)> answered) override;
  void choose_file(const FileWish& wish, std::function<void(const QString&)> chosen) override;

 private:
  QPointer<QWidget> window_;
};

}  // namespace prillbook::ui
