// SPDX-License-Identifier: GPL-3.0-or-later
// A place in the lab. The window is given the places of its stations, in the order that rock travels, and makes a station
// when somebody first goes there: an empty window and all stations at once differ by seconds.
#pragma once

#include <QtWidgets/QWidget>
#include <functional>
#include <vector>

#include "core/base/id.h"
#include "core/history/catalogue.h"
#include "core/history/journal.h"
#include "ui/kit/icons.h"

namespace prillbook::ui {

// A record of the notebook; signals carry it whole, since Qt cannot carry the bare enumeration.
struct RecordRef {
  history::Entity entity = history::Entity::sample;
  RecordId record = 0;

  friend bool operator==(const RecordRef&, const RecordRef&) = default;
};

class Station;

// What the window knows of a station before it is made.
struct StationPlace {
  QString title;
  Icon icon = Icon::receiving;
  std::function<int()> waiting;        // how many wait here, shown on the way; unset where nothing ever waits (set-up)
  std::vector<history::Entity> kinds;  // of record that it shows
  std::function<Station*()> make;      // called once
};

class Station : public QWidget {
  Q_OBJECT
 public:
  using QWidget::QWidget;

  // After every write, also of other stations: read again what the changes touch. Typed text must be left alone
  // (Field::set_value does so). Out of sight it is told once, before it comes into view, of all that was written meanwhile.
  virtual void notebook_changed(const history::Written& written) = 0;
  // True where something outside the station follows from what it reads, so that it can not wait until it is seen.
  virtual bool follows_out_of_sight() const { return false; }
  // Takes the record in hand; false where this station has no place for it.
  virtual bool show_record(const RecordRef& wanted) = 0;
  // Called when the station comes into view: put the focus where the next thing is typed.
  virtual void enter() {}
  // Page of the guide that F1 opens.
  virtual QString guide_page() const { return {}; }

 signals:
  void waiting_changed();
  // Somebody wants to see a record that lives elsewhere; the window finds the place.
  void open_requested(const prillbook::ui::RecordRef& wanted);
  // News for the bottom line that is not a write ("label printed").
  void said(const QString& words);
  void guide_requested(const QString& page);  // "safety/receiving"
};

}  // namespace prillbook::ui
