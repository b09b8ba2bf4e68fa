// SPDX-License-Identifier: GPL-3.0-or-later
// What a summary shows and says, as the lab chooses it: parts, paper, language, title, remarks, and the price of the metal
// where one is to be printed. Of the draft in hand, or of the next one.
#pragma once

#include <QtWidgets/QWidget>
#include <functional>
#include <vector>

#include "core/issue/summaries.h"
#include "ui/kit/session.h"

class QCheckBox;
class QComboBox;

namespace prillbook::ui {

class ChoiceField;
class TextField;

class DraftFields : public QWidget {
  Q_OBJECT
 public:
  explicit DraftFields(Session& session, QWidget* parent = nullptr);

  // Whose default language is offered.
  void show_client(ClientId client);
  // What the fields say, without client and samples. A price that lacks its unit or day is left out until it is whole.
  issue::NewDraft wish() const;
  // Shows what a draft says; afterwards each change is given to `write`, and an error of that stands beneath the field.
  void show_draft(const issue::Summary& draft);
  void leave_draft();
  void on_change(std::function<Result<void>()> write) { write_ = std::move(write); }
  void set_read_only(bool read_only);

 signals:
  void changed();                               // written, or kept for the next draft
  void refused(const prillbook::Error& error);  // of a tick or the paper, which stand as before

 private:
  TextField* line(const QString& label, std::optional<std::string> issue::NewDraft::*member);
  TextField* price_line(const QString& label, std::optional<std::string> issue::Price::*member);
  Result<void> write();
  void fill();
  QWidget* build_parts();

  Session& session_;
  std::function<Result<void>()> write_;
  issue::NewDraft wish_;
  std::vector<QCheckBox*> parts_;
  QComboBox* paper_;
  ChoiceField* language_;
  std::vector<std::pair<TextField*, std::function<std::optional<std::string>()>>> lines_;
  bool filling_ = false;
};

}  // namespace prillbook::ui
