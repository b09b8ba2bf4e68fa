// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/program/desk.h"

#include <QtCore/QCoreApplication>
#include <QtCore/QFileInfo>
#include <QtCore/QSettings>
#include <QtGui/QShortcut>
#include <QtWidgets/QApplication>

#include "app/program/describe.h"
#include "app/program/guide_page.h"
#include "core/custody/custody.h"
#include "core/lab/lab.h"
#include "core/lab/settings.h"
#include "core/labels/code.h"
#include "core/portions/portions.h"
#include "core/search/search.h"
#include "core/store/place.h"
#include "core/upkeep/keep.h"
#include "ui/compare/compare_station.h"
#include "ui/findings/findings_station.h"
#include "ui/furnace/furnace_station.h"
#include "ui/kit/sentences.h"
#include "ui/pan/pan_station.h"
#include "ui/preparation/preparation_station.h"
#include "ui/printing/bench_page.h"
#include "ui/printing/labels_page.h"
#include "ui/printing/tray_sheet_page.h"
#include "ui/quality/quality_station.h"
#include "ui/receiving/receiving_station.h"
#include "ui/setup/first_steps.h"
#include "ui/setup/setup_station.h"
#include "ui/sheet/sample_sheet.h"
#include "ui/sieves/sieves_station.h"
#include "ui/summary/summary_station.h"
#include "ui/upkeep/copies_page.h"
#include "ui/upkeep/copy_keeper.h"
#include "ui/upkeep/history_page.h"
#include "ui/upkeep/journal_page.h"
#include "ui/weigh_room/weigh_room.h"
#include "ui/window/scanner.h"

namespace prillbook::program {
namespace {

using history::Entity;
using ui::Found;
using ui::RecordRef;

constexpr const char* last_worker = "window/worker";
constexpr const char* last_place = "window/station";

// Along the way, as parts() lays it out.
constexpr std::size_t receiving_place = 0, furnace_place = 3, sieves_place = 4;

// The kind, and what tells one from another: "sample · Larch adit N · north drive · Larch Adit Syndicate".
Found found(const search::Hit& hit) {
  QStringList words{hit.entity == Entity::sample ? QCoreApplication::translate("Desk", "sample")
                                                 : QCoreApplication::translate("Desk", "consignment")};
  for (const auto& part : {hit.mark, hit.place, std::optional(hit.client)})
    if (part) words.push_back(QString::fromStdString(*part));
  return {{hit.entity, hit.record}, QString::fromStdString(hit.number), words.join(QStringLiteral(" · "))};
}

// A code of a label, typed or scanned into the find line.
std::vector<Found> found_by_code(store::Connection& connection, const QString& typed) {
  const auto code = labels::parse_code(typed.toStdString());
  const auto place = code.ok() ? labels::find(connection, *code) : Result<labels::Place>(code.error());
  if (!place.ok()) return {};
  const QString number = QString::fromStdString(code->number);
  return {{{place->entity, place->record},
           code->portion > 0 ? QStringLiteral("%1/%2").arg(number).arg(code->portion) : number,
           QCoreApplication::translate("Desk", "by its label")}};
}

QString code_fault(const Error& error, const QString& code) {
  const auto words = [](const char* text) { return QCoreApplication::translate("Desk", text); };
  switch (error.code) {
    case ErrorCode::not_found:
      return words("This notebook has no %1: the label is of another.")
          .arg(error.arguments.empty() ? code : QString::fromStdString(error.arguments[0]));
    case ErrorCode::newer_version: return words("The label %1 is of a later kind than this program reads.").arg(code);
    case ErrorCode::wrong_type:
    case ErrorCode::out_of_range: return words("The code %1 can’t be read.").arg(code);
    default: return ui::sentence(error);
  }
}

// "26-0003/2", typed.
std::optional<Found> found_portion(store::Connection& connection, const QString& typed) {
  const QStringList halves = typed.trimmed().split('/');
  if (halves.size() != 2) return std::nullopt;
  const auto sample = custody::sample_by_number(connection, halves[0].toStdString());
  if (!sample) return std::nullopt;
  const auto portions = portions::portions_of(connection, *sample);
  if (!portions) return std::nullopt;
  for (const portions::Portion& portion : *portions)
    if (QString::number(portion.number) == halves[1].trimmed())
      return Found{{Entity::portion, portion.id.value}, typed.trimmed(), QString::fromStdString(portion.purpose)};
  return std::nullopt;
}

// The record of the field that has the keys: fields are known by "sample/12/mass_received".
std::optional<RecordRef> record_of_field(const QWidget* widget) {
  for (; widget; widget = widget->parentWidget()) {
    const QStringList key = widget->property("record").toString().split('/');
    const auto* entity = history::find_entity(std::string_view(key[0].toStdString()));
    if (entity && key.size() == 3) return RecordRef{entity->entity, key[1].toLongLong()};
  }
  return std::nullopt;
}

}  // namespace

Desk::Desk(QString path, Clock& clock, Doors doors) : path_(std::move(path)), clock_(clock), doors_(std::move(doors)) {}

Desk::~Desk() {
  if (window_) QSettings().setValue(last_place, qulonglong(window_->place_in_hand()));
  scanner_.reset();
  window_.reset();
  delete sheet_;
  delete guide_;
  delete labels_;
  delete bench_sheets_;
  delete tray_sheet_;
  delete copies_;
  delete history_;
  delete journal_page_;
}

Result<std::unique_ptr<Desk>> Desk::open(const QString& path, store::Access access, Clock& clock, Doors doors,
                                         store::TakeOver take_over) {
  std::unique_ptr<Desk> desk(new Desk(path, clock, std::move(doors)));
  PRILLBOOK_TRY(desk->open_file(access, take_over));
  desk->build_window();
  return desk;
}

Result<void> Desk::open_file(store::Access access, store::TakeOver take_over) {
  const std::string file = path_.toStdString();
  if (access == store::Access::read_only) {
    PRILLBOOK_ASSIGN(connection_, store::Connection::open_to_read(file));
  } else {
    PRILLBOOK_ASSIGN(lock_, store::WriterLock::take(file, clock_.now(), take_over));
    PRILLBOOK_ASSIGN(auto opened, upkeep::open_migrated(file));
    connection_ = std::move(opened.connection);
  }
  PRILLBOOK_ASSIGN(journal_, history::Journal::open(*connection_, clock_));
  PRILLBOOK_ASSIGN(const lab::Settings settings, lab::settings(*connection_));
  notifier_ = std::make_unique<ui::Notifier>(*journal_);
  drafts_ = std::make_unique<ui::Drafts>(path_);
  session_.reset(new ui::Session{*connection_, *journal_, *notifier_, prompter_, *drafts_, {settings.decimal_mark}});
  const std::string worker = QSettings().value(last_worker).toString().toStdString();
  if (lab::person_by_initials(*connection_, worker).ok()) journal_->set_author(worker);
  return {};
}

void Desk::work_as(const std::string& initials) {
  journal_->set_author(initials);
  QSettings().setValue(last_worker, QString::fromStdString(initials));
  if (window_) window_->show_worker();
}

void Desk::build_window() {
  window_ = std::make_unique<ui::MainWindow>(*session_, parts());
  prompter_.set_window(window_.get());
  keeper_ = std::make_unique<ui::CopyKeeper>(path_, clock_);
  QObject::connect(keeper_.get(), &ui::CopyKeeper::said, window_.get(), &ui::MainWindow::say);
  if (!session_->read_only()) keeper_->begin();
  if (store::lies_on_a_share(path_.toStdString()))
    window_->say(QCoreApplication::translate(
        "Desk", "The notebook lies on a network share: let one window at a time write to it, and keep copies here too."));
  add_keys();

  scanner_ =
      std::make_unique<ui::Scanner>(QString::fromLatin1(labels::code_prefix.data(), qsizetype(labels::code_prefix.size())));
  QObject::connect(scanner_.get(), &ui::Scanner::scanned, window_.get(), [this](const QString& code) { open_code(code); });
}

ui::SampleSheet& Desk::sheet() {
  if (sheet_) return *sheet_;
  ui::MainWindow* window = window_.get();
  sheet_ = new ui::SampleSheet(*session_, window);
  QObject::connect(sheet_, &ui::SampleSheet::open_requested, window, [window](const RecordRef& wanted) { window->open(wanted); });
  QObject::connect(sheet_, &ui::SampleSheet::guide_requested, window, [this](const QString& page) { open_guide(page); });
  QObject::connect(sheet_, &ui::SampleSheet::said, window, &ui::MainWindow::say);
  QObject::connect(sheet_, &ui::SampleSheet::history_requested, window, [this](const RecordRef& of) { open_history(of); });
  QObject::connect(sheet_, &ui::SampleSheet::labels_requested, window, [this](const RecordRef& of) { open_labels(of); });
  QObject::connect(sheet_, &ui::SampleSheet::sieving_wanted, window, [window](PortionId portion) {
    static_cast<ui::SievesStation*>(window->go_to(sieves_place))->take_portion(portion);
  });
  return *sheet_;
}

ui::CopiesPage& Desk::copies() {
  if (copies_) return *copies_;
  copies_ = new ui::CopiesPage(*session_, *keeper_, window_.get());
  QObject::connect(copies_, &ui::CopiesPage::restore_wanted, window_.get(), [this](const QString& copy) {
    if (doors_.restore) doors_.restore(copy);
  });
  QObject::connect(copies_, &ui::CopiesPage::salvage_wanted, window_.get(), [this] {
    if (doors_.salvage) doors_.salvage();
  });
  return *copies_;
}

ui::HistoryPage& Desk::history() {
  if (history_) return *history_;
  ui::MainWindow* window = window_.get();
  history_ = new ui::HistoryPage(*session_, window);
  QObject::connect(history_, &ui::HistoryPage::open_requested, window,
                   [window](const RecordRef& wanted) { window->open(wanted); });
  QObject::connect(history_, &ui::HistoryPage::journal_requested, window, [this] { open_journal(); });
  return *history_;
}

ui::JournalPage& Desk::journal_page() {
  if (journal_page_) return *journal_page_;
  ui::MainWindow* window = window_.get();
  journal_page_ = new ui::JournalPage(*session_, window);
  QObject::connect(journal_page_, &ui::JournalPage::open_requested, window,
                   [window](const RecordRef& wanted) { window->open(wanted); });
  QObject::connect(journal_page_, &ui::JournalPage::said, window, &ui::MainWindow::say);
  return *journal_page_;
}

GuidePage& Desk::guide() {
  if (!guide_) guide_ = new GuidePage;
  return *guide_;
}

ui::LabelsPage& Desk::labels() {
  if (labels_) return *labels_;
  labels_ = new ui::LabelsPage(*session_, {}, window_.get());
  QObject::connect(labels_, &ui::PrintPage::said, window_.get(), &ui::MainWindow::say);
  return *labels_;
}

ui::BenchSheetsPage& Desk::bench_sheets() {
  if (bench_sheets_) return *bench_sheets_;
  bench_sheets_ = new ui::BenchSheetsPage(*session_, {}, window_.get());
  QObject::connect(bench_sheets_, &ui::PrintPage::said, window_.get(), &ui::MainWindow::say);
  return *bench_sheets_;
}

ui::TraySheetPage& Desk::tray_sheet() {
  if (tray_sheet_) return *tray_sheet_;
  tray_sheet_ = new ui::TraySheetPage(*session_, {}, window_.get());
  QObject::connect(tray_sheet_, &ui::PrintPage::said, window_.get(), &ui::MainWindow::say);
  return *tray_sheet_;
}

ui::WindowParts Desk::parts() {
  ui::WindowParts parts;
  parts.way = {ui::ReceivingStation::place(*session_), ui::PreparationStation::place(*session_), ui::PanStation::place(*session_),
               ui::FurnaceStation::place(*session_),   ui::SievesStation::place(*session_),      ui::WeighRoom::place(*session_),
               ui::CompareStation::place(*session_),   ui::SummaryStation::place(*session_)};
  parts.way[receiving_place].make = [this] {
    auto* receiving = new ui::ReceivingStation(*session_);
    QObject::connect(receiving, &ui::ReceivingStation::labels_requested, receiving,
                     [this](const RecordRef& of) { open_labels(of); });
    return receiving;
  };
  parts.way[furnace_place].make = [this] {
    auto* furnace = new ui::FurnaceStation(*session_);
    QObject::connect(furnace, &ui::FurnaceStation::tray_sheet_requested, furnace, [this](TrayId tray) { open_tray_sheet(tray); });
    return furnace;
  };
  parts.beside = {ui::QualityStation::place(*session_), ui::FindingsStation::place(*session_),
                  ui::SetupStation::place(*session_)};
  parts.beside.back().make = [this] {
    auto* setup = new ui::SetupStation(*session_);
    QObject::connect(setup, &ui::SetupStation::bench_sheets_requested, setup, [this] { open_bench_sheets(); });
    QObject::connect(setup, &ui::SetupStation::copies_requested, setup, [this] { open_copies(); });
    QObject::connect(setup, &ui::SetupStation::journal_requested, setup, [this] { open_journal(); });
    return setup;
  };
  const QString name = QFileInfo(path_).completeBaseName();
  parts.notebook_name = session_->read_only() ? QCoreApplication::translate("Desk", "%1, to read only").arg(name) : name;
  parts.find = [this](const QString& typed, int most) { return find(typed, most); };
  parts.people = [this] {
    std::vector<QString> initials;
    if (const auto people = lab::people(*connection_))
      for (const lab::Person& person : *people) initials.push_back(QString::fromStdString(person.initials));
    return initials;
  };
  parts.new_person = [this](const QString& initials) -> Result<void> {
    const auto made = lab::add_person(*journal_, initials.toStdString());
    if (!made) return made.error();
    return {};
  };
  parts.worker_chosen = [this](const QString& initials) { work_as(initials.toStdString()); };
  parts.describe = [this](const history::Written& written) { return program::describe(*connection_, written); };
  parts.open_guide = [this](const QString& page) { open_guide(page); };
  parts.change_notebook = doors_.change_notebook;
  parts.open_page = [this](const RecordRef& wanted) { return open_sheet(wanted); };
  parts.first_place = std::size_t(QSettings().value(last_place).toULongLong());
  if (ui::FirstSteps::wanted(*session_))
    parts.first_page = new ui::FirstSteps(*session_, {[this] { window_->go_to(receiving_place); }, doors_.open_demonstration,
                                                      [this](const QString& initials) { work_as(initials.toStdString()); }});
  return parts;
}

std::vector<Found> Desk::find(const QString& typed, int most) {
  if (labels::is_code(typed.toStdString())) return found_by_code(*connection_, typed);
  std::vector<Found> list;
  if (auto portion = found_portion(*connection_, typed)) list.push_back(*std::move(portion));
  if (const auto hits = search::find(*connection_, typed.toStdString(), std::size_t(most)))
    for (const search::Hit& hit : *hits) list.push_back(found(hit));
  return list;
}

bool Desk::open_sheet(const RecordRef& wanted) {
  if (!sheet().show_record(wanted)) return false;
  window_->show_page(sheet_);
  sheet_->enter();
  return true;
}

void Desk::open_labels(const RecordRef& of) {
  if (!labels().show_labels_of(of)) return;
  window_->show_page(labels_);
  labels_->enter();
}

void Desk::open_bench_sheets() {
  window_->show_page(&bench_sheets());
  bench_sheets_->enter();
}

void Desk::open_tray_sheet(TrayId tray) {
  if (!tray_sheet().show_tray(tray)) return;
  window_->show_page(tray_sheet_);
  tray_sheet_->enter();
}

void Desk::open_copies() {
  window_->show_page(&copies());
  copies_->enter();
}

void Desk::open_history(const RecordRef& of) {
  if (!history().show_record(of)) return;
  window_->show_page(history_);
  history_->enter();
}

void Desk::open_history_in_hand() {
  if (const auto field = record_of_field(QApplication::focusWidget())) return open_history(*field);
  if (sheet_ && sheet_->isVisible()) return open_history({Entity::sample, sheet_->sample().value});
  if (last_written_.record) return open_history(last_written_);
  window_->say(QCoreApplication::translate("Desk", "Put the cursor into a field: its record has the history."));
}

void Desk::open_journal() {
  window_->show_page(&journal_page());
  journal_page_->enter();
}

void Desk::add_keys() {
  const auto on = [this](Qt::Key key, void (Desk::*go)()) {
    QObject::connect(new QShortcut(QKeySequence(Qt::CTRL | key), window_.get()), &QShortcut::activated, window_.get(),
                     [this, go] { (this->*go)(); });
  };
  on(Qt::Key_H, &Desk::open_history_in_hand);
  on(Qt::Key_J, &Desk::open_journal);
  QObject::connect(notifier_.get(), &ui::Notifier::written, window_.get(), [this](const history::Written& written) {
    if (!written.changes.empty()) last_written_ = {written.changes.front().entity, written.changes.front().record};
  });
}

void Desk::open_code(const QString& text) {
  const auto code = labels::parse_code(text.toStdString());
  const auto place = code.ok() ? labels::find(*connection_, *code) : Result<labels::Place>(code.error());
  if (!place.ok()) return window_->say(code_fault(place.error(), text));
  window_->open({place->entity, place->record});
}

void Desk::open_guide(const QString& page) {
  guide().open_at(page);
  window_->show_page(guide_);
  guide_->setFocus();
}

}  // namespace prillbook::program
