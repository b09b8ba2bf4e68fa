// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/pan/panned_form.h"

#include <QtWidgets/QHBoxLayout>
#include <QtWidgets/QLabel>
#include <QtWidgets/QVBoxLayout>
#include <algorithm>

#include "core/assay/rounding.h"
#include "core/history/fields.h"
#include "core/lab/lab.h"
#include "core/sieving/sieve_name.h"
#include "ui/kit/figures.h"
#include "ui/kit/form.h"
#include "ui/kit/press_button.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"
#include "ui/pan/panning_rows.h"

namespace prillbook::ui {
namespace {

namespace panned_fields = history::fields::pan_test;

QLabel* quiet_line() {
  auto* label = new QLabel;
  label->setFont(face(TextSize::small));
  label->setProperty("tone", "quiet");
  label->setTextFormat(Qt::PlainText);
  label->setWordWrap(true);
  return label;
}

QWidget* beside(QWidget* left, QWidget* right) {
  auto* row = new QWidget;
  auto* line = new QHBoxLayout(row);
  line->setContentsMargins(0, 0, 0, 0);
  line->setSpacing(rhythm);
  line->addWidget(left);
  line->addWidget(right, 1);
  return row;
}

PersonId who_weighs(Session& session) {
  const auto person = lab::person_by_initials(session.connection, session.journal.author());
  return person.ok() ? person->id : PersonId{};
}

}  // namespace

PannedForm::PannedForm(Session& session, QWidget* parent)
    : QWidget(parent),
      session_(session),
      fields_(new RecordFields(session, history::Entity::pan_test, this)),
      copy_(new PressButton({})),
      grind_from_(quiet_line()),
      pannings_(new PanningRows(session)),
      bead_words_(quiet_line()),
      to_balance_(new PressButton(tr("To the balance"))) {
  fields_->write_by(panned_fields::grind,
                    RecordFields::EnterFigure([this](RecordId id, const auto& reading, const auto& why) -> Result<void> {
                      return gravity::set_grind(session_.journal, PanTestId{id}, reading, {}, why);
                    }));
  connect(copy_, &QPushButton::clicked, this, &PannedForm::copy_grind);
  connect(to_balance_, &QPushButton::clicked, this, [this] { emit open_requested({history::Entity::bead, bead_.value}); });
  connect(pannings_, &PanningRows::said, this, &PannedForm::said);
  auto* reasons = new Form(2);
  reasons->row({fields_->text(tr("Spoiled, because"), panned_fields::spoiled),
                fields_->text(tr("Left out of the mean, because"), panned_fields::excluded)});
  lost_ = new Fold(tr("Spoiled or left out"), reasons);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->addWidget(build_fields());
  column->addWidget(lost_);
  column->addStretch();
}

Form* PannedForm::build_fields() {
  grind_ = fields_->figure(tr("Grind, P80"), panned_fields::grind, "µm", false);
  who_ = fields_->pick(tr("Panned by"), panned_fields::panned_by);
  mercury_ = fields_->text(tr("Mercury: how driven off and caught"), panned_fields::mercury);
  remainder_ = product(tr("Concentrate remainder"), "remainder");
  tail_ = product(tr("Tail"), "tail");
  auto* form = new Form(3);
  form->row({grind_, who_, fields_->time(tr("Panned"), panned_fields::panned_at)});
  form->wide(beside(copy_, grind_from_));
  form->heading(tr("What the panner saw"));
  form->row({fields_->whole(tr("Colours above 1 mm"), panned_fields::colours_coarse),
             fields_->whole(tr("0.25 to 1 mm"), panned_fields::colours_middle),
             fields_->whole(tr("below 0.25 mm"), panned_fields::colours_fine)});
  form->row({fields_->figure(tr("Largest colour"), panned_fields::largest_colour, "mm", false),
             fields_->figure(tr("Magnetite pulled"), panned_fields::magnetite, "g"),
             fields_->text(tr("In words"), panned_fields::colours)});
  form->row(
      {fields_->choice(tr("Black sand"), panned_fields::black_sand), fields_->choice(tr("Sulphides"), panned_fields::sulphides)});
  form->heading(tr("Pannings"));
  form->wide(pannings_);
  form->heading(tr("Free gold and what was left"));
  form->row({fields_->figure(tr("Free gold, weighed raw"), panned_fields::free_gold, "mg"), remainder_, tail_});
  form->row({fields_->choice(tr("Made a bead by"), panned_fields::bead_by), mercury_});
  form->wide(beside(to_balance_, bead_words_));
  form->row({fields_->text(tr("Remarks"), panned_fields::remarks)});
  return form;
}

FigureEntry* PannedForm::product(const QString& label, const std::string& purpose) {
  auto* entry = new FigureEntry(label, {Measure::mass, "g", session_.writing.mark, true});
  entry->field()->set_read_only(session_.read_only());
  entry->on_commit([this, purpose](const auto& mass, const auto& why) -> Result<void> {
    if (!mass) return Error{ErrorCode::missing_key, "portion.mass", "a weighing is corrected, not emptied", {}};
    const auto weighed = gravity::weigh_product(session_.journal, test_, purpose, *mass, who_weighs(session_), why);
    if (!weighed.ok()) return weighed.error();
    return {};
  });
  return entry;
}

void PannedForm::show_test(const results::SampleRecord& record, const results::SampleResult& result, PanTestId test) {
  const auto entry = std::find_if(record.pan_tests.begin(), record.pan_tests.end(),
                                  [&](const results::PanEntry& one) { return one.test.id == test; });
  if (entry == record.pan_tests.end()) return;
  const bool other = test != test_;
  std::vector<PickField::Item> people;
  for (const lab::Person& person : record.people) people.push_back({person.id.value, to_qt(person.initials)});
  who_->set_items(std::move(people));
  show_products(record, entry->test, other);
  fields_->show(test.value);
  test_ = test;
  pannings_->show_pannings(record, *entry);
  show_sieved(record, result, entry->test);
  show_bead(*entry);
  mercury_->setVisible(entry->test.bead_by == "amalgamated" || entry->test.mercury);
  if (other || entry->test.spoiled || entry->test.excluded) lost_->set_open(entry->test.spoiled || entry->test.excluded);
}

void PannedForm::show_products(const results::SampleRecord& record, const gravity::PanTest& test, bool other) {
  if (other)
    for (FigureEntry* entry : {remainder_, tail_}) {
      entry->field()->commit();
      entry->why()->commit();
      entry->why()->leave_record();
      entry->field()->leave_record();
    }
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
}

// The sieve analysis of the same split offers its P80; where the grind came from one, its portion is named.
void PannedForm::show_sieved(const results::SampleRecord& record, const results::SampleResult& result,
                             const gravity::PanTest& test) {
  sieved_ = {};
  sieved_p80_um_.reset();
  const sieves::Analysis* analysis = results::sieved_beside(record, test.portion);
  for (const results::SizeResult& size : result.sizes) {
    if (!analysis || size.analysis != analysis->id || !size.curve || !size.curve->p80.size) continue;
    sieved_ = analysis->id;
    sieved_p80_um_ = size.curve->p80.size->in(unit::micrometre);
    copy_->setText(tr("Take P80 %1 of %2 (Alt+G)")
                       .arg(to_qt(opening_in_words(*size.curve->p80.size, session_.writing.mark)), to_qt(size.label)));
  }
  const bool taken = test.grind_from && test.grind_from == sieved_;
  copy_->setShortcut(QKeySequence(Qt::ALT | Qt::Key_G));  // a new text takes it away
  copy_->setVisible(sieved_ && !taken && !session_.read_only());
  QString words;
  if (test.grind_from) {
    for (const results::SizeResult& size : result.sizes)
      if (size.analysis == test.grind_from)
        words = tr("The grind is the P80 of the sieve analysis of %1.").arg(to_qt(size.label));
  } else if (!sieved_) {
    words = tr("No sieve analysis of the same split has a P80 yet.");
  }
  grind_from_->setText(words);
  grind_from_->setVisible(!words.isEmpty());
}

void PannedForm::copy_grind() {
  if (!sieved_ || !sieved_p80_um_) return;
  const std::string typed = rounded(*sieved_p80_um_, std::max(0, decimals_for_uncertainty(*sieved_p80_um_ / 100)));
  auto reading = readings::parse(typed + " µm", {Measure::opening, "µm", DecimalMark::point, false});
  if (!reading.ok()) {
    emit said(sentence(reading.error()));
    return;
  }
  const auto written = gravity::set_grind(session_.journal, test_, *reading, sieved_);
  if (!written.ok()) emit said(sentence(written.error()));
}

void PannedForm::show_bead(const results::PanEntry& entry) {
  bead_ = entry.bead.id;
  const auto weighings = entry.bead.valid(weighing::of_bead);
  QString words = tr("The bead waits for the balance.");
  if (entry.bead.none_seen) words = tr("No bead was seen.");
  if (!weighings.empty()) {
    words = tr("Bead %1, weighed %n times", nullptr, int(weighings.size())).arg(text(as_typed(weighings.back()->mass)));
    words += entry.bead.method ? QStringLiteral("; %1.").arg(choice_word(*entry.bead.method)) : tr("; fineness not known.");
  }
  bead_words_->setText(words);
}

void PannedForm::enter() { grind_->field()->line()->setFocus(Qt::OtherFocusReason); }

}  // namespace prillbook::ui
