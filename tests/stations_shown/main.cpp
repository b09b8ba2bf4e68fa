// SPDX-License-Identifier: GPL-3.0-or-later
// Shows Receiving, the sample sheet and Lab set-up on an invented notebook, to be looked at:
// stations_shown [light|dark] [first|receiving|new|lab|limits|people|balances|clients|sheet|pan|fire|cut] [long].
#include <QtCore/QTemporaryDir>
#include <QtWidgets/QApplication>
#include <clocale>

#include "core/findings/finding.h"
#include "tests/support/records.h"
#include "ui/kit/theme.h"
#include "ui/receiving/receiving_station.h"
#include "ui/setup/first_steps.h"
#include "ui/setup/setup_station.h"
#include "ui/sheet/sample_sheet.h"
#include "ui/window/main_window.h"

namespace {

using namespace prillbook;
using namespace prillbook::ui;
using testing_support::figure;

struct Invented : testing_support::MemoryNotebook {
  history::Journal& book = *journal;
  ConsignmentId consignment;
  SampleId sample;
  PortionId pan, fire;

  BeadId weighed(PortionId portion, bool panned, const std::string& bead, BalanceId balance, PersonId by) {
    const BeadId id = panned ? gravity::start_pan_test(book, {portion, {}, by, figure("180 µm", Measure::opening)})->bead
                             : fire::start_charge(book, {portion, {}, by, {}, figure("8 mg"), {}})->bead;
    (void)weighing::weigh(book, {id, "bead", figure(bead), balance, {}, by});
    return id;
  }

  void fill(bool long_names) {
    const std::string tail = long_names ? std::string(180, 'w') + " and so on" : "";
    (void)lab::set_setting(book, "lab.name", "Bench by the mill race");
    (void)lab::set_setting(book, "lab.address", "3 Mill Race, Fernhill");
    const PersonId by = *lab::add_person(book, "HM", "Hanna Moss");
    (void)lab::add_person(book, "TK", "Tilde Kern");
    const ClientId client = *lab::add_client(book, "Larch Adit Syndicate" + tail);
    (void)lab::add_client(book, "A. Sorrel");
    const BalanceId balance = *lab::add_balance(book, "bead balance", figure("0.001 mg"));
    (void)lab::add_balance(book, "counter balance", figure("1 g"));
    consignment = *custody::log_consignment(book, {client, {}, "the client", {}, 4, 4, by});
    custody::NewSample leaking{consignment,
                               "Larch adit N" + tail,
                               "chip",
                               "north drive, face",
                               "ordinary",
                               "torn",
                               {},
                               figure("4.55 kg"),
                               figure("4.10 kg"),
                               {},
                               {}};
    sample = *custody::log_sample(book, leaking);
    custody::NewSample other{
        consignment, "Larch adit S", "channel", "south drive", "low", "sealed", {}, figure("3.2 kg"), figure("3.18 kg"), {}, {}};
    (void)custody::log_sample(book, other);
    other.mark = "Old dump, lower bench";
    other.condition = "leaking";
    other.kind = "dump";
    other.mass_received = figure("9.4 kg");
    (void)custody::log_sample(book, other);
    const ConsignmentId second =
        *custody::log_consignment(book, {*lab::add_client(book, "Fernhill claim"), {}, "post", {}, 1, 1, by});
    other = {second, "Quartz, visible gold", "grab", {}, "specimen", "open", {}, {}, figure("612 g"), {}, {}};
    (void)custody::log_sample(book, other);
    (void)custody::log_consignment(book, {*lab::add_client(book, "Three Barrels"), {}, {}, {}, {}, {}, by});
    tests(balance, by);
  }

  void tests(BalanceId balance, PersonId by) {
    const PortionId half = *portions::cut(book, {sample, {}, "duplicate", figure("1.5 kg"), {}, by, {}});
    pan = *portions::cut(book, {sample, half, "pan", figure("500 g"), {}, by, {}});
    const BeadId bead = weighed(pan, true, "6.217 mg", balance, by);
    (void)weighing::weigh(book, {bead, "bead", figure("6.219 mg"), balance, {}, by});
    (void)weighing::set_fineness(book, bead, "touchstone", figure("860 ‰", Measure::fineness), {});
    (void)gravity::weigh_product(book, gravity::pan_tests_of(*connection, pan)->front().id, "tail", figure("455 g"), by);
    const PortionId lost = *portions::cut(book, {sample, half, "fire", figure("30 g"), {}, by, {}});
    const auto charge = *fire::start_charge(book, {lost, {}, by, {}, {}, {}});
    (void)fire::set_spoiled(book, charge.charge, "the pot cracked at the pour");
    fire = *portions::cut(book, {sample, half, "fire", figure("30 g"), {}, by, {}});
    const auto again = *fire::start_charge(book, {fire, {}, by, charge.charge, {}, {}});
    (void)weighing::weigh(book, {again.bead, "bead", figure("0.621 mg"), balance, {}, by});
    (void)weighing::set_fineness(book, again.bead, "stated", figure("840 ‰", Measure::fineness),
                                 figure("10 ‰", Measure::fineness));
    const PortionId third = *portions::cut(book, {sample, half, "fire", figure("30 g"), {}, by, {}});
    const BeadId other = weighed(third, false, "8.58 mg", balance, by);
    (void)weighing::set_fineness(book, other, "parted", {}, {});
    (void)weighing::weigh(book, {other, "gold", figure("0.512 mg"), balance, {}, by});
    (void)portions::set_mass(book, third, figure("30.2 g"), "read 30.0 for 30.2");
    (void)portions::cut(book, {sample, {}, "retain", figure("2 kg"), {}, by, "shelf 3"});
  }
};

void open(MainWindow& window, const QStringList& words, Invented& notebook, ReceivingStation* receiving, SetupStation* setup,
          SampleSheet* sheet) {
  const auto part = [&](SetupStation::Part which) {
    window.go_to(setup);
    setup->show_part(which);
    setup->enter();
  };
  const auto on_sheet = [&](const RecordRef& what) {
    sheet->show_record(what);
    window.show_page(sheet);
    sheet->enter();
  };
  if (words.contains("receiving")) receiving->take_sample(notebook.sample);
  if (words.contains("next")) receiving->take_consignment(notebook.consignment);
  if (words.contains("lab")) part(SetupStation::Part::lab);
  if (words.contains("limits")) part(SetupStation::Part::limits);
  if (words.contains("people")) part(SetupStation::Part::people);
  if (words.contains("balances")) part(SetupStation::Part::balances);
  if (words.contains("clients")) part(SetupStation::Part::clients);
  if (words.contains("sheet")) on_sheet({history::Entity::sample, notebook.sample.value});
  if (words.contains("bare")) on_sheet({history::Entity::sample, notebook.sample.value + 1});
  if (words.contains("pan")) on_sheet({history::Entity::portion, notebook.pan.value});
  if (words.contains("fire")) on_sheet({history::Entity::portion, notebook.fire.value});
  if (words.contains("parted")) on_sheet({history::Entity::portion, notebook.fire.value + 1});
}

}  // namespace

int main(int argc, char** argv) {
  QApplication application(argc, argv);
  std::setlocale(LC_NUMERIC, "C");
  const QStringList words = application.arguments();
  Theme theme(application, words.contains("dark") ? Shade::dark : Shade::light);
  Invented notebook;
  if (words.contains("first"))
    notebook.journal->set_author("");
  else
    notebook.fill(words.contains("long"));
  Notifier notifier(*notebook.journal);
  DialogPrompter prompter(nullptr);
  QTemporaryDir folder;
  Drafts drafts("shown", folder.path());
  Session session{*notebook.connection, *notebook.journal, notifier, prompter, drafts, {}};
  auto* receiving = new ReceivingStation(session);
  auto* setup = new SetupStation(session);
  SampleSheet sheet(session);
  MainWindow* window = nullptr;
  WindowParts parts;
  parts.way = {receiving};
  parts.beside = {setup};
  parts.notebook_name = "Shown";
  parts.people = [] { return std::vector<QString>{"HM", "TK"}; };
  parts.open_guide = [](const QString&) {};
  parts.open_elsewhere = [&](const RecordRef& what) {
    if (sheet.show_record(what)) window->show_page(&sheet), sheet.enter();
  };
  if (words.contains("first"))
    parts.first_page = new FirstSteps(session, {[&] { window->go_to(receiving); }, [] {},
                                                [&](const QString& who) { notebook.journal->set_author(who.toStdString()); }});
  MainWindow shown(session, std::move(parts));
  window = &shown;
  prompter.set_window(window);
  shown.resize(words.contains("narrow") ? 1024 : 1280, 720);
  shown.move(0, 0);
  shown.show();
  open(shown, words, notebook, receiving, setup, &sheet);
  return QApplication::exec();
}
