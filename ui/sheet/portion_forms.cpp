// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/sheet/portion_forms.h"

#include <QtWidgets/QHBoxLayout>
#include <QtWidgets/QLabel>
#include <QtWidgets/QLineEdit>
#include <QtWidgets/QVBoxLayout>
#include <algorithm>

#include "core/history/fields.h"
#include "ui/kit/figures.h"
#include "ui/kit/form.h"
#include "ui/kit/press_button.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"
#include "ui/sheet/worker.h"

namespace prillbook::ui {
namespace {

namespace portion_fields = history::fields::portion;

std::vector<ChoiceField::Choice> purposes_to_cut() {
  std::vector<ChoiceField::Choice> choices;
  for (const std::string_view purpose : portion_fields::purposes)  // remainder and tail come from a pan, a fraction from a sieve
    if (purpose != "remainder" && purpose != "tail" && purpose != "fraction")
      choices.push_back({std::string(purpose), choice_word(purpose)});
  return choices;
}

}  // namespace

PortionForm::PortionForm(Session& session, QWidget* parent)
    : QWidget(parent), fields_(new RecordFields(session, history::Entity::portion, this)) {
  auto* form = new Form(2);
  form->row({fields_->figure(tr("Mass of the portion"), portion_fields::mass, "g", false),
             fields_->text(tr("Remarks"), portion_fields::remarks)});
  fields_->write_by(portion_fields::mass, RecordFields::EnterFigure([&session](RecordId id, const auto& mass, const auto& why) {
                      return portions::set_mass(session.journal, PortionId{id}, mass, why);
                    }));
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->addWidget(form);
}

void PortionForm::show_portion(PortionId id) { fields_->show(id.value); }

ScreenForm::ScreenForm(Session& session, QWidget* parent)
    : QWidget(parent),
      session_(session),
      screen_(new ReadingField(tr("Screen, opening"), {Measure::opening, "µm", session.writing.mark, false})),
      coarse_(new ReadingField(tr("Stayed on it"), {Measure::mass, "g", session.writing.mark, false})),
      fine_(new ReadingField(tr("Passed"), {Measure::mass, "g", session.writing.mark, false})) {
  fine_->set_hint(tr("Enter makes both parts portions."));
  const auto hold = [](readings::Figure& held) {
    return [&held](const std::optional<readings::Reading>& reading) -> Result<void> {
      held = reading;
      return {};
    };
  };
  screen_->on_commit(hold(opening_));
  coarse_->on_commit(hold(coarse_mass_));
  fine_->on_commit([this](const auto& reading) -> Result<void> {
    fine_mass_ = reading;
    return reading ? screen() : Result<void>();
  });
  auto* form = new Form(3);
  form->heading(tr("Screen it for metallics"));
  form->row({screen_, coarse_, fine_});
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->addWidget(form);
}

void ScreenForm::show_portion(PortionId id) {
  if (id == portion_) return;
  portion_ = id;
  opening_ = coarse_mass_ = fine_mass_ = {};
  for (ReadingField* one : {screen_, coarse_, fine_}) {
    one->leave_record();
    one->set_value(std::nullopt);
  }
}

Result<void> ScreenForm::screen() {
  if (!coarse_->commit()) return Error{ErrorCode::missing_key, "metallics.coarse", "the coarse part is weighed first", {}};
  PRILLBOOK_ASSIGN(const auto made, gravity::start_metallics(
                                        session_.journal, {portion_, opening_, coarse_mass_, fine_mass_, {}, worker(session_)}));
  QMetaObject::invokeMethod(
      this, [this, made] { emit screened(made.coarse); }, Qt::QueuedConnection);  // the field in hand is finished first
  return {};
}

CutForm::CutForm(Session& session, QWidget* parent)
    : QWidget(parent),
      session_(session),
      head_(new QLabel),
      purpose_(new ChoiceField(tr("What for"), purposes_to_cut())),
      mass_(new ReadingField(tr("Mass"), {Measure::mass, "g", session.writing.mark, false})),
      button_(new PressButton(tr("Cut"))) {
  head_->setFont(face(TextSize::body, Weight::bold));
  head_->setTextFormat(Qt::PlainText);
  head_->setWordWrap(true);
  mass_->set_hint(tr("Enter cuts it."));
  mass_->on_commit([this](const auto& mass) { return cut_one(mass); });
  connect(mass_, &Field::committed, this, [this] { mass_->set_value(std::nullopt); });
  connect(button_, &QPushButton::clicked, this, &CutForm::press);
  auto* row = new QHBoxLayout;
  row->setSpacing(4 * rhythm);
  row->addWidget(mass_, 1, Qt::AlignTop);
  auto* beside = new QVBoxLayout;
  beside->addSpacing(2 * rhythm);
  beside->addWidget(button_);
  row->addLayout(beside);
  row->addStretch(1);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(rhythm / 2);
  column->addWidget(head_);
  column->addWidget(purpose_);
  column->addLayout(row);
}

void CutForm::show_parent(const results::SampleRecord& record, PortionId parent) {
  if (record.sample.id != sample_ || parent != parent_) {
    purpose_->leave_record();
    if (record.sample.id != sample_) mass_->leave_record();
  }
  sample_ = record.sample.id;
  parent_ = parent;
  const QString from = to_qt(parent ? record.portion_label(parent) : record.sample.number);
  const auto left = portions::left_of(record.portions, record.sample.mass_received, parent, record.losses);
  QString words = tr("Cut a portion from %1").arg(from);
  if (left) {
    const auto mass = portions::in_words(*left);
    words += tr(" · %1 left").arg(text(figure(mass.number, mass.unit, session_.writing.mark)));
  }
  head_->setText(words);
  if (!purpose_->value() && !purpose_->refused()) purpose_->set_value(usual_purpose(record));
}

// A pan first, then fire; nothing is proposed after that.
std::string CutForm::usual_purpose(const results::SampleRecord& record) const {
  const auto has = [&](std::string_view purpose) {
    return std::any_of(record.portions.begin(), record.portions.end(), [&](const auto& p) { return p.purpose == purpose; });
  };
  return !has("pan") ? "pan" : !has("fire") ? "fire" : "";
}

Result<void> CutForm::cut_one(const std::optional<readings::Reading>& mass) {
  if (!purpose_->value()) {
    purpose_->show_error({ErrorCode::missing_key, "portion.purpose", "say what it is cut for", {}});
    return Error{ErrorCode::missing_key, "portion.purpose", "say what it is cut for", {}};
  }
  PRILLBOOK_ASSIGN(const PortionId made,
                   portions::cut(session_.journal, {sample_, parent_, *purpose_->value(), mass, {}, worker(session_), {}}));
  purpose_->leave_record();
  QMetaObject::invokeMethod(
      this, [this, made] { emit cut(made); }, Qt::QueuedConnection);  // the field in hand is finished first
  return {};
}

void CutForm::press() {
  if (mass_->pending()) {
    mass_->commit();
    return;
  }
  if (const auto done = cut_one({}); !done.ok()) mass_->show_error(done.error());
}

}  // namespace prillbook::ui
