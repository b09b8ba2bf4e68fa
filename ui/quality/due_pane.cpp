// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/quality/due_pane.h"

#include <QtWidgets/QLabel>
#include <QtWidgets/QVBoxLayout>

#include "core/controls/materials.h"
#include "core/lab/settings.h"
#include "ui/kit/fields.h"
#include "ui/kit/figures.h"
#include "ui/kit/form.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"
#include "ui/quality/row_list.h"
#include "ui/quality/words.h"

namespace prillbook::ui {
namespace {

QString insertion_word(controls::Insertion what) {
  switch (what) {
    case controls::Insertion::blank: return DuePane::tr("rock blank");
    case controls::Insertion::reference: return DuePane::tr("reference material");
    case controls::Insertion::duplicate: return DuePane::tr("duplicate");
  }
  return {};
}

WaitingRow row_of_since(const controls::Due& due, const controls::Since& since, RecordId id) {
  const bool wanted = since.one_in > 0, is_due = due.due(since);
  QStringList words{DuePane::tr("charges since the last: %1").arg(since.charges)};
  words << (wanted ? DuePane::tr("wanted: one in %1").arg(since.one_in) : DuePane::tr("none asked for"));
  words << (since.last_at ? DuePane::tr("last on %1").arg(date_text(*since.last_at)) : DuePane::tr("never made yet"));
  return {id, insertion_word(since.what), is_due ? DuePane::tr("due") : DuePane::tr("not due"), words.join(QStringLiteral(" · ")),
          Urgency::usual};
}

}  // namespace

DuePane::DuePane(Session& session, QWidget* parent)
    : QWidget(parent),
      session_(session),
      teach_(new QLabel),
      list_(new RowList(tr("What is due"))),
      name_(new TextField(tr("Name on its label"))),
      kind_(new ChoiceField(
          tr("It is"),
          {{"reference", tr("rock of known grade")}, {"blank_rock", tr("barren rock")}, {"blank_flux", tr("flux alone")}})) {
  teach_->setFont(face(TextSize::body));
  teach_->setWordWrap(true);
  teach_->setText(
      tr("Nothing controls the furnace yet. Put by a bag of barren quartz as a rock blank and a pulp of known grade as a "
         "reference material, below. Every charge weighed from them is a control by itself, and the load it goes in with is "
         "judged by it."));
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(rhythm);
  column->addWidget(teach_);
  column->addWidget(list_);
  auto* plan = new Form(4);
  plan->heading(tr("How often the lab wants them, in charges; 0: never"));
  plan->row({setting(tr("Rock blank, one in"), "quality.blank_one_in"),
             setting(tr("Reference, one in"), "quality.reference_one_in"),
             setting(tr("Duplicate, one in"), "quality.duplicate_one_in"),
             setting(tr("Reference, every days"), "quality.reference_every_days")});
  column->addWidget(plan);
  column->addWidget(hairline());
  auto* fresh = new Form(2);
  fresh->heading(tr("A new control material"));
  fresh->row({name_, kind_});
  column->addWidget(fresh);
  column->addStretch();
  name_->on_commit([this](const auto& name) -> Result<void> {
    fresh_name_ = name.value_or("");
    return {};
  });
  kind_->on_commit([this](const auto& kind) { return add(kind); });
  for (Field* field : {static_cast<Field*>(name_), static_cast<Field*>(kind_)}) field->set_read_only(session_.read_only());
}

WholeField* DuePane::setting(const QString& label, const char* name) {
  auto* field = new WholeField(label, 0);
  field->on_commit([this, name](std::optional<std::int64_t> value) {
    return lab::set_setting(session_.journal, name, value ? std::to_string(*value) : std::string());
  });
  field->set_read_only(session_.read_only());
  settings_.push_back({field, name});
  return field;
}

Result<void> DuePane::add(const std::optional<std::string>& kind) {
  if (!kind) return {};
  const auto added = controls::add_material(session_.journal, {fresh_name_, *kind, {}});
  if (!added.ok()) return added.error();
  QMetaObject::invokeMethod(
      this,
      [this, id = *added] {
        fresh_name_.clear();
        name_->set_value(std::nullopt);
        kind_->set_value(std::nullopt);
        emit made(id);
      },
      Qt::QueuedConnection);
  return {};
}

void DuePane::refresh() {
  const auto settings = lab::settings(session_.connection);
  if (!settings.ok()) return;
  const auto due = controls::due_now(session_.connection, *settings, session_.journal.clock().now());
  if (!due.ok()) return;
  std::vector<WaitingRow> rows;
  bool begun = false;
  for (const controls::Since& since : due->counts) {
    rows.push_back(row_of_since(*due, since, RecordId(rows.size()) + 1));
    begun = begun || since.ever;
  }
  for (const std::string& lot : due->lots) {
    rows.push_back({RecordId(rows.size()) + 1, tr("flux blank"), tr("due"),
                    tr("the lot %1 has none, and its silver is not known").arg(in_short(to_qt(lot), 32)), Urgency::usual});
  }
  const auto materials = controls::materials(session_.connection);
  teach_->setVisible(!begun && (!materials.ok() || materials->empty()));
  list_->show_rows(std::move(rows));
  for (const Setting& one : settings_) one.field->set_value(std::stoll(lab::setting_text(*settings, one.name)));
}

void DuePane::enter() { name_->setFocus(Qt::OtherFocusReason); }

}  // namespace prillbook::ui
