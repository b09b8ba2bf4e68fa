// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/receiving/consignment_form.h"

#include <QtWidgets/QVBoxLayout>

#include "core/history/fields.h"
#include "core/lab/lab.h"
#include "ui/kit/form.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"
#include "ui/receiving/pieces_form.h"

namespace prillbook::ui {
namespace {

namespace consignment_fields = history::fields::consignment;

}  // namespace

ConsignmentForm::ConsignmentForm(Session& session, QWidget* parent)
    : QWidget(parent),
      session_(session),
      fields_(new RecordFields(session, history::Entity::consignment, this)),
      pieces_(new PiecesForm(session)),
      custody_part_(build_custody_part()) {
  client_ = fields_->pick(tr("Client"), consignment_fields::client);
  client_->on_new([this](const std::string& name) -> Result<std::int64_t> {
    PRILLBOOK_ASSIGN(const ClientId id, lab::add_client(session_.journal, name));
    return id.value;
  });
  fields_->write_by(consignment_fields::client,
                    [this](RecordId record, const history::Value& client, const RecordFields::Why& why) {
                      return write_client(record, client, why);
                    });
  received_by_ = fields_->pick(tr("Received by"), consignment_fields::received_by);
  auto* form = new Form(3);
  auto* pieces_declared = fields_->whole(tr("Pieces declared"), consignment_fields::pieces_declared);
  auto* pieces_found = fields_->whole(tr("Pieces found"), consignment_fields::pieces_found);
  form->row({client_, fields_->text(tr("Carrier"), consignment_fields::carrier), pieces_declared});
  form->row({pieces_found, fields_->time(tr("Arrived"), consignment_fields::arrived), received_by_});
  form->row({fields_->text(tr("Remarks"), consignment_fields::remarks)});
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->addWidget(form);
  refresh();
  enable(false);
}

QWidget* ConsignmentForm::build_custody_part() {
  auto* part = new QWidget;
  auto* form = new Form(2);
  form->row({fields_->text(tr("Seals as found"), consignment_fields::seals),
             fields_->text(tr("Condition in short"), consignment_fields::pieces_condition)});
  form->row({fields_->flag(tr("Whole custody form"), tr("every hand-over is written down"), consignment_fields::whole_form)});
  auto* column = new QVBoxLayout(part);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(rhythm);
  column->addWidget(form);
  column->addWidget(pieces_);
  return part;
}

void ConsignmentForm::show_consignment(ConsignmentId id) {
  pieces_->show_consignment(id);
  fields_->show(id.value);
  enable(bool(id));
  refresh();
}

void ConsignmentForm::enable(bool logged) {
  for (Field* field : fields_->all()) field->setEnabled(logged || field == client_);
  client_->hold_while_empty(!logged);
  client_->set_hint(logged ? QString() : tr("A name that is not in the list is a new client."));
}

void ConsignmentForm::refresh() {
  const auto clients = lab::clients(session_.connection);
  const auto people = lab::people(session_.connection);
  std::vector<PickField::Item> items;
  if (clients.ok())
    for (const lab::Client& client : *clients) items.push_back({client.id.value, to_qt(client.name)});
  client_->set_items(std::move(items));
  items.clear();
  pieces_->refresh();
  if (people.ok())
    for (const lab::Person& person : *people) items.push_back({person.id.value, to_qt(person.initials)});
  received_by_->set_items(std::move(items));
  fields_->refresh();
}

Result<void> ConsignmentForm::write_client(RecordId record, const history::Value& client, const RecordFields::Why& why) {
  if (record) return readings::enter(session_.journal, consignment_fields::client, record, client, why);
  const auto* id = std::get_if<std::int64_t>(&client);
  custody::NewConsignment fresh;
  fresh.client = ClientId{id ? *id : 0};
  if (const auto worker = lab::person_by_initials(session_.connection, session_.journal.author()); worker.ok())
    fresh.received_by = worker->id;
  PRILLBOOK_ASSIGN(const ConsignmentId made, custody::log_consignment(session_.journal, fresh));
  fields_->adopt(made.value);
  pieces_->show_consignment(made);
  enable(true);
  emit logged(made);
  return {};
}

void ConsignmentForm::enter() { client_->setFocus(Qt::OtherFocusReason); }

}  // namespace prillbook::ui
