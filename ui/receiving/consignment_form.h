// SPDX-License-Identifier: GPL-3.0-or-later
// The consignment in hand. Without one, naming its client logs it.
#pragma once

#include <QtWidgets/QWidget>

#include "core/custody/custody.h"
#include "ui/kit/record_fields.h"

namespace prillbook::ui {

class ConsignmentForm : public QWidget {
  Q_OBJECT
 public:
  explicit ConsignmentForm(Session& session, QWidget* parent = nullptr);
  void show_consignment(ConsignmentId id);  // none: a new one
  void refresh();
  void enter();

 signals:
  void logged(prillbook::ConsignmentId id);

 private:
  Result<void> write_client(RecordId record, const history::Value& client, const RecordFields::Why& why);
  void enable(bool logged);

  Session& session_;
  RecordFields* fields_;
  PickField* client_;
  PickField* received_by_;
};

}  // namespace prillbook::ui
