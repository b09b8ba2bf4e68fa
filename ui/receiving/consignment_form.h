// SPDX-License-Identifier: GPL-3.0-or-later
// The consignment in hand. Without one, naming its client logs it.
#pragma once

#include <QtWidgets/QWidget>

#include "core/custody/custody.h"
#include "ui/kit/record_fields.h"

namespace prillbook::ui {

class PiecesForm;

class ConsignmentForm : public QWidget {
  Q_OBJECT
 public:
  explicit ConsignmentForm(Session& session, QWidget* parent = nullptr);
  void show_consignment(ConsignmentId id);  // none: a new one
  void refresh();
  void enter();
  // Seals, condition and pieces: seldom wanted, so they stand in a fold of their own.
  QWidget* custody_part() const { return custody_part_; }

 signals:
  void logged(prillbook::ConsignmentId id);

 private:
  Result<void> write_client(RecordId record, const history::Value& client, const RecordFields::Why& why);
  void enable(bool logged);

  Session& session_;
  QWidget* build_custody_part();

  RecordFields* fields_;
  PiecesForm* pieces_;
  QWidget* custody_part_;
  PickField* client_;
  PickField* received_by_;
};

}  // namespace prillbook::ui
