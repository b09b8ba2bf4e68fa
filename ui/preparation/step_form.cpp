// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/preparation/step_form.h"

#include <QtWidgets/QHBoxLayout>
#include <QtWidgets/QLabel>
#include <QtWidgets/QVBoxLayout>
#include <algorithm>

#include "core/history/fields.h"
#include "core/lab/lab.h"
#include "core/preparation/splitting.h"
#include "core/results/sampling.h"
#include "ui/kit/form.h"
#include "ui/kit/press_button.h"
#include "ui/kit/record_fields.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"
#include "ui/preparation/words.h"

namespace prillbook::ui {
namespace {

namespace step_fields = history::fields::step;
namespace portion_fields = history::fields::portion;

constexpr int most_parts = 6;

std::vector<ChoiceField::Choice> kinds() {
  std::vector<ChoiceField::Choice> choices;
  for (const std::string_view kind : step_fields::kinds)  // a composite is begun at its own place
    if (kind != "composite") choices.push_back({std::string(kind), step_word(kind)});
  return choices;
}

std::vector<ChoiceField::Choice> methods() {
  std::vector<ChoiceField::Choice> choices;
  for (const std::string_view method : step_fields::methods) choices.push_back({std::string(method), method_word(method)});
  return choices;
}

bool is_part_purpose(std::string_view purpose) { return purpose != "remainder" && purpose != "tail" && purpose != "composite"; }

std::vector<PickField::Item> purposes() {
  std::vector<PickField::Item> items;
  for (std::size_t i = 0; i < portion_fields::purposes.size(); ++i)
    if (is_part_purpose(portion_fields::purposes[i]))
      items.push_back({std::int64_t(i) + 1, choice_word(portion_fields::purposes[i])});
  return items;
}

}  // namespace

StepForm::StepForm(Session& session, QWidget* parent)
    : QWidget(parent),
      session_(session),
      head_(new QLabel),
      kind_(new ChoiceField(tr("Next step"), kinds())),
      method_(new ChoiceField(tr("How it is split"), methods())),
      machine_(new PickField(tr("Machine"))),
      mass_in_(new ReadingField(tr("Mass in"), {Measure::mass, "g", session.writing.mark, false})),
      mass_out_(new ReadingField(tr("Mass out"), {Measure::mass, "g", session.writing.mark, false})),
      top_size_(new ReadingField(tr("Top size after (95 % pass)"), {Measure::opening, "mm", session.writing.mark, false})),
      began_(new DateTimeField(tr("Begun"), session.journal.clock())),
      done_(new DateTimeField(tr("Done"), session.journal.clock())),
      closed_(new FlagField(tr("All of it weighed"), tr("what is missing is lost"))),
      remarks_(new TextField(tr("Remarks"))),
      parts_part_(new QWidget),
      write_(new PressButton(tr("Write the step"), PressButton::Rank::main)),
      refused_(new QLabel) {
  build();
  bind();
  clear();
}

void StepForm::build() {
  head_->setFont(face(TextSize::body, Weight::bold));
  head_->setTextFormat(Qt::PlainText);
  head_->setWordWrap(true);
  refused_->setTextFormat(Qt::PlainText);
  refused_->setWordWrap(true);
  refused_->setFont(face(TextSize::small));
  refused_->setProperty("tone", QStringLiteral("signal"));
  done_->set_hint(tr("Empty: now."));
  auto* parts = new Form(2);
  for (int i = 0; i < most_parts; ++i) {
    PartRow row{new PickField(tr("Part %1, what for").arg(i + 1)),
                new ReadingField(tr("Mass of part %1").arg(i + 1), {Measure::mass, "g", session_.writing.mark, false}),
                {},
                {}};
    row.purpose->set_items(purposes());
    parts_.push_back(row);
    parts->row({row.purpose, row.mass});
  }
  auto* parts_column = new QVBoxLayout(parts_part_);
  parts_column->setContentsMargins(0, 0, 0, 0);
  parts_column->addWidget(parts);
  parts_column->addWidget(closed_);
  auto* form = new Form(3);
  form->wide(kind_);
  form->wide(method_);
  form->row({machine_, mass_in_, mass_out_});
  form->wide(parts_part_);
  form->row({top_size_, began_, done_});
  form->wide(remarks_);
  auto* foot = new QHBoxLayout;
  foot->addWidget(write_);
  foot->addWidget(refused_, 1);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(rhythm / 2);
  column->addWidget(head_);
  column->addWidget(form);
  column->addLayout(foot);
}

// Every field keeps what was typed in the draft; only the button writes.
void StepForm::bind() {
  const auto keep = [](auto& place) {
    return [&place](const auto& value) -> Result<void> {
      place = value;
      return {};
    };
  };
  kind_->on_commit([this](const auto& kind) -> Result<void> {
    draft_.kind = kind.value_or("");
    show_shape();
    return {};
  });
  method_->on_commit([this](const auto& method) -> Result<void> {
    draft_.method = method;
    show_scatter();
    return {};
  });
  machine_->on_commit([this](std::optional<std::int64_t> id) -> Result<void> {
    draft_.machine = MachineId{id.value_or(0)};
    return {};
  });
  mass_in_->on_commit(keep(draft_.mass_in));
  mass_out_->on_commit(keep(draft_.mass_out));
  top_size_->on_commit(keep(draft_.top_size));
  began_->on_commit(keep(draft_.began_at));
  done_->on_commit(keep(draft_.done_at));
  remarks_->on_commit(keep(draft_.remarks));
  closed_->on_commit([this](bool closed) -> Result<void> {
    draft_.closed = closed;
    return {};
  });
  for (std::size_t i = 0; i < parts_.size(); ++i) {
    parts_[i].purpose->on_commit([this, i](std::optional<std::int64_t> chosen) -> Result<void> {
      parts_[i].chosen = chosen;
      return {};
    });
    parts_[i].mass->on_commit([this, i](const auto& mass) -> Result<void> {
      parts_[i].figure = mass;
      show_shape();
      return {};
    });
  }
  connect(write_, &QPushButton::clicked, this, &StepForm::write);
}

// Only what the kind of step asks for; of the parts one row more than is filled.
void StepForm::show_shape() {
  const bool parts = milling::gives_parts(draft_.kind), none = draft_.kind.empty();
  method_->setVisible(draft_.kind == "split");
  mass_out_->setVisible(!parts);
  parts_part_->setVisible(parts);
  top_size_->setVisible(draft_.kind == "crush" || draft_.kind == "pulverise" || draft_.kind == "screen" || none);
  int filled = 0;
  for (std::size_t i = 0; i < parts_.size(); ++i)
    if (parts_[i].figure || parts_[i].chosen) filled = int(i) + 1;
  for (std::size_t i = 0; i < parts_.size(); ++i) {
    const bool shown = int(i) < std::max(2, filled + 1);
    parts_[i].purpose->setVisible(shown);
    parts_[i].mass->setVisible(shown);
  }
}

// What the way of splitting adds, and what a riffle must be like for this rock.
void StepForm::show_scatter() {
  const auto method = draft_.method ? find_split_method(*draft_.method) : std::nullopt;
  const DecimalMark mark = session_.writing.mark;
  QString words;
  if (method) words = tr("Scatters by %1 % on sand; heavy grains fare worse.").arg(number_words(method_sd_pct(*method), mark));
  if (method == SplitMethod::riffle && top_size_now_)
    words += tr(" Chutes: an even number, at least %1 mm wide.")
                 .arg(number_words(least_chute_width(*top_size_now_).in(unit::millimetre), mark));
  method_->set_hint(words);
}

void StepForm::show_holder(const results::SampleRecord& record, PortionId holder, const std::vector<milling::Machine>& machines) {
  if (record.sample.id != sample_ || holder != holder_) clear();
  sample_ = record.sample.id;
  holder_ = holder;
  top_size_now_ = results::top_size_now(record, holder);
  show_scatter();
  left_ = portions::left_of(record.portions, record.sample.mass_received, holder, record.losses);
  QString words = to_qt(holder ? record.portion_label(holder) : record.sample.number);
  if (left_) words += tr(" · %1 left").arg(mass_words(*left_, session_.writing.mark));
  head_->setText(words);
  std::vector<PickField::Item> items;
  for (const milling::Machine& machine : machines)
    if (!machine.retired_at) items.push_back({machine.id.value, to_qt(machine.name)});
  machine_->set_items(std::move(items));
  if (draft_.machine) machine_->set_value(draft_.machine.value);
  setEnabled(!session_.read_only());
}

void StepForm::show_nothing() {
  clear();
  sample_ = {};
  holder_ = {};
  head_->setText(tr("Take a sample from the left."));
  setEnabled(false);
}

void StepForm::set_machine(MachineId machine) {
  draft_.machine = machine;
  machine_->set_value(machine ? std::optional(machine.value) : std::nullopt);
}

void StepForm::enter() { kind_->editor()->setFocus(); }

QString StepForm::refusal_words() const { return refused_->text(); }

void StepForm::clear() {
  const MachineId machine = draft_.machine;
  draft_ = {};
  draft_.machine = machine;
  for (Field* field :
       {static_cast<Field*>(kind_), static_cast<Field*>(method_), static_cast<Field*>(mass_in_), static_cast<Field*>(mass_out_),
        static_cast<Field*>(top_size_), static_cast<Field*>(began_), static_cast<Field*>(done_), static_cast<Field*>(remarks_)})
    field->leave_record();
  kind_->set_value(std::nullopt);
  method_->set_value(std::nullopt);
  for (ReadingField* field : {mass_in_, mass_out_, top_size_}) field->set_value(std::nullopt);
  for (DateTimeField* field : {began_, done_}) field->set_value(std::nullopt);
  remarks_->set_value(std::nullopt);
  closed_->set_value(false);
  for (PartRow& row : parts_) {
    row.chosen.reset();
    row.figure.reset();
    row.purpose->leave_record();
    row.mass->leave_record();
    row.purpose->set_value(std::nullopt);
    row.mass->set_value(std::nullopt);
  }
  refused_->clear();
  show_shape();
  show_scatter();
}

bool StepForm::commit_all() {
  bool all = true;
  for (Field* field : findChildren<Field*>())
    if (field->isVisibleTo(this)) all = field->commit() && all;
  return all;
}

milling::NewStep StepForm::entered() const {
  milling::NewStep step = draft_;
  step.sample = sample_;
  step.portion = holder_;
  if (const auto person = lab::person_by_initials(session_.connection, session_.journal.author())) step.done_by = person->id;
  const bool parts = milling::gives_parts(step.kind);
  if (step.kind != "split") step.method.reset();
  if (parts) step.mass_out.reset();
  if (!parts) step.closed = false;
  for (const PartRow& row : parts_) {
    if (!parts || (!row.figure && !row.chosen)) continue;
    const std::string purpose = row.chosen ? std::string(portion_fields::purposes[std::size_t(*row.chosen - 1)]) : "split";
    step.parts.push_back({purpose, row.figure, {}});
  }
  return step;
}

void StepForm::refuse(const Error& error) {
  refused_->setText(preparation_sentence(error));
  Field* place = nullptr;
  if (error.field == "step.mass_in") place = mass_in_;
  if (error.field == "step.mass_out") place = mass_out_;
  if (error.field == "step.done_at") place = done_;
  if (error.field == "step.began_at") place = began_;
  if (error.field == "step.machine_id") place = machine_;
  if (error.field == "step.kind") place = kind_;
  if (error.field == "portion.mass" && milling::gives_parts(draft_.kind)) place = parts_.front().mass;
  if (place && place->editor()) place->editor()->setFocus();
}

void StepForm::write() {
  refused_->clear();
  if (!sample_ || !commit_all()) return;
  if (draft_.kind.empty()) {
    kind_->show_error({ErrorCode::missing_key, "step.kind", "say what was done", {}});
    return kind_->editor()->setFocus();
  }
  const auto done = milling::do_step(session_.journal, entered());
  if (!done) return refuse(done.error());
  clear();
  emit written(done->step);
}

}  // namespace prillbook::ui
