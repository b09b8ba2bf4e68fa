// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/sheet/custody_forms.h"

#include <QtWidgets/QHBoxLayout>
#include <QtWidgets/QVBoxLayout>

#include "core/history/fields.h"
#include "ui/kit/form.h"
#include "ui/kit/press_button.h"
#include "ui/kit/record_fields.h"
#include "ui/kit/theme.h"
#include "ui/sheet/worker.h"

namespace prillbook::ui {
namespace {

namespace own_metal_fields = history::fields::own_metal;
namespace told_fields = history::fields::told_figure;

std::vector<ChoiceField::Choice> choices_of(const history::Field& field) {
  std::vector<ChoiceField::Choice> choices;
  for (const std::string_view value : field.choices) choices.push_back({std::string(value), choice_word(value)});
  return choices;
}

void put_together(QWidget* whole, Form* form, PressButton* button) {
  auto* foot = new QHBoxLayout;
  foot->addWidget(button);
  foot->addStretch();
  auto* column = new QVBoxLayout(whole);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(rhythm);
  column->addWidget(form);
  column->addLayout(foot);
}

}  // namespace

OwnMetalForm::OwnMetalForm(Session& session, QWidget* parent)
    : QWidget(parent),
      session_(session),
      what_(new ChoiceField(tr("What it is"), choices_of(own_metal_fields::what))),
      fate_(new ChoiceField(tr("What became of it"), choices_of(own_metal_fields::fate))),
      mass_(new ReadingField(tr("Its mass"), {Measure::mass, "mg", session.writing.mark, true})),
      at_(new DateTimeField(tr("When"), session.journal.clock())),
      to_whom_(new TextField(tr("Who took it"))),
      remarks_(new TextField(tr("Remarks on it"))) {
  what_->on_commit([this](const auto& word) { return wished_.what = word.value_or(""), Result<void>{}; });
  fate_->on_commit([this](const auto& word) { return wished_.fate = word.value_or(""), Result<void>{}; });
  mass_->on_commit([this](const auto& mass) { return wished_.mass = mass, Result<void>{}; });
  at_->on_commit([this](std::optional<Instant> at) { return wished_.at = at, Result<void>{}; });
  at_->set_hint(tr("Empty: now."));
  to_whom_->on_commit([this](const auto& name) { return wished_.to_whom = name, Result<void>{}; });
  to_whom_->set_hint(tr("The name stands for the signature."));
  remarks_->on_commit([this](const auto& words) { return wished_.remarks = words, Result<void>{}; });
  auto* form = new Form(2);
  form->row({what_});
  form->row({fate_});
  form->row({mass_, at_});
  form->row({to_whom_, remarks_});
  auto* button = new PressButton(tr("Write it down"));
  connect(button, &QPushButton::clicked, this, &OwnMetalForm::write);
  put_together(this, form, button);
}

void OwnMetalForm::show_sample(SampleId sample) {
  if (sample == wished_.sample) return;
  clear();
  wished_.sample = sample;
}

void OwnMetalForm::clear() {
  for (Field* field : std::initializer_list<Field*>{what_, fate_, mass_, at_, to_whom_, remarks_}) field->leave_record();
  const SampleId sample = wished_.sample;
  wished_ = {};
  wished_.sample = sample;
}

void OwnMetalForm::write() {
  if (Field* field = commit_all(this)) return field->setFocus();
  if (wished_.what.empty()) return what_->show_error(refusal(ErrorCode::missing_key, "own_metal.what", "say what it is"));
  if (wished_.fate.empty()) return fate_->show_error(refusal(ErrorCode::missing_key, "own_metal.fate", "say what became of it"));
  custody::NewOwnMetal metal = wished_;
  metal.written_by = worker(session_);
  const auto made = custody::give_back(session_.journal, metal);
  made.ok() ? clear() : to_whom_->show_error(made.error());
}

ToldForm::ToldForm(Session& session, QWidget* parent)
    : QWidget(parent),
      session_(session),
      what_(new ChoiceField(tr("Which figure"), choices_of(told_fields::what))),
      said_(new TextField(tr("What was said"))),
      to_whom_(new TextField(tr("To whom"))),
      at_(new DateTimeField(tr("When told"), session.journal.clock())) {
  what_->on_commit([this](const auto& word) { return wished_.what = word.value_or(""), Result<void>{}; });
  said_->on_commit([this](const auto& words) { return wished_.said = words.value_or(""), Result<void>{}; });
  said_->set_hint(tr("45 g/t: a later change is noticed."));
  to_whom_->on_commit([this](const auto& words) { return wished_.to_whom = words.value_or(""), Result<void>{}; });
  at_->on_commit([this](std::optional<Instant> at) { return wished_.at = at, Result<void>{}; });
  at_->set_hint(tr("Empty: now."));
  auto* form = new Form(2);
  form->row({what_});
  form->row({said_, to_whom_});
  form->row({at_});
  auto* button = new PressButton(tr("Write it as told"));
  connect(button, &QPushButton::clicked, this, &ToldForm::write);
  put_together(this, form, button);
}

void ToldForm::show_sample(SampleId sample) {
  if (sample == wished_.sample) return;
  clear();
  wished_.sample = sample;
}

void ToldForm::clear() {
  for (Field* field : std::initializer_list<Field*>{what_, said_, to_whom_, at_}) field->leave_record();
  const SampleId sample = wished_.sample;
  wished_ = {};
  wished_.sample = sample;
}

void ToldForm::write() {
  if (Field* field = commit_all(this)) return field->setFocus();
  if (wished_.what.empty()) return what_->show_error(refusal(ErrorCode::missing_key, "told_figure.what", "say which figure"));
  if (wished_.said.empty()) return said_->show_error(refusal(ErrorCode::missing_key, "told_figure.said", "say the figure"));
  custody::NewToldFigure told = wished_;
  told.told_by = worker(session_);
  const auto made = custody::tell_figure(session_.journal, told);
  made.ok() ? clear() : to_whom_->show_error(made.error());
}

}  // namespace prillbook::ui
