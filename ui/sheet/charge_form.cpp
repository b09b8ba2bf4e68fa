// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/sheet/charge_form.h"

#include <QtWidgets/QLabel>
#include <QtWidgets/QVBoxLayout>

#include "core/history/fields.h"
#include "ui/kit/form.h"
#include "ui/kit/press_button.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"

namespace prillbook::ui {
namespace {

namespace charge_fields = history::fields::charge;

}  // namespace

ChargeForm::ChargeForm(Session& session, QWidget* parent)
    : QWidget(parent),
      session_(session),
      fields_(new RecordFields(session, history::Entity::charge, this)),
      repeats_(new QLabel) {
  repeats_->setFont(face(TextSize::small));
  repeats_->setProperty("tone", "quiet");
  repeats_->setWordWrap(true);
  repeats_->setTextFormat(Qt::PlainText);
  auto* form = new Form(3);
  form->heading(tr("Charge"));
  form->wide(repeats_);
  form->row({fields_->figure(tr("Collector silver"), charge_fields::collector, "mg"),
             fields_->figure(tr("Silver of litharge and lead"), charge_fields::blank, "mg"),
             fields_->figure(tr("Lead button"), charge_fields::button, "g")});
  form->row(
      {fields_->text(tr("Look of the slag"), charge_fields::slag_look), fields_->text(tr("Remarks"), charge_fields::remarks)});
  auto* metal = new Form(2);
  metal->row({fields_->figure(tr("Metal from the slag"), charge_fields::slag_metal, "mg"),
              fields_->figure(tr("Metal from the cupel"), charge_fields::cupel_metal, "mg")});
  metal->row({fields_->figure(tr("Gold of it, slag"), charge_fields::slag_gold, "mg"),
              fields_->figure(tr("Gold of it, cupel"), charge_fields::cupel_gold, "mg")});
  metal->row({fields_->figure(tr("Gold loss, estimated"), charge_fields::gold_loss, "%"),
              fields_->figure(tr("Silver loss, estimated"), charge_fields::silver_loss, "%")});
  recovered_ = new Fold(tr("Recovered or lost in the furnace"), metal);
  auto* reasons = new Form(2);
  reasons->row({fields_->text(tr("Spoiled, because"), charge_fields::spoiled),
                fields_->text(tr("Left out of the mean, because"), charge_fields::excluded)});
  fields_->write_by(charge_fields::spoiled, [this](RecordId id, const history::Value& reason, const RecordFields::Why&) {
    const auto* words = std::get_if<std::string>(&reason);
    return fire::set_spoiled(session_.journal, ChargeId{id}, words ? *words : std::string());
  });
  lost_ = new Fold(tr("Spoiled or left out"), reasons);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->addWidget(form);
  column->addWidget(recovered_);
  column->addWidget(lost_);
}

void ChargeForm::show_charge(const results::SampleRecord& record, const fire::Charge& charge) {
  const bool other = charge.id != charge_;
  charge_ = charge.id;
  fields_->show(charge.id.value);
  repeats_->setVisible(bool(charge.repeat_of));
  for (const results::FireEntry& entry : record.charges)
    if (charge.repeat_of && entry.charge.id == charge.repeat_of)
      repeats_->setText(tr("Repeats %1, spoiled: %2")
                            .arg(to_qt(record.portion_label(entry.charge.portion)), to_qt(entry.charge.spoiled.value_or(""))));
  const bool has_metal = charge.slag_metal || charge.cupel_metal || charge.gold_loss || charge.silver_loss;
  if (other || has_metal) recovered_->set_open(has_metal);
  if (other || charge.spoiled || charge.excluded) lost_->set_open(charge.spoiled || charge.excluded);
}

}  // namespace prillbook::ui
