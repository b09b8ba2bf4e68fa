// SPDX-License-Identifier: GPL-3.0-or-later
// How the fineness of the bead in hand was got, and what it is. The three fields are one entry: it is written as soon as
// it is whole. By density, the weights in air and in water give the other two.
#pragma once

#include "core/weighing/bead.h"
#include "ui/kit/fields.h"
#include "ui/kit/session.h"

namespace prillbook::ui {

class FinenessForm : public QWidget {
  Q_OBJECT
 public:
  explicit FinenessForm(Session& session, QWidget* parent = nullptr);
  void show_bead(const weighing::Bead& bead);
  // That the weights in air and in water are read off.
  void use_balance(BalanceId balance) { balance_ = balance; }
  void leave();

  ChoiceField* method() const { return method_; }
  ReadingField* fineness() const { return fineness_; }
  ReadingField* uncertainty() const { return uncertainty_; }
  ReadingField* in_air() const { return in_air_; }
  ReadingField* in_water() const { return in_water_; }

 private:
  Result<void> write();
  Result<void> write_weights();
  void show_state();
  bool needs_uncertainty() const;

  Session& session_;
  ChoiceField* method_;
  ReadingField* fineness_;
  ReadingField* uncertainty_;
  ReadingField* in_air_;
  ReadingField* in_water_;
  BeadId bead_;
  BalanceId balance_;
  std::optional<std::string> chosen_;
  readings::Figure figure_, figure_u_;
  readings::Figure air_, water_;
};

}  // namespace prillbook::ui
