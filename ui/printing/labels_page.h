// SPDX-License-Identifier: GPL-3.0-or-later
// Labels of a consignment, a sample or a portion: which of them, on which sheet, from which place on.
#pragma once

#include <map>

#include "core/labels/label.h"
#include "core/labels/layout.h"
#include "ui/kit/station.h"
#include "ui/printing/print_page.h"

class QCheckBox;
class QLabel;
class QListWidget;

namespace prillbook::ui {

class SheetPicture;

class LabelsPage : public PrintPage {
  Q_OBJECT
 public:
  explicit LabelsPage(Session& session, Printing printing = {}, QWidget* parent = nullptr);
  // A consignment, a sample or a portion; false for anything else, and where it is not there.
  bool show_labels_of(const RecordRef& what);
  void enter();
  std::vector<labels::Label> chosen() const;
  const labels::Layout& layout_in_hand() const;
  SheetPicture* sheet() const { return sheet_; }
  QCheckBox* box(labels::LabelKind kind) const { return boxes_.at(kind); }
  QString guide_page() const { return QStringLiteral("labels"); }

 protected:
  Result<paper::Pages> pages() const override;
  QString file_name() const override;

 private:
  Result<std::vector<labels::Label>> labels_of(const std::vector<labels::LabelKind>& kinds) const;
  void build_kinds();
  void build_sheets();
  void count_kinds();
  void changed();
  void show_start();

  RecordRef what_;
  QString number_;
  std::map<labels::LabelKind, QCheckBox*> boxes_;
  QListWidget* layouts_;
  SheetPicture* sheet_;
  QLabel* start_words_;
};

}  // namespace prillbook::ui
