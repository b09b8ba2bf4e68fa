// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/furnace/charge_pane.h"

#include <QtWidgets/QHBoxLayout>
#include <QtWidgets/QLabel>
#include <QtWidgets/QVBoxLayout>
#include <algorithm>

#include "core/fire/furnace_lists.h"
#include "core/fire/runs.h"
#include "core/history/fields.h"
#include "core/lab/lab.h"
#include "core/portions/portions.h"
#include "core/results/parting_plan.h"
#include "core/weighing/bead.h"
#include "ui/furnace/words.h"
#include "ui/kit/figures.h"
#include "ui/kit/form.h"
#include "ui/kit/messages.h"
#include "ui/kit/press_button.h"
#include "ui/kit/record_fields.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"

namespace prillbook::ui {
namespace {

namespace design_fields = history::fields::charge_design;
namespace test_fields = history::fields::reducing_test;
namespace charge_fields = history::fields::charge;
namespace bead_fields = history::fields::bead;

QLabel* furnace_label(TextSize size, const char* tone = "") {
  auto* label = new QLabel;
  label->setFont(face(size));
  label->setProperty("tone", tone);
  label->setTextFormat(Qt::PlainText);
  label->setTextInteractionFlags(Qt::TextSelectableByMouse);
  label->setWordWrap(true);
  return label;
}

QVBoxLayout* column_of(QWidget* widget) {
  auto* column = new QVBoxLayout(widget);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(rhythm);
  return column;
}

PersonId at_work(Session& session) {
  const auto person = lab::person_by_initials(session.connection, session.journal.author());
  return person.ok() ? person->id : PersonId{};
}

QString text_of_value(const history::Value& value) {
  const auto* words = std::get_if<std::string>(&value);
  return words ? to_qt(*words) : QString();
}

}  // namespace

ChargePane::ChargePane(Session& session, QWidget* parent)
    : QWidget(parent),
      session_(session),
      design_(new RecordFields(session, history::Entity::charge_design, this)),
      test_(new RecordFields(session, history::Entity::reducing_test, this)),
      weighed_(new RecordFields(session, history::Entity::charge, this)),
      bead_(new RecordFields(session, history::Entity::bead, this)),
      repeats_(furnace_label(TextSize::small, "quiet")),
      start_(new PressButton(tr("Put it in a crucible"), PressButton::Rank::main)),
      button_words_(furnace_label(TextSize::body)),
      mixture_(furnace_label(TextSize::body)),
      warnings_(new QWidget),
      sources_(furnace_label(TextSize::small, "quiet")),
      power_(furnace_label(TextSize::small, "quiet")),
      parting_(furnace_label(TextSize::small)) {
  auto* columns = new QHBoxLayout(this);
  columns->setContentsMargins(0, 0, 0, 0);
  columns->setSpacing(3 * rhythm);
  auto* left = new QWidget;
  QVBoxLayout* stack = column_of(left);
  stack->addWidget(build_design());
  stack->addWidget(repeats_);
  stack->addWidget(start_, 0, Qt::AlignLeft);
  own_ = new QWidget;
  QVBoxLayout* own = column_of(own_);
  own->addWidget(build_weighed());
  own->addWidget(new Fold(tr("Fusion"), build_fusion()));
  own->addWidget(new Fold(tr("Cupellation"), build_cupellation()));
  own->addWidget(new Fold(tr("Parting"), build_parting()));
  auto* reasons = new Form(2);
  reasons->row(
      {weighed_->text(tr("Spoiled, because"), charge_fields::spoiled), weighed_->text(tr("Remarks"), charge_fields::remarks)});
  own->addWidget(new Fold(tr("Spoiled"), reasons));
  stack->addWidget(own_);
  stack->addStretch();
  auto* right = new QWidget;
  right->setFixedWidth(38 * rhythm);
  QVBoxLayout* beside = column_of(right);
  auto* head = furnace_label(TextSize::small, "quiet");
  head->setText(tr("The design, and what was weighed"));
  warnings_column_ = column_of(warnings_);
  beside->addWidget(head);
  beside->addWidget(mixture_);
  beside->addWidget(button_words_);
  beside->addWidget(warnings_);
  beside->addWidget(new Fold(tr("Where the figures come from"), sources_));
  beside->addStretch();
  columns->addWidget(left, 1);
  columns->addWidget(right);
  start_->setEnabled(!session_.read_only());
  connect(start_, &QPushButton::clicked, this, &ChargePane::start);
}

QWidget* ChargePane::build_design() {
  const auto into_design = [this](const history::Field& field) {
    design_->write_by(field,
                      [this, &field](RecordId record, const history::Value& value, const RecordFields::Why&) -> Result<void> {
                        PRILLBOOK_TRY(fire::set_design(session_.journal, portion_, field, value));
                        const auto made = fire::design_of(session_.connection, portion_);
                        if (!record && made.ok() && *made) design_->adopt((*made)->id.value);
                        return {};
                      });
  };
  for (const history::Field* field : {&design_fields::ore_kind, &design_fields::silica_share, &design_fields::sulphides,
                                      &design_fields::button_target, &design_fields::cupel})
    into_design(*field);
  auto* form = new Form(3);
  auto* sulphides = design_->text(tr("Sulphides, in %"), design_fields::sulphides);
  sulphides->set_hint(tr("“pyrite 40, galena 5”"));
  form->wide(design_->choice(tr("Kind of ore"), design_fields::ore_kind));
  form->row({design_->figure(tr("Silica"), design_fields::silica_share, "%"), sulphides});
  form->row({design_->figure(tr("Button wanted"), design_fields::button_target, "g", false),
             design_->figure(tr("Cupel"), design_fields::cupel, "g", false)});
  auto* test = new Form(3);
  for (const history::Field* field : {&test_fields::ore, &test_fields::litharge, &test_fields::button})
    test_->write_by(*field,
                    [this, field](RecordId record, const history::Value& value, const RecordFields::Why& why) -> Result<void> {
                      if (!record) return start_test(*field, value);
                      return readings::enter(session_.journal, *field, record, value, why);
                    });
  test->row({test_->figure(tr("Ore of the test"), test_fields::ore, "g", false),
             test_->figure(tr("Litharge of the test"), test_fields::litharge, "g", false),
             test_->figure(tr("Lead it gave"), test_fields::button, "g")});
  test->wide(power_);
  auto* whole = new QWidget;
  QVBoxLayout* stack = column_of(whole);
  stack->addWidget(form);
  stack->addWidget(new Fold(tr("Reducing power, measured"), test));
  return whole;
}

// The first figure of a test makes it, and the design takes it.
Result<void> ChargePane::start_test(const history::Field& field, const history::Value& value) {
  PRILLBOOK_ASSIGN(
      const auto id,
      session_.journal.record_for<ReducingTestId>("start reducing test", [&](history::ChangeSet& set) -> Result<ReducingTestId> {
        PRILLBOOK_ASSIGN(const ReducingTestId made, fire::start_reducing_test(set, sample_, at_work(session_)));
        PRILLBOOK_TRY(set.set(field, made.value, value));
        PRILLBOOK_TRY(fire::set_design(set, portion_, design_fields::reducing_test, readings::cell_of(made)));
        return made;
      }));
  test_->adopt(id.value);
  return {};
}

QWidget* ChargePane::build_weighed() {
  const auto reagent = [this](const QString& label, const history::Field& field) {
    weighed_->write_by(field,
                       [this, &field](RecordId id, const std::optional<readings::Reading>& mass, const RecordFields::Why& why) {
                         return fire::set_reagent(session_.journal, ChargeId{id}, field, mass, why);
                       });
    return weighed_->figure(label, field, "g");
  };
  const auto lot = [this](const QString& label, const history::Field& field, std::vector<PickField*>& list) {
    weighed_->write_by(field, [this, &field](RecordId id, const history::Value& value, const RecordFields::Why&) {
      const auto* chosen = std::get_if<std::int64_t>(&value);
      return fire::set_lot(session_.journal, ChargeId{id}, field, LotId{chosen ? *chosen : 0});
    });
    list.push_back(weighed_->pick(label, field));
    return list.back();
  };
  const auto reference = [this](const QString& label, const history::Field& field, std::vector<PickField*>& list) {
    list.push_back(weighed_->pick(label, field));
    return list.back();
  };
  weighed_->write_by(charge_fields::flour_and_nitre, [this](RecordId id, const history::Value& value, const RecordFields::Why&) {
    return fire::set_flour_and_nitre(session_.journal, ChargeId{id}, text_of_value(value).toStdString());
  });
  weighed_->write_by(charge_fields::spoiled, [this](RecordId id, const history::Value& value, const RecordFields::Why&) {
    return fire::set_spoiled(session_.journal, ChargeId{id}, text_of_value(value).toStdString());
  });
  auto* form = new Form(3);
  form->heading(tr("Weighed in"));
  form->row({reagent(tr("Litharge"), charge_fields::litharge), reagent(tr("Soda ash"), charge_fields::soda_ash),
             reagent(tr("Borax glass"), charge_fields::borax)});
  form->row({reagent(tr("Silica"), charge_fields::silica), reagent(tr("Flour"), charge_fields::flour),
             reagent(tr("Nitre"), charge_fields::nitre)});
  form->row({lot(tr("Lot of the litharge"), charge_fields::litharge_lot, litharge_lots_),
             reference(tr("Recipe"), charge_fields::recipe, recipes_), reference(tr("Pot"), charge_fields::pot, pots_)});
  form->row({lot(tr("Mixed flux, lot"), charge_fields::flux_lot, flux_lots_), reagent(tr("Mixed flux"), charge_fields::flux),
             weighed_->figure(tr("Collector silver"), charge_fields::collector, "mg")});
  form->row({weighed_->text(tr("Flour and nitre together, because"), charge_fields::flour_and_nitre)});
  return form;
}

Field* ChargePane::signs(const QString& label, const history::Field& field, std::span<const std::string_view> words) {
  weighed_->write_by(field, [this, &field](RecordId id, const history::Value& value, const RecordFields::Why&) {
    return fire::set_signs(session_.journal, ChargeId{id}, field, text_of_value(value).toStdString());
  });
  auto* made = weighed_->text(label, field);
  QStringList hint;
  for (const std::string_view word : words) hint << to_qt(word);
  made->set_hint(tr("Words of: %1").arg(hint.join(QStringLiteral(", "))));
  return made;
}

QWidget* ChargePane::build_fusion() {
  auto* form = new Form(2);
  runs_.push_back(weighed_->pick(tr("Run of the fusion"), charge_fields::fusion_run));
  form->row({runs_.back(), weighed_->figure(tr("Lead button"), charge_fields::button, "g")});
  auto* look = weighed_->text(tr("Look of the slag"), charge_fields::slag_look);
  look->set_hint(tr("its colour, clear or opaque, glassy or stony"));
  form->row({look});
  form->row({weighed_->figure(tr("Metal from the slag"), charge_fields::slag_metal, "mg"),
             weighed_->figure(tr("Gold of it, slag"), charge_fields::slag_gold, "mg")});
  form->row({signs(tr("Seen at the fusion"), charge_fields::fusion_signs, fire::fusion_words())});
  return form;
}

QWidget* ChargePane::build_cupellation() {
  auto* form = new Form(2);
  runs_.push_back(weighed_->pick(tr("Run of the cupellation"), charge_fields::cupellation_run));
  weighed_->write_by(charge_fields::lead_lot, [this](RecordId id, const history::Value& value, const RecordFields::Why&) {
    const auto* chosen = std::get_if<std::int64_t>(&value);
    return fire::set_lot(session_.journal, ChargeId{id}, charge_fields::lead_lot, LotId{chosen ? *chosen : 0});
  });
  lead_lots_.push_back(weighed_->pick(tr("Lot of the lead"), charge_fields::lead_lot));
  form->row({runs_.back(), weighed_->figure(tr("Mass of the cupel"), charge_fields::cupel, "g", false)});
  form->wide(weighed_->choice(tr("Cupel of"), charge_fields::cupel_kind));
  form->row({weighed_->figure(tr("Lead added"), charge_fields::lead_added, "g"), lead_lots_.back()});
  form->row({weighed_->figure(tr("Silver of litharge and lead, measured"), charge_fields::blank, "mg")});
  form->row({signs(tr("Seen at the cupellation"), charge_fields::cupellation_signs, fire::cupellation_words())});
  form->row({weighed_->figure(tr("Metal from the cupel"), charge_fields::cupel_metal, "mg"),
             weighed_->figure(tr("Gold of it, cupel"), charge_fields::cupel_gold, "mg")});
  form->row({weighed_->figure(tr("Gold loss"), charge_fields::gold_loss, "%"),
             weighed_->figure(tr("Silver loss"), charge_fields::silver_loss, "%")});
  auto* losses = new PressButton(tr("Take the loss of the proofs"));
  losses->setEnabled(!session_.read_only());
  connect(losses, &QPushButton::clicked, this, [this] {
    const auto taken = fire::take_proof_losses(session_.journal, charge_);
    emit said(taken.ok() ? tr("The loss of the proofs stands with the charge.") : sentence(taken.error()));
  });
  form->wide(losses);
  return form;
}

QWidget* ChargePane::build_parting() {
  auto* form = new Form(3);
  form->row({bead_->figure(tr("Inquart silver"), bead_fields::inquart, "mg"),
             bead_->figure(tr("Silver left in the gold"), bead_fields::residual_silver, "%"),
             bead_->text(tr("How it parted"), bead_fields::parting_look)});
  form->wide(parting_);
  return form;
}

void ChargePane::show_portion(PortionId portion) {
  portion_ = portion;
  refresh();
}

void ChargePane::fill_picks() {
  const auto give = [](const std::vector<PickField*>& fields, const std::vector<PickField::Item>& items) {
    for (PickField* field : fields) field->set_items(items);
  };
  std::vector<PickField::Item> litharge, flux, lead, pots, recipes, runs;
  if (const auto held = fire::lots(session_.connection); held.ok())
    for (const fire::Lot& lot : *held)
      if (!lot.used_up_at)
        (lot.kind == "litharge" ? litharge : lot.kind == "lead" ? lead : flux).push_back({lot.id.value, to_qt(lot.name)});
  if (const auto held = fire::pots(session_.connection); held.ok())
    for (const fire::Pot& pot : *held)
      if (!pot.broken_at) pots.push_back({pot.id.value, to_qt(pot.name)});
  if (const auto held = fire::recipes(session_.connection); held.ok())
    for (const fire::Recipe& recipe : *held) recipes.push_back({recipe.id.value, to_qt(recipe.name)});
  if (const auto held = fire::furnace_runs(session_.connection); held.ok())
    for (const fire::FurnaceRun& run : *held) runs.push_back({run.id.value, to_qt(run.name)});
  give(litharge_lots_, litharge);
  give(flux_lots_, flux);
  give(lead_lots_, lead);
  give(pots_, pots);
  give(recipes_, recipes);
  give(runs_, runs);
}

void ChargePane::refresh() {
  charge_ = {};
  to_repeat_ = {};
  const auto portion = portions::portion(session_.connection, portion_);
  if (!portion.ok()) return;
  sample_ = portion->sample;
  if (const auto held = fire::charges_of(session_.connection, portion_); held.ok() && !held->empty()) charge_ = held->back().id;
  fill_picks();
  const auto held = fire::design_of(session_.connection, portion_);
  const bool designed = held.ok() && *held;
  // A record that a field has just made is taken without leaving the field.
  const bool same = shown_ == portion_;
  const auto take = [&](RecordFields* fields, RecordId id) {
    if (same && id && !fields->record())
      fields->adopt(id);
    else
      fields->show(id);
  };
  shown_ = portion_;
  take(design_, designed ? (*held)->id.value : 0);
  take(test_, designed ? (*held)->test.value : 0);
  weighed_->show(charge_.value);
  BeadId bead;
  if (charge_)
    if (const auto its = weighing::bead_of(session_.connection, charge_); its.ok()) bead = its->id;
  bead_->show(bead.value);
  start_->setVisible(!charge_);
  own_->setVisible(bool(charge_));
  repeats_->clear();
  if (!charge_) {
    if (const auto spoiled = fire::spoiled_without_repeat(session_.connection, sample_); spoiled.ok()) to_repeat_ = *spoiled;
    if (to_repeat_) repeats_->setText(tr("It will stand as the repeat of the charge of this sample that was spoiled."));
  } else if (const auto number = fire::repeat_number(session_.connection, charge_); number.ok() && *number > 0) {
    repeats_->setText(tr("Repeat %1 of a charge that was spoiled.").arg(*number));
  }
  repeats_->setVisible(!repeats_->text().isEmpty());
  show_design();
  show_parting();
}

void ChargePane::show_design() {
  while (QLayoutItem* item = warnings_column_->takeAt(0)) {
    if (QWidget* widget = item->widget()) widget->deleteLater();
    delete item;
  }
  const DecimalMark mark = session_.writing.mark;
  power_->setText(tr("3 g of ore with 50 g of litharge and 3 g of soda is usual."));
  if (const auto test = fire::reducing_test(session_.connection, ReducingTestId{test_->record()}); test_->record() && test.ok()) {
    const auto power = fire::power_of(*test);
    if (!power.ok()) {
      power_->setText(sentence(power.error()));
    } else if (*power) {
      power_->setText(tr("%1 g lead a gram of ore%2.")
                          .arg(to_qt(fixed((*power)->power, 2, mark)),
                               (*power)->litharge_gone ? tr(" at least: nearly all the litharge was reduced") : QString()));
    }
  }
  mixture_->clear();
  sources_->clear();
  const auto input = fire::charge_input(session_.connection, portion_, mark);
  if (!input.ok()) return button_words_->setText(sentence(input.error()));
  const auto design = design_charge(*input);
  if (!design.ok()) {
    const bool open = design.error().code == ErrorCode::missing_key;
    return button_words_->setText(
        open ? tr("Say the kind of ore and its sulphides, or measure its reducing power: the design appears here.")
             : sentence(design.error()));
  }
  Mixture weighed;
  std::optional<Mixture> by_recipe;
  if (charge_)
    if (const auto held = fire::charge(session_.connection, charge_); held.ok()) {
      weighed = fire::mixture_of(*held);
      if (const auto recipes = fire::recipes(session_.connection); recipes.ok())
        for (const fire::Recipe& recipe : *recipes)
          if (recipe.id == held->recipe && recipe.ore)
            if (const auto made = scaled_mixture(recipe.mixture(), recipe.ore->mass(), input->ore); made.ok()) by_recipe = *made;
    }
  mixture_->setText(mixture_lines(*design, weighed, by_recipe ? &*by_recipe : nullptr, mark).join(QLatin1Char('\n')));
  QString words = tr("Designed: ") + button_line(*design, mark);
  std::vector<ChargeWarning> said = design->warnings;
  if (weighed.litharge) {
    const auto judged = judge_charge(*input, weighed);
    if (judged.ok()) {
      words += QLatin1Char('\n') + tr("As weighed: ") + button_line(*judged, mark);
      said = judged->warnings;
    }
  }
  const double filled = loose_millilitres(
      input->ore,
      weighed.litharge
          ? weighed
          : Mixture{design->litharge, design->soda_ash, design->borax_glass, design->silica, design->flour, design->nitre, {}});
  words += QLatin1Char('\n') + tr("Fills about %1 ml loose: a pot of at least %2 ml.")
                                   .arg(to_qt(fixed(filled, 0, mark)), to_qt(fixed(filled / pot_fill_limit, 0, mark)));
  button_words_->setText(words);
  for (const ChargeWarning warning : said) warnings_column_->addWidget(new FindingRow(Severity::caution, warning_words(warning)));
  sources_->setText(source_lines(*input).join(QLatin1Char('\n')));
}

void ChargePane::show_parting() {
  parting_->clear();
  if (!charge_) return;
  const auto bead = weighing::bead_of(session_.connection, charge_);
  if (!bead.ok()) return;
  if (bead->melted_into) return parting_->setText(tr("Melted into another bead: it is parted with that one."));
  if (bead->valid(weighing::of_bead).empty()) return parting_->setText(tr("The bead is not weighed yet."));
  const auto plan = results::parting_plan(*bead);
  if (!plan.ok()) return parting_->setText(sentence(plan.error()));
  if (!*plan && !bead->parted() && !bead->fineness)
    return parting_->setText(tr("Say the fineness by its colour in the weigh room: the silver to add appears here."));
  if (!*plan) return;
  const DecimalMark mark = session_.writing.mark;
  QString words = tr("Silver to gold %1 to 1.").arg(to_qt(fixed((*plan)->ratio, 1, mark)));
  if (const auto& more = (*plan)->silver_to_add)
    words += tr(" For %1 to 1 add %2 of silver (Beringer p. 147).")
                 .arg(to_qt(shortest(results::quartation)), text(figure(fixed(more->in(unit::milligram), 3), "mg", mark)));
  if (bead->melt) words += tr(" %1 beads melted together.").arg(bead->melt->melted_away.size() + 1);
  parting_->setText(words);
}

void ChargePane::start() {
  const auto made = fire::start_charge(session_.journal, {portion_, {}, at_work(session_), to_repeat_, {}, {}});
  if (!made.ok()) return emit said(sentence(made.error()));
  refresh();
  if (!weighed_->all().empty()) weighed_->all().front()->setFocus(Qt::OtherFocusReason);
}

void ChargePane::enter() {
  if (charge_)
    weighed_->all().front()->setFocus(Qt::OtherFocusReason);
  else
    start_->setFocus(Qt::OtherFocusReason);
}

}  // namespace prillbook::ui
