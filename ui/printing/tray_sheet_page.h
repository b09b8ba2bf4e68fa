// SPDX-License-Identifier: GPL-3.0-or-later
// Prints what stands where on a tray.
#pragma once

#include "core/trays/trays.h"
#include "ui/printing/print_page.h"

namespace prillbook::ui {

class ChoiceField;

class TraySheetPage : public PrintPage {
  Q_OBJECT
 public:
  explicit TraySheetPage(Session& session, Printing printing = {}, QWidget* parent = nullptr);
  bool show_tray(TrayId tray);  // false: there is no such tray
  void enter();

 protected:
  Result<paper::Pages> pages() const override;
  QString file_name() const override;

 private:
  TrayId tray_;
  QString name_;
  ChoiceField* paper_;
  PickField* which_;
};

}  // namespace prillbook::ui
