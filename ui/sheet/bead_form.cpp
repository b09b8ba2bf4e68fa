// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/sheet/bead_form.h"

#include <QtWidgets/QVBoxLayout>

#include "core/history/fields.h"
#include "ui/kit/form.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"
#include "ui/sheet/weighing_rows.h"

namespace prillbook::ui {
namespace {

namespace bead_fields = history::fields::bead;

bool needs_uncertainty(const std::optional<std::string>& method) { return method == "density" || method == "stated"; }

std::vector<ChoiceField::Choice> methods() {
  std::vector<ChoiceField::Choice> choices;
  for (const std::string_view method : bead_fields::methods) choices.push_back({std::string(method), choice_word(method)});
  return choices;
}

}  // namespace

BeadForm::BeadForm(Session& session, QWidget* parent)
    : QWidget(parent),
      session_(session),
      fields_(new RecordFields(session, history::Entity::bead, this)),
      bead_rows_(new WeighingRows(session, std::string(weighing::of_bead))),
      method_field_(new ChoiceField(tr("How the fineness was got"), methods())),
      fineness_field_(new FigureEntry(tr("Fineness"), {Measure::fineness, "‰", session.writing.mark})),
      uncertainty_field_(new FigureEntry(tr("Its standard uncertainty"), {Measure::fineness, "‰", session.writing.mark})),
      gold_rows_(new WeighingRows(session, std::string(weighing::of_gold))),
      melted_(fields_->pick(tr("Melted into the bead of"), bead_fields::melted_into)) {
  fields_->write_by(bead_fields::melted_into, [this](RecordId id, const history::Value& value, const RecordFields::Why&) {
    const auto* other = std::get_if<std::int64_t>(&value);
    return weighing::melt_into(session_.journal, BeadId{id}, BeadId{other ? *other : 0});
  });
  auto* form = new Form(2);
  form->wide(bead_rows_);
  auto* none = fields_->flag(tr("Nothing to weigh"), tr("no bead seen after a search"), bead_fields::none_seen);
  fields_->write_by(bead_fields::none_seen, [this](RecordId id, const history::Value& value, const RecordFields::Why&) {
    return weighing::set_none_seen(session_.journal, BeadId{id}, value == history::Value{std::int64_t{1}});
  });
  form->row({none, fields_->text(tr("Look of the bead"), bead_fields::look)});
  form->row({method_field_, melted_});
  auto* figures = new Form(2);
  figures->row({fineness_field_, uncertainty_field_});
  figures_ = figures;
  form->wide(figures_);
  form->wide(gold_rows_);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->addWidget(form);
  method_field_->on_commit([this](const auto& method) { return take_method(method); });
  fineness_field_->on_commit([this](const auto& figure, const auto& why) { return take_fineness(figure, uncertainty_, why); });
  uncertainty_field_->on_commit([this](const auto& figure, const auto& why) { return take_fineness(fineness_, figure, why); });
  for (Field* field : {static_cast<Field*>(method_field_), static_cast<Field*>(fineness_field_->field()),
                       static_cast<Field*>(uncertainty_field_->field())})
    field->set_read_only(session.read_only());
}

void BeadForm::leave() {
  for (FigureEntry* entry : {fineness_field_, uncertainty_field_}) leave_all(entry);
  method_field_->leave_record();
}

// The other beads of the sample to melt it together with; there is nothing to ask where it is the only one.
void BeadForm::show_melt(const results::SampleRecord& record, const weighing::Bead& bead) {
  std::vector<PickField::Item> others;
  const auto offer = [&](const weighing::Bead& one, PortionId portion, const QString& kind) {
    if (one.id != bead.id && !one.melted_into && !one.none_seen)
      others.push_back({one.id.value, QStringLiteral("%1 %2").arg(to_qt(record.portion_label(portion)), kind)});
  };
  for (const auto& entry : record.pan_tests) offer(entry.bead, entry.test.portion, tr("pan"));
  for (const auto& entry : record.charges) offer(entry.bead, entry.charge.portion, tr("fire"));
  melted_->setVisible(!others.empty() && !(bead.melt && !bead.melted_into));
  melted_->set_items(std::move(others));
  melted_->set_hint(bead.melted_into ? tr("its fineness is that of the joint bead") : QString());
  method_field_->setVisible(!bead.melted_into);
}

void BeadForm::show_bead(const results::SampleRecord& record, const weighing::Bead& bead, PortionId portion) {
  const bool other = bead.id != bead_;
  if (other) leave();
  bead_ = bead.id;
  show_melt(record, bead);
  fields_->show(bead.id.value);
  bead_rows_->show_bead(record, bead, portion);
  gold_rows_->show_bead(record, bead, portion);
  // A method that waits for its figures stays chosen; the notebook does not know it yet.
  if (other || bead.method != held_method_) {
    method_ = held_method_ = bead.method;
    fineness_ = bead.fineness;
    uncertainty_ = bead.fineness_u;
    fineness_field_->set_value(fineness_);
    uncertainty_field_->set_value(uncertainty_);
  } else if (method_ == held_method_) {
    fineness_ = bead.fineness;
    uncertainty_ = bead.fineness_u;
    fineness_field_->set_value(fineness_);
    uncertainty_field_->set_value(uncertainty_);
  }
  method_field_->set_value(method_);
  show_method();
  if (!bead.melted_into) return;
  figures_->hide();
  gold_rows_->hide();
}

void BeadForm::show_method() {
  figures_->setVisible(method_ && *method_ != "parted");
  uncertainty_field_->setVisible(needs_uncertainty(method_));
  gold_rows_->setVisible(method_ == "parted");
  const bool waits = method_ && *method_ != "parted" && method_ != held_method_;
  method_field_->set_hint(!waits                       ? QString()
                          : needs_uncertainty(method_) ? tr("Written together with the figure and its uncertainty.")
                                                       : tr("Written together with the figure."));
}

Result<void> BeadForm::take_method(const std::optional<std::string>& method) {
  const bool bare = !method || *method == "parted";
  const auto written = weighing::set_fineness(session_.journal, bead_, method, bare ? readings::Figure{} : fineness_,
                                              needs_uncertainty(method) ? uncertainty_ : readings::Figure{});
  if (!written.ok() && (bare || written.error().code != ErrorCode::missing_key)) return written.error();
  method_ = method;
  if (written.ok()) held_method_ = method;
  if (bare) fineness_ = uncertainty_ = {};
  show_method();
  return {};
}

Result<void> BeadForm::take_fineness(const readings::Figure& fineness, const readings::Figure& uncertainty,
                                     const RecordFields::Why& why) {
  const auto keep = [&] {
    fineness_ = fineness;
    uncertainty_ = uncertainty;
  };
  const bool waits = (!fineness || (needs_uncertainty(method_) && !uncertainty)) && method_ != held_method_;
  if (waits) {
    keep();
    return {};
  }
  const auto method = method_;
  PRILLBOOK_TRY(weighing::set_fineness(session_.journal, bead_, method, fineness,
                                       needs_uncertainty(method) ? uncertainty : readings::Figure{}, why));
  keep();
  held_method_ = method_ = method;
  show_method();
  return {};
}

QWidget* BeadForm::next() const { return bead_rows_->next(); }

}  // namespace prillbook::ui
