// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/sheet/weighing_rows.h"

#include <QtWidgets/QLineEdit>
#include <QtWidgets/QVBoxLayout>

#include "core/history/fields.h"
#include "core/units/units.h"
#include "core/weighing/plausibility.h"
#include "ui/kit/figures.h"
#include "ui/kit/form.h"
#include "ui/kit/sentences.h"
#include "ui/sheet/worker.h"

namespace prillbook::ui {
namespace {

namespace weighing_fields = history::fields::weighing;

}  // namespace

WeighingRows::WeighingRows(Session& session, std::string what, QWidget* parent)
    : QWidget(parent),
      session_(session),
      what_(std::move(what)),
      column_(new QVBoxLayout(this)),
      mass_(new ReadingField({}, {Measure::mass, "mg", session.writing.mark})),
      balance_field_(new PickField(tr("On the balance"))) {
  column_->setContentsMargins(0, 0, 0, 0);
  column_->setSpacing(0);
  mass_->on_commit([this](const auto& mass) { return weigh(mass); });
  mass_->on_doubt([this](const readings::Reading& mass) { return doubt(mass); });
  connect(mass_, &Field::committed, this, [this] { mass_->set_value(std::nullopt); });
  balance_field_->on_commit([this](std::optional<std::int64_t> id) -> Result<void> {
    balance_ = BalanceId{id.value_or(0)};
    for (const lab::Balance& balance : balances_)
      if (balance.id == balance_) step_ = balance.step ? std::optional(balance.step->mass()) : std::nullopt;
    return {};
  });
  mass_->set_read_only(session.read_only());
  auto* fresh = new Form(2);
  fresh->row({mass_, balance_field_});
  column_->addWidget(fresh);
}

WeighingRows::Row WeighingRows::make_row() {
  Row row;
  row.fields = new RecordFields(session_, history::Entity::weighing, this);
  row.mass = row.fields->figure({}, weighing_fields::mass, "mg");
  row.fields->write_by(weighing_fields::mass,
                       RecordFields::EnterFigure([this](RecordId id, const auto& mass, const auto& why) -> Result<void> {
                         if (!mass)
                           return Error{ErrorCode::missing_key, "weighing.mass", "a weighing is left out, not emptied", {}};
                         return weighing::correct(session_.journal, WeighingId{id}, *mass, why.value_or(std::string()));
                       }));
  row.fields->write_by(weighing_fields::excluded, [this](RecordId id, const history::Value& reason, const RecordFields::Why&) {
    const auto* words = std::get_if<std::string>(&reason);
    return weighing::exclude(session_.journal, WeighingId{id}, words ? *words : std::string());
  });
  auto* form = new Form(2);
  form->row({row.mass, row.fields->text(tr("Left out, because"), weighing_fields::excluded)});
  row.line = form;
  column_->insertWidget(int(rows_.size()), form);
  return row;
}

void WeighingRows::show_bead(const results::SampleRecord& record, const weighing::Bead& bead, PortionId portion) {
  if (bead.id != bead_) {
    mass_->commit();
    mass_->leave_record();
    bead_ = bead.id;
    mass_->keep_drafts(session_.drafts, QStringLiteral("bead/%1/%2").arg(bead.id.value).arg(to_qt(what_)));
  }
  const portions::Portion* from = record.portion(portion);
  portion_mass_ = from && from->mass ? std::optional(from->mass->mass()) : std::nullopt;
  suspicious_g_t_ = record.settings.suspicious_grade_g_t;
  std::vector<const weighing::Weighing*> shown;
  for (const weighing::Weighing& one : bead.weighings)
    if (one.what == what_) shown.push_back(&one);
  while (rows_.size() < shown.size()) rows_.push_back(make_row());
  const QString name = what_ == weighing::of_gold ? tr("Gold after parting") : tr("Bead");
  for (std::size_t i = 0; i < rows_.size(); ++i) {
    rows_[i].line->setVisible(i < shown.size());
    rows_[i].fields->show(i < shown.size() ? shown[i]->id.value : 0);
    if (i >= shown.size()) continue;
    QString label = shown.size() > 1 ? tr("%1, weighing %2").arg(name).arg(shown[i]->number) : name;
    for (const lab::Balance& balance : record.balances)
      if (balance.id == shown[i]->balance) label += tr(" · %1").arg(in_short(to_qt(balance.name), 20));
    rows_[i].mass->field()->set_label(label);
  }
  mass_->set_label(shown.empty() ? name : tr("Weigh again"));
  show_balances(record);
}

// The balance last used stays; before that the finest.
void WeighingRows::show_balances(const results::SampleRecord& record) {
  balances_ = record.balances;
  std::vector<PickField::Item> items;
  for (const lab::Balance& balance : balances_) items.push_back({balance.id.value, to_qt(balance.name)});
  balance_field_->set_items(std::move(items));
  const lab::Balance* chosen = nullptr;
  for (const lab::Balance& balance : balances_) {
    if (balance.id == balance_) {
      chosen = &balance;
      break;
    }
    if (balance.step && (!chosen || !chosen->step || balance.step->value < chosen->step->value)) chosen = &balance;
  }
  if (!chosen) return;
  balance_ = chosen->id;
  step_ = chosen->step ? std::optional(chosen->step->mass()) : std::nullopt;
  balance_field_->set_value(chosen->id.value);
}

Result<void> WeighingRows::weigh(const std::optional<readings::Reading>& mass) {
  if (!mass) return {};
  if (mass->state == readings::State::none_seen) return weighing::set_none_seen(session_.journal, bead_, true);
  const auto made = weighing::weigh(session_.journal, {bead_, what_, *mass, balance_, {}, worker(session_)});
  if (!made.ok()) return made.error();
  return {};
}

// Only a doubt that has another figure to offer is asked about here.
std::optional<ReadingField::Doubt> WeighingRows::doubt(const readings::Reading& mass) const {
  const weighing::Weighed context{portion_mass_, step_, Grade(suspicious_g_t_, unit::gram_per_tonne)};
  for (const weighing::Question& question : weighing::doubts(mass, context))
    if (question.instead) return ReadingField::Doubt{{{QLatin1Char('m'), to_qt(question.instead->typed)}}, {}};
  return std::nullopt;
}

}  // namespace prillbook::ui
