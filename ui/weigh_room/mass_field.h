// SPDX-License-Identifier: GPL-3.0-or-later
// The huge field at the balance. Enter keeps the hand where it is: what is typed next is the next bead.
#pragma once

#include "ui/kit/fields.h"

namespace prillbook::ui {

// Keys beside figures. Those with a letter count on an empty field only.
//   +          take the reading and weigh the same bead again; on an empty field: the bead before once more
//   n          none seen (asked once, Enter says so)
//   s          spoiled or lost
//   t          weighed in a cup: its tare first, then cup and bead; once more: another cup, or none
//   l          large type on and off
//   Enter      takes what a balance shows that sends all the time
//   Backspace  the bead before
//   Down       the next bead, nothing written
//   Up         correct the newest reading
class MassField : public ReadingField {
  Q_OBJECT
 public:
  using ReadingField::ReadingField;
  // Half as large again as in the weigh room: read from a metre away.
  void set_large(bool large);
  // Asks in place whether the bead was searched for in vain.
  void ask_none_seen();

 signals:
  void again_wanted();
  void none_seen();
  void spoiled_wanted();
  void large_wanted();
  void cup_wanted();
  void shown_wanted();  // Enter, with nothing typed
  void before_wanted();
  void next_wanted();
  void correction_wanted();

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override;
  bool focusNextPrevChild(bool next) override;

 private:
  bool own_key(const QKeyEvent& key);

  bool large_ = false;
  bool staying_ = false;
  bool asking_none_ = false;
};

}  // namespace prillbook::ui
