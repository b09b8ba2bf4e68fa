// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/setup/setup_station.h"

#include <QtWidgets/QLabel>
#include <QtWidgets/QVBoxLayout>

#include "core/lab/settings.h"
#include "ui/balance_port/port_page.h"
#include "ui/kit/bench.h"
#include "ui/kit/form.h"
#include "ui/kit/press_button.h"
#include "ui/kit/theme.h"
#include "ui/kit/waiting_list.h"
#include "ui/setup/check_page.h"
#include "ui/setup/lab_page.h"
#include "ui/setup/stack_table.h"
#include "ui/setup/tables.h"

namespace prillbook::ui {
namespace {

// What a part is for, and the button that leads to its page.
QWidget* door(const QString& what_for, PressButton* button) {
  auto* part = new QWidget;
  auto* words = new QLabel(what_for);
  words->setFont(face(TextSize::body));
  words->setWordWrap(true);
  auto* column = new QVBoxLayout(part);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(2 * rhythm);
  column->addWidget(words);
  column->addWidget(button, 0, Qt::AlignLeft);
  return part;
}

}  // namespace

SetupStation::SetupStation(Session& session, QWidget* parent)
    : Station(parent),
      session_(session),
      list_(new WaitingList(tr("Parts of the set-up"))),
      head_(new Headline),
      lab_(new LabPage(session, LabPage::Shows::lab)),
      limits_(new LabPage(session, LabPage::Shows::limits)),
      people_(people_table(session, Columns::all)),
      balances_(balances_table(session, Columns::all)),
      checks_(new CheckPage(session)),
      port_(new PortPage),
      machines_(machines_table(session)),
      clients_(clients_table(session, Columns::all)),
      print_bench_sheets_(new PressButton(tr("Choose and print…"), PressButton::Rank::main)),
      look_at_copies_(new PressButton(tr("Look at the copies…"), PressButton::Rank::main)),
      look_at_journal_(new PressButton(tr("Look at the journal…"), PressButton::Rank::main)),
      bench_sheets_(
          door(tr("For the bench where no screen is: receiving list, pan tests, charges, bead weighings, sieve analysis "
                  "and cleaning log. What was written there by day is typed in the evening, line by line."),
               print_bench_sheets_)),
      copies_(
          door(tr("The notebook takes copies of itself: after opening and once a day, each checked before it counts. They can "
                  "lie in two places, and any of them can take the place of the notebook again."),
               look_at_copies_)),
      journal_(door(tr("Every entry that was ever made, also what was taken back: who, when, why, and what stood there before."),
                    look_at_journal_)),
      sieves_page_(new QWidget),
      sieves_(sieves_table(session)),
      stacks_(new StackTable(session)),
      places_(places_table(session)),
      furnace_page_(new QWidget),
      lots_(lots_table(session)),
      pots_(pots_table(session)),
      recipes_(recipes_table(session)) {
  auto* furnace_column = new QVBoxLayout(furnace_page_);
  furnace_column->setContentsMargins(0, 0, 0, 0);
  furnace_column->setSpacing(3 * rhythm);
  for (RecordTable* table : {lots_, pots_, recipes_}) furnace_column->addWidget(table);
  auto* sieve_column = new QVBoxLayout(sieves_page_);
  sieve_column->setContentsMargins(0, 0, 0, 0);
  sieve_column->setSpacing(3 * rhythm);
  sieve_column->addWidget(sieves_);
  sieve_column->addWidget(stacks_);
  auto* hand = new QWidget;
  auto* column = new QVBoxLayout(hand);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(rhythm);
  column->addWidget(head_);
  column->addWidget(hairline());
  column->addSpacing(rhythm);
  for (QWidget* page : {static_cast<QWidget*>(lab_), static_cast<QWidget*>(limits_), static_cast<QWidget*>(people_),
                        static_cast<QWidget*>(balances_), static_cast<QWidget*>(checks_), static_cast<QWidget*>(port_),
                        static_cast<QWidget*>(machines_), sieves_page_, static_cast<QWidget*>(clients_),
                        static_cast<QWidget*>(places_), furnace_page_, bench_sheets_, copies_, journal_})
    column->addWidget(page);
  column->addStretch();
  auto* whole = new QVBoxLayout(this);
  whole->setContentsMargins(0, 0, 0, 0);
  whole->addWidget(new Bench(list_, hand));
  connect(print_bench_sheets_, &QPushButton::clicked, this, &SetupStation::bench_sheets_requested);
  connect(look_at_copies_, &QPushButton::clicked, this, &SetupStation::copies_requested);
  connect(look_at_journal_, &QPushButton::clicked, this, &SetupStation::journal_requested);
  connect(list_, &WaitingList::taken, this, [this](RecordId id) { show_part(Part(id)); });
  connect(list_, &WaitingList::opened, this, [this](RecordId) { enter(); });
  list_->read_from([this](int from, int) { return from == 0 ? parts() : std::vector<WaitingRow>{}; });
  for (RecordTable* table : {people_, balances_, machines_, clients_, sieves_, places_, lots_, pots_, recipes_})
    connect(table, &RecordTable::made, this, [this] { list_->refresh(); });
  show_part(Part::lab);
}

StationPlace SetupStation::place(Session& session) {
  using history::Entity;
  return {tr("Lab set-up"),
          Icon::setup,
          {},
          {Entity::setting, Entity::person, Entity::balance, Entity::check_weight, Entity::check_weighing, Entity::machine,
           Entity::client, Entity::lot, Entity::pot, Entity::recipe, Entity::sieve, Entity::sieve_stack, Entity::place},
          [&session] { return new SetupStation(session); }};
}

std::vector<WaitingRow> SetupStation::parts() const {
  const auto settings = lab::settings(session_.connection);
  const QString name = settings.ok() ? QString::fromStdString(settings->lab_name) : QString();
  return {
      {RecordId(Part::lab), tr("The lab"), {}, name.isEmpty() ? tr("not named yet") : name},
      {RecordId(Part::limits), tr("Limits"), {}, tr("what is asked about")},
      {RecordId(Part::people), tr("People"), {}, tr("%n working here", nullptr, people_->count())},
      {RecordId(Part::balances), tr("Balances"), {}, tr("%n, each with its step", nullptr, balances_->count())},
      {RecordId(Part::checks), tr("Check weights"), {}, tr("%n, and what the balances made of them", nullptr, checks_->count())},
      {RecordId(Part::port), tr("Balance on a wire"), {}, tr("serial port of this computer")},
      {RecordId(Part::clients), tr("Clients"), {}, tr("%n sending rock", nullptr, clients_->count())},
      {RecordId(Part::machines), tr("Machines"), {}, tr("%n in the preparation room", nullptr, machines_->count())},
      {RecordId(Part::sieves), tr("Sieves"), {}, tr("%n, and the stacks made of them", nullptr, sieves_->count())},
      {RecordId(Part::furnace), tr("Furnace"), {}, tr("%n lots, and pots and recipes", nullptr, lots_->count())},
      {RecordId(Part::places), tr("Storage places"), {}, tr("%n, where samples are kept", nullptr, places_->count())},
      {RecordId(Part::bench_sheets), tr("Bench sheets"), {}, tr("blank, to print")},
      {RecordId(Part::copies), tr("Copies"), {}, tr("and the way back to one")},
      {RecordId(Part::journal), tr("Journal"), {}, tr("every entry ever made")}};
}

void SetupStation::show_part(Part part) {
  list_->take(RecordId(part));
  lab_->setVisible(part == Part::lab);
  limits_->setVisible(part == Part::limits);
  people_->setVisible(part == Part::people);
  balances_->setVisible(part == Part::balances);
  checks_->setVisible(part == Part::checks);
  port_->setVisible(part == Part::port);
  machines_->setVisible(part == Part::machines);
  clients_->setVisible(part == Part::clients);
  bench_sheets_->setVisible(part == Part::bench_sheets);
  copies_->setVisible(part == Part::copies);
  journal_->setVisible(part == Part::journal);
  sieves_page_->setVisible(part == Part::sieves);
  places_->setVisible(part == Part::places);
  furnace_page_->setVisible(part == Part::furnace);
  switch (part) {
    case Part::lab: return head_->set(tr("The lab"), tr("as it stands on summaries"));
    case Part::limits: return head_->set(tr("Limits"), tr("an empty field goes back to the default"));
    case Part::people: return head_->set(tr("People"), tr("initials stand beside every entry"));
    case Part::balances: return head_->set(tr("Balances"), tr("the step decides how far a bead may be trusted"));
    case Part::checks: return head_->set(tr("Check weights"), tr("a balance out of check marks what it weighs"));
    case Part::port: return head_->set(tr("Balance on a wire"), tr("kept for this computer, not in the notebook"));
    case Part::machines: return head_->set(tr("Machines"), tr("without any, nothing is asked for at Preparation"));
    case Part::clients: return head_->set(tr("Clients"), tr("whose rock it is"));
    case Part::bench_sheets: return head_->set(tr("Bench sheets"), tr("blank, in the order in which the forms ask"));
    case Part::copies: return head_->set(tr("Copies"), tr("taken and checked by themselves"));
    case Part::journal: return head_->set(tr("Journal"), tr("nothing is ever rubbed out"));
    case Part::sieves: return head_->set(tr("Sieves"), tr("a mesh number stands with its series"));
    case Part::furnace: return head_->set(tr("Furnace"), tr("lots with their silver, pots, recipes"));
    case Part::places: return head_->set(tr("Storage places"), tr("a hand-over says where a sample went"));
  }
}

void SetupStation::notebook_changed(const history::Written& written) {
  bool settings = false;
  for (const history::Change& change : written.changes) settings = settings || change.entity == history::Entity::setting;
  if (settings) {
    if (const auto now = lab::settings(session_.connection); now.ok()) session_.writing.mark = now->decimal_mark;
    lab_->refresh();
    limits_->refresh();
  }
  for (const history::Change& change : written.changes) {
    if (change.entity == history::Entity::person) people_->refresh();
    if (change.entity == history::Entity::balance) balances_->refresh();
    if (change.entity == history::Entity::balance || change.entity == history::Entity::check_weight ||
        change.entity == history::Entity::check_weighing)
      checks_->refresh();
    if (change.entity == history::Entity::machine) machines_->refresh();
    if (change.entity == history::Entity::client) clients_->refresh();
    if (change.entity == history::Entity::sieve) sieves_->refresh();
    if (change.entity == history::Entity::sieve || change.entity == history::Entity::sieve_stack ||
        change.entity == history::Entity::stack_sieve)
      stacks_->refresh();
    if (change.entity == history::Entity::place) places_->refresh();
    if (change.entity == history::Entity::lot) lots_->refresh(), recipes_->refresh();
    if (change.entity == history::Entity::pot) pots_->refresh();
    if (change.entity == history::Entity::recipe) recipes_->refresh();
  }
  list_->refresh();
}

bool SetupStation::show_record(const RecordRef& wanted) {
  switch (wanted.entity) {
    case history::Entity::setting: show_part(Part::lab); return true;
    case history::Entity::person: show_part(Part::people); return people_->take(wanted.record);
    case history::Entity::balance: show_part(Part::balances); return balances_->take(wanted.record);
    case history::Entity::check_weight:
    case history::Entity::check_weighing: show_part(Part::checks); return true;
    case history::Entity::machine: show_part(Part::machines); return machines_->take(wanted.record);
    case history::Entity::client: show_part(Part::clients); return clients_->take(wanted.record);
    case history::Entity::lot: show_part(Part::furnace); return lots_->take(wanted.record);
    case history::Entity::pot: show_part(Part::furnace); return pots_->take(wanted.record);
    case history::Entity::recipe: show_part(Part::furnace); return recipes_->take(wanted.record);
    case history::Entity::sieve: show_part(Part::sieves); return sieves_->take(wanted.record);
    case history::Entity::sieve_stack: show_part(Part::sieves); return true;
    case history::Entity::place: show_part(Part::places); return places_->take(wanted.record);
    default: return false;
  }
}

void SetupStation::enter() {
  switch (Part(list_->in_hand())) {
    case Part::people: return people_->enter();
    case Part::balances: return balances_->enter();
    case Part::checks: return checks_->enter();
    case Part::port: return port_->enter();
    case Part::machines: return machines_->enter();
    case Part::clients: return clients_->enter();
    case Part::sieves: return sieves_->enter();
    case Part::furnace: return lots_->enter();
    case Part::places: return places_->enter();
    case Part::limits: list_->setFocus(); return;
    case Part::bench_sheets: print_bench_sheets_->setFocus(); return;
    case Part::copies: look_at_copies_->setFocus(); return;
    case Part::journal: look_at_journal_->setFocus(); return;
    case Part::lab: lab_->findChild<Field*>()->setFocus(); return;
  }
}

}  // namespace prillbook::ui
