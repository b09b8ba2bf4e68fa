// SPDX-License-Identifier: GPL-3.0-or-later
// One tray: what stands on which position, put there by typing; moved, swapped and taken off with a reason; carried on to the
// next tray.
#pragma once

#include <QtWidgets/QWidget>

#include "core/trays/shifts.h"
#include "ui/kit/session.h"

class QHBoxLayout;
class QLabel;
class QVBoxLayout;

namespace prillbook::ui {

class ChoiceField;
class PickField;
class PressButton;
class ReasonLine;
class RecordFields;
class TextField;
class TrayGrid;
class WholeField;

class TrayPane : public QWidget {
  Q_OBJECT
 public:
  explicit TrayPane(Session& session, QWidget* parent = nullptr);
  void show_tray(TrayId tray);
  void refresh();
  void enter();
  // A label was scanned while the tray is in hand: what it stands for goes to the position in hand.
  void put(const trays::Thing& thing);
  const TrayGrid* grid() const { return grid_; }

 signals:
  void said(const QString& words);
  void tray_wanted(prillbook::TrayId tray);
  void sheet_wanted(prillbook::TrayId tray);

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  void build_head(QVBoxLayout* column);
  void build_entry(QVBoxLayout* column);
  void build_ways(QVBoxLayout* column);
  void build_story(QVBoxLayout* column);

  void take(std::int64_t position);
  void show_place();
  void show_grid(const trays::Tray& tray);
  void show_shifts();
  void show_ways(const trays::Tray& tray);
  void fill_runs(const trays::Tray& tray);

  Result<void> place_typed(const std::string& words);
  Result<void> move_to(std::int64_t position);
  Result<void> set_side(std::int64_t trays::Grid::*side, std::optional<std::int64_t> count);
  void ask_take_off();
  void ask_take_back(const trays::Shift& shift);
  void fill();
  void carry_on(trays::Kind kind);
  void put_away();
  void after_write();

  Session& session_;
  TrayId tray_;
  std::int64_t position_ = 1;
  std::int64_t moving_to_ = 0;
  RecordFields* fields_;
  WholeField* rows_;
  WholeField* columns_;
  PickField* run_;
  TrayGrid* grid_;
  WholeField* at_;
  TextField* thing_;
  WholeField* to_;
  ReasonLine* reason_;
  QLabel* place_words_;
  QWidget* ways_;
  PressButton* fill_;
  PressButton* off_;
  PressButton* sheet_;
  PressButton* away_;
  PressButton* to_moulds_;
  PressButton* to_cupels_;
  PressButton* to_beads_;
  QVBoxLayout* shifts_column_;
  QLabel* no_shifts_;
};

}  // namespace prillbook::ui
