// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/sheet/pan_form.h"

#include <QtWidgets/QVBoxLayout>

#include "core/history/fields.h"
#include "ui/kit/form.h"
#include "ui/kit/press_button.h"
#include "ui/kit/theme.h"
#include "ui/sheet/worker.h"

namespace prillbook::ui {
namespace {

namespace pan_test_fields = history::fields::pan_test;

}  // namespace

PanForm::PanForm(Session& session, QWidget* parent)
    : QWidget(parent), session_(session), fields_(new RecordFields(session, history::Entity::pan_test, this)) {
  remainder_ = product(tr("Concentrate remainder"), "remainder");
  tail_ = product(tr("Tail"), "tail");
  fields_->write_by(pan_test_fields::grind,
                    RecordFields::EnterFigure([&session](RecordId id, const auto& reading, const auto& why) {
                      return gravity::set_grind(session.journal, PanTestId{id}, reading, {}, why);
                    }));
  auto* form = new Form(2);
  form->heading(tr("Pan test"));
  form->row({fields_->figure(tr("Grind, P80"), pan_test_fields::grind, "µm", false),
             fields_->figure(tr("Free gold, weighed raw"), pan_test_fields::free_gold, "mg")});
  form->row({fields_->text(tr("Colours counted"), pan_test_fields::colours),
             fields_->figure(tr("Largest colour seen"), pan_test_fields::largest_colour, "mm", false)});
  form->row({fields_->choice(tr("Black sand"), pan_test_fields::black_sand),
             fields_->choice(tr("Sulphides"), pan_test_fields::sulphides)});
  form->row({remainder_, tail_});
  form->row({fields_->text(tr("Remarks"), pan_test_fields::remarks)});
  auto* reasons = new Form(2);
  reasons->row({fields_->text(tr("Spoiled, because"), pan_test_fields::spoiled),
                fields_->text(tr("Left out of the mean, because"), pan_test_fields::excluded)});
  lost_ = new Fold(tr("Spoiled or left out"), reasons);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->addWidget(form);
  column->addWidget(lost_);
}

FigureEntry* PanForm::product(const QString& label, const std::string& purpose) {
  auto* entry = new FigureEntry(label, {Measure::mass, "g", session_.writing.mark, true});
  entry->field()->set_read_only(session_.read_only());
  entry->on_commit([this, purpose](const auto& mass, const auto& why) -> Result<void> {
    if (!mass) return Error{ErrorCode::missing_key, "portion.mass", "a weighing is corrected, not emptied", {}};
    const auto weighed = gravity::weigh_product(session_.journal, test_, purpose, *mass, worker(session_), why);
    if (!weighed.ok()) return weighed.error();
    return {};
  });
  return entry;
}

void PanForm::show_test(const results::SampleRecord& record, const gravity::PanTest& test) {
  const bool other = test.id != test_;
  if (other) {
    leave_all(remainder_);
    leave_all(tail_);
  }
  fields_->show(test.id.value);
  test_ = test.id;
  for (const auto& [entry, purpose] : {std::pair{remainder_, "remainder"}, std::pair{tail_, "tail"}}) {
    readings::Figure mass;
    for (const portions::Portion& portion : record.portions)
      if (portion.parent == test.portion && portion.purpose == purpose) mass = portion.mass;
    entry->set_value(mass);
    if (other)
      entry->field()->keep_drafts(session_.drafts,
                                  QStringLiteral("pan_test/%1/%2").arg(test.id.value).arg(QLatin1String(purpose)));
  }
  if (other || test.spoiled || test.excluded) lost_->set_open(test.spoiled || test.excluded);
}

}  // namespace prillbook::ui
