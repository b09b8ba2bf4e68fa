// SPDX-License-Identifier: GPL-3.0-or-later
// The window only assembles: the way at the left, one line above, one below, and the station in hand between them.
// It paints itself first; the first station and the numbers on the way come in the next turn of the event loop.
#pragma once

#include <QtCore/QPointer>
#include <QtWidgets/QMainWindow>
#include <functional>
#include <optional>
#include <vector>

#include "ui/kit/session.h"
#include "ui/kit/station.h"

class QStackedWidget;
class QTimer;
class QToolButton;

namespace prillbook::ui {

class FindLine;
class MessageBar;
class Way;
class WorkerChooser;

// One answer to what is being looked for.
struct Found {
  RecordRef what;
  QString number;  // "26-0014"
  QString words;   // "Larch adit N, waits for the pan"
};

// All that the window is given. Callbacks that are not set leave out what needs them.
struct WindowParts {
  // A place whose number of what waits is below 0 can't say it yet: no number is shown, and it is asked again.
  std::vector<StationPlace> way;     // in the order that rock travels; Ctrl+1 … Ctrl+9, Ctrl+0
  std::vector<StationPlace> beside;  // quality, findings, set-up: under the rule
  QString notebook_name;
  std::function<std::vector<Found>(const QString& typed, int most)> find;
  std::function<std::vector<QString>()> people;                     // initials to choose from
  std::function<Result<void>(const QString& initials)> new_person;  // somebody who is not in the list
  // "0.022 g for 26-0003 pan bead": what was written, in words; the window adds the time and the initials.
  std::function<QString(const history::Written&)> describe;
  std::function<void(const QString& page)> open_guide;
  std::function<void()> change_notebook;            // the notebook's name was pressed
  std::function<bool(const RecordRef&)> open_page;  // asked before the stations: the sheet of a sample
  std::function<void(const QString& initials)> worker_chosen;
  std::size_t first_place = 0;    // where one left off
  QWidget* first_page = nullptr;  // shown in place of the stations until go_to() is called: an empty lab
};

class MainWindow : public QMainWindow {
  Q_OBJECT
 public:
  // Takes ownership of the first page and of the stations that it makes.
  MainWindow(Session& session, WindowParts parts, QWidget* parent = nullptr);
  ~MainWindow() override;

  // The station of this place, counted along the way and then beside it from 0; made now where nobody was there yet.
  Station* go_to(std::size_t place);
  Station* current() const;
  std::size_t place_in_hand() const;  // of the station in view or under a page; 0 where nobody went anywhere
  // The page or the station that has a place for it; false where none has.
  bool open(const RecordRef& wanted);
  // A page over the stations (the sample sheet) or over another page (its labels); Escape or choosing a station leaves it.
  // The page stays the caller's.
  void show_page(QWidget* page);
  void say(const QString& words);
  void show_worker();  // after somebody said elsewhere who works
  void refuse(const Error& error);

 protected:
  void paintEvent(QPaintEvent* event) override;
  void closeEvent(QCloseEvent* event) override;

 private:
  QWidget* build_top();
  QWidget* build_bottom();
  void add_place(StationPlace place);
  Station* station_at(std::size_t place);
  void bring_to_view(Station* station);
  void arrive();
  void add_actions();
  void count_soon();
  void count_next();
  void leave_page();
  void on_written(const history::Written& written);
  void take_back();
  void put_back();

  Session& session_;
  WindowParts parts_;
  Way* way_ = nullptr;
  FindLine* find_ = nullptr;
  WorkerChooser* worker_ = nullptr;
  MessageBar* bottom_ = nullptr;
  QStackedWidget* stack_ = nullptr;
  Station* before_page_ = nullptr;
  QPointer<QWidget> page_;
  QPointer<QWidget> page_before_;  // a page that was left for another one
  QToolButton* take_back_ = nullptr;
  QToolButton* put_back_ = nullptr;
  struct Place {
    StationPlace known;
    Station* station = nullptr;              // until somebody goes there
    std::optional<history::Written> missed = {};  // while it was out of sight
  };
  void tell(Place& place, const history::Written& written);
  static void catch_up(Place& place);
  std::vector<Place> places_;
  QTimer* counting_;
  std::size_t next_count_ = 0;
  bool arrived_ = false;
  bool close_asked_ = false;
};

}  // namespace prillbook::ui
