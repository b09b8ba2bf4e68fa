// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/window/main_window.h"

#include <QtCore/QTimer>
#include <QtGui/QCloseEvent>
#include <QtGui/QShortcut>
#include <QtWidgets/QHBoxLayout>
#include <QtWidgets/QLabel>
#include <QtWidgets/QLineEdit>
#include <QtWidgets/QScrollArea>
#include <QtWidgets/QStackedWidget>
#include <QtWidgets/QToolButton>
#include <QtWidgets/QVBoxLayout>
#include <algorithm>
#include <utility>

#include "ui/kit/field.h"
#include "ui/kit/figures.h"
#include "ui/kit/form.h"
#include "ui/kit/messages.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"
#include "ui/window/find_line.h"
#include "ui/window/way.h"
#include "ui/window/worker_chooser.h"

namespace prillbook::ui {
namespace {

constexpr int counting_delay = 150;  // ms after the last write
constexpr std::size_t places_with_keys = 10;

// Ctrl+1 … Ctrl+9, then Ctrl+0.
QKeySequence keys_of(std::size_t place) {
  return QKeySequence(Qt::CTRL | Qt::Key(Qt::Key_0 + int((place + 1) % places_with_keys)));
}

QToolButton* quiet_button(const QString& words, Icon which, const QString& keys) {
  auto* button = new QToolButton;
  button->setText(words);
  button->setIcon(line_icon(which));
  button->setIconSize({18, 18});
  button->setFont(face(TextSize::small));
  button->setToolButtonStyle(Qt::ToolButtonTextBesideIcon);
  button->setToolTip(keys);
  button->setFocusPolicy(Qt::TabFocus);
  return button;
}

// Holds the pages and asks for the least room of the one in sight, not for that of the largest, nor for all it would like.
class PagesPlace : public QWidget {
 public:
  explicit PagesPlace(QStackedWidget* pages) : pages_(pages) {
    pages->setParent(this);
    connect(pages, &QStackedWidget::currentChanged, this, &QWidget::updateGeometry);
  }
  QSize minimumSizeHint() const override {
    const QWidget* page = pages_->currentWidget();
    if (!page) return {};
    QSize least = page->minimumSizeHint();
    QLayout* layout = page->layout();
    if (layout && layout->hasHeightForWidth())
      least.setHeight(layout->totalMinimumHeightForWidth(std::max(width(), least.width())));
    return least;
  }

 protected:
  void resizeEvent(QResizeEvent*) override { pages_->setGeometry(rect()); }

 private:
  QStackedWidget* pages_;
};

// A window that is too small for what it shows scrolls it.
QScrollArea* scrolling(QWidget* content) {
  auto* scroll = new QScrollArea;
  scroll->setWidget(content);
  scroll->setWidgetResizable(true);
  scroll->setFrameShape(QFrame::NoFrame);
  scroll->setFocusPolicy(Qt::NoFocus);
  scroll->viewport()->setAutoFillBackground(false);
  content->setAutoFillBackground(false);
  return scroll;
}

}  // namespace

MainWindow::MainWindow(Session& session, WindowParts parts, QWidget* parent)
    : QMainWindow(parent),
      session_(session),
      parts_(std::move(parts)),
      way_(new Way),
      stack_(new QStackedWidget),
      counting_(new QTimer(this)) {
  counting_->setSingleShot(true);
  connect(counting_, &QTimer::timeout, this, &MainWindow::count_next);
  setWindowTitle(tr("%1 – Prillbook").arg(parts_.notebook_name));
  auto* sheet = new QWidget;
  auto* lines = new QVBoxLayout(sheet);
  lines->setContentsMargins(0, 0, 0, 0);
  lines->setSpacing(0);
  auto* middle = new QHBoxLayout;
  middle->setSpacing(0);
  auto* way_place = scrolling(way_);
  way_place->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  way_place->setFixedWidth(25 * rhythm);
  middle->addWidget(way_place);
  middle->addWidget(scrolling(new PagesPlace(stack_)), 1);
  lines->addWidget(build_top());
  lines->addWidget(hairline(sheet));
  lines->addLayout(middle, 1);
  lines->addWidget(hairline(sheet));
  lines->addWidget(build_bottom());
  setCentralWidget(sheet);

  for (StationPlace& place : parts_.way) add_place(std::move(place));
  if (!parts_.way.empty() && !parts_.beside.empty()) way_->add_rule();
  for (StationPlace& place : parts_.beside) add_place(std::move(place));
  connect(way_, &Way::chosen, this, [this](int step) { go_to(std::size_t(step)); });
  connect(&session_.notifier, &Notifier::written, this, &MainWindow::on_written);
  add_actions();
}

MainWindow::~MainWindow() = default;

void MainWindow::paintEvent(QPaintEvent* event) {
  QMainWindow::paintEvent(event);
  if (!arrived_) QMetaObject::invokeMethod(this, &MainWindow::arrive, Qt::QueuedConnection);
}

void MainWindow::arrive() {
  if (std::exchange(arrived_, true)) return;
  count_soon();
  if (stack_->count() > 0) return;  // somebody asked for a page before
  if (parts_.first_page) {
    stack_->setCurrentIndex(stack_->addWidget(parts_.first_page));
    parts_.first_page->setFocus(Qt::OtherFocusReason);
  } else if (!places_.empty()) {
    go_to(parts_.first_place < places_.size() ? parts_.first_place : 0);
  }
}

QWidget* MainWindow::build_top() {
  auto* top = new QWidget;
  auto* row = new QHBoxLayout(top);
  row->setContentsMargins(2 * rhythm, rhythm, 2 * rhythm, rhythm);
  row->setSpacing(2 * rhythm);
  find_ = new FindLine(parts_.find);
  find_->setMaximumWidth(56 * rhythm);
  find_->setVisible(bool(parts_.find));
  connect(find_, &FindLine::chosen, this, &MainWindow::open);
  row->addWidget(find_, 1);
  row->addStretch();

  worker_ = new WorkerChooser(parts_.people, parts_.new_person);
  worker_->show_worker(to_qt(session_.journal.author()));
  worker_->setVisible(parts_.people || parts_.new_person);
  connect(worker_, &WorkerChooser::chosen, this, [this](const QString& initials) {
    session_.journal.set_author(to_core(initials));
    if (parts_.worker_chosen) parts_.worker_chosen(initials);
    worker_->show_worker(initials);
  });
  connect(worker_, &WorkerChooser::refused, this, &MainWindow::refuse);
  row->addWidget(worker_);

  auto* notebook = quiet_button(parts_.notebook_name, Icon::notebook, tr("The notebook"));
  notebook->setFont(face(TextSize::body));
  notebook->setAccessibleName(tr("Notebook %1").arg(parts_.notebook_name));
  if (parts_.change_notebook) connect(notebook, &QToolButton::clicked, this, [this] { parts_.change_notebook(); });
  row->addWidget(notebook);
  return top;
}

QWidget* MainWindow::build_bottom() {
  auto* bottom = new QWidget;
  auto* row = new QHBoxLayout(bottom);
  row->setContentsMargins(2 * rhythm, rhythm / 2, 2 * rhythm, rhythm / 2);
  row->setSpacing(rhythm);
  bottom_ = new MessageBar;
  row->addWidget(bottom_, 1);
  take_back_ = quiet_button(tr("Take back"), Icon::undo, tr("Ctrl+Z: as a new entry in the history"));
  put_back_ = quiet_button(tr("Put back"), Icon::redo, tr("Ctrl+Shift+Z"));
  connect(take_back_, &QToolButton::clicked, this, &MainWindow::take_back);
  connect(put_back_, &QToolButton::clicked, this, &MainWindow::put_back);
  row->addWidget(take_back_);
  row->addWidget(put_back_);
  if (parts_.open_guide) {
    auto* guide = quiet_button(tr("Guide"), Icon::guide, tr("F1"));
    connect(guide, &QToolButton::clicked, this, [this] { parts_.open_guide(current() ? current()->guide_page() : QString()); });
    row->addWidget(guide);
  }
  return bottom;
}

void MainWindow::add_place(StationPlace place) {
  const std::size_t index = places_.size();
  auto* step = way_->add(place.title, place.icon);
  places_.push_back({std::move(place)});
  if (index >= places_with_keys) return;
  const QKeySequence keys = keys_of(index);
  step->setToolTip(keys.toString(QKeySequence::NativeText));
  connect(new QShortcut(keys, this), &QShortcut::activated, this, [this, index] { go_to(index); });
}

Station* MainWindow::station_at(std::size_t place) {
  Station*& station = places_[place].station;
  if (station) {
    catch_up(places_[place]);
    return station;
  }
  station = places_[place].known.make();
  stack_->addWidget(station);
  connect(station, &Station::waiting_changed, this, &MainWindow::count_soon);
  connect(station, &Station::open_requested, this, &MainWindow::open);
  connect(station, &Station::said, this, &MainWindow::say);
  connect(station, &Station::guide_requested, this, [this](const QString& page) {
    if (parts_.open_guide) parts_.open_guide(page);
  });
  return station;
}

void MainWindow::add_actions() {
  const auto on = [this](const QKeySequence& keys, auto slot) {
    connect(new QShortcut(keys, this), &QShortcut::activated, this, slot);
  };
  if (parts_.find) on(QKeySequence(Qt::CTRL | Qt::Key_F), [this] { find_->start(); });
  on(QKeySequence(Qt::CTRL | Qt::Key_Z), [this] { take_back(); });
  on(QKeySequence(Qt::CTRL | Qt::SHIFT | Qt::Key_Z), [this] { put_back(); });
  on(QKeySequence(Qt::Key_Escape), [this] { leave_page(); });
  if (parts_.open_guide)
    on(QKeySequence(Qt::Key_F1), [this] { parts_.open_guide(current() ? current()->guide_page() : QString()); });
}

Station* MainWindow::current() const { return qobject_cast<Station*>(stack_->currentWidget()); }

std::size_t MainWindow::place_in_hand() const {
  const Station* station = current() ? current() : before_page_;
  const auto place = std::find_if(places_.begin(), places_.end(), [&](const Place& each) { return each.station == station; });
  return station && place != places_.end() ? std::size_t(place - places_.begin()) : 0;
}

Station* MainWindow::go_to(std::size_t place) {
  Station* station = station_at(place);
  bring_to_view(station);
  return station;
}

void MainWindow::bring_to_view(Station* station) {
  stack_->setCurrentWidget(station);
  const auto place = std::find_if(places_.begin(), places_.end(), [&](const Place& each) { return each.station == station; });
  catch_up(*place);
  way_->show_current(int(place - places_.begin()));
  station->enter();
}

bool MainWindow::open(const RecordRef& wanted) {
  if (parts_.open_page && parts_.open_page(wanted)) return true;
  for (std::size_t place = 0; place < places_.size(); ++place) {
    const auto& kinds = places_[place].known.kinds;
    if (std::find(kinds.begin(), kinds.end(), wanted.entity) == kinds.end()) continue;
    if (!station_at(place)->show_record(wanted)) continue;
    go_to(place);
    return true;
  }
  return false;
}

void MainWindow::show_page(QWidget* page) {
  page_before_ = page_ && page_ != page && stack_->currentWidget() == page_ ? page_.data() : nullptr;
  if (page_ && page_ != page) {
    stack_->removeWidget(page_);
    page_->hide();
  }
  if (Station* station = current()) before_page_ = station;
  page_ = page;
  if (stack_->indexOf(page) < 0) stack_->addWidget(page);
  stack_->setCurrentWidget(page);
  way_->show_current(-1);
}

void MainWindow::show_worker() { worker_->show_worker(to_qt(session_.journal.author())); }

void MainWindow::leave_page() {
  if (!page_ || stack_->currentWidget() != page_) return;
  if (QWidget* before = page_before_) {
    show_page(before);
    page_before_ = nullptr;
    // Back where the hand was; else Qt would give the keys to whatever comes next.
    (before->focusWidget() ? before->focusWidget() : before)->setFocus(Qt::OtherFocusReason);
    return;
  }
  if (before_page_) bring_to_view(before_page_);
}

// The numbers on the way are counted one a turn once the hand rests: in a notebook of a hundred thousand samples one of them
// takes a tenth of a second.
void MainWindow::count_soon() {
  take_back_->setEnabled(session_.journal.can_undo());
  put_back_->setEnabled(session_.journal.can_redo());
  next_count_ = 0;
  counting_->start(counting_delay);
}

void MainWindow::count_next() {
  const std::size_t place = next_count_++;
  if (place >= places_.size()) return;
  if (const auto& waiting = places_[place].known.waiting) way_->set_waiting(int(place), waiting());
  counting_->start(0);
}

void MainWindow::on_written(const history::Written& written) {
  close_asked_ = false;
  for (Place& place : places_)
    if (place.station) tell(place, written);
  count_soon();
  const QString what = parts_.describe ? parts_.describe(written) : to_qt(written.gesture);
  const QString who = to_qt(written.who);
  bottom_->written(who.isEmpty() ? tr("%1 written %2").arg(what, time_text(written.when))
                                 : tr("%1 written %2 by %3").arg(what, time_text(written.when), who));
}

// Reading the lists of every station again would cost each entry more than its own writing: who is out of sight reads when
// somebody comes.
void MainWindow::tell(Place& place, const history::Written& written) {
  if (place.station == current() || place.station->follows_out_of_sight()) return place.station->notebook_changed(written);
  if (!place.missed) {
    place.missed = written;
    return;
  }
  auto changes = std::move(place.missed->changes);
  changes.insert(changes.end(), written.changes.begin(), written.changes.end());
  place.missed = written;
  place.missed->changes = std::move(changes);
}

void MainWindow::catch_up(Place& place) {
  if (const auto missed = std::exchange(place.missed, {})) place.station->notebook_changed(*missed);
}

void MainWindow::say(const QString& words) { bottom_->say(words); }
void MainWindow::refuse(const Error& error) { bottom_->refused(error); }

void MainWindow::take_back() {
  if (const auto done = session_.journal.undo(); !done.ok()) refuse(done.error());
  count_soon();
}

void MainWindow::put_back() {
  if (const auto done = session_.journal.redo(); !done.ok()) refuse(done.error());
  count_soon();
}

// Typed text is written on closing. What is refused is shown once, in place; closing again leaves it as a draft.
void MainWindow::closeEvent(QCloseEvent* event) {
  Field* refused = commit_all(this);
  if (!refused || close_asked_) {
    session_.drafts.write_now();
    event->accept();
    return;
  }
  close_asked_ = true;
  for (const Place& place : places_)
    if (place.station && place.station->isAncestorOf(refused)) bring_to_view(place.station);
  refused->setFocus(Qt::OtherFocusReason);
  say(tr("%1 is not written yet. Close again to leave it as a draft.").arg(refused->label()));
  event->ignore();
}

}  // namespace prillbook::ui
