// SPDX-License-Identifier: GPL-3.0-or-later
// The last five readings, the newest plain and the older ones fading; each can be corrected in place with its reason.
#pragma once

#include "core/weighing/bead.h"
#include "ui/kit/fields.h"
#include "ui/kit/session.h"

class QVBoxLayout;

namespace prillbook::ui {

class RecentReadings : public QWidget {
  Q_OBJECT
 public:
  explicit RecentReadings(Session& session, QWidget* parent = nullptr);
  void refresh();
  // Opens the figure and the reason of the reading `index`, 0 the newest.
  void correct(int index);
  void close_correction();
  int count() const { return int(shown_.size()); }
  ReadingField* corrected() const { return corrected_; }
  TextField* why() const { return why_; }

 signals:
  void bead_wanted(prillbook::BeadId bead);
  void done();  // corrected, or left as it was: back to the balance

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  QWidget* row(const weighing::RecentWeighing& reading, int index);
  Result<void> write_correction(const std::optional<std::string>& why);

  Session& session_;
  std::vector<weighing::RecentWeighing> shown_;
  QVBoxLayout* rows_;
  QWidget* correction_;
  ReadingField* corrected_;
  TextField* why_;
  WeighingId correcting_;
  std::optional<readings::Reading> figure_;
};

}  // namespace prillbook::ui
