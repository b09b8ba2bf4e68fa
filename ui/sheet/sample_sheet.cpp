// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/sheet/sample_sheet.h"

#include <QtWidgets/QLabel>
#include <QtWidgets/QLineEdit>
#include <QtWidgets/QScrollArea>
#include <QtWidgets/QScrollBar>
#include <algorithm>
#include <functional>

#include "core/history/fields.h"
#include "core/story/story.h"
#include "core/summary/words_of_sizes.h"
#include "ui/kit/form.h"
#include "ui/kit/ledger.h"
#include "ui/kit/messages.h"
#include "ui/kit/press_button.h"
#include "ui/kit/record_fields.h"
#include "ui/kit/sentences.h"
#include "ui/kit/thread.h"
#include "ui/photographs/photograph_strip.h"
#include "ui/sheet/bead_form.h"
#include "ui/sheet/charge_form.h"
#include "ui/sheet/custody_forms.h"
#include "ui/sheet/pan_form.h"
#include "ui/sheet/portion_forms.h"
#include "ui/sheet/result_lines.h"
#include "ui/sheet/thread_words.h"
#include "ui/sheet/worker.h"

namespace prillbook::ui {
namespace {

using results::SampleRecord;

const results::PanEntry* pan_of(const SampleRecord& record, PortionId portion) {
  for (const results::PanEntry& entry : record.pan_tests)
    if (entry.test.portion == portion) return &entry;
  return nullptr;
}

const results::FireEntry* charge_of(const SampleRecord& record, PortionId portion) {
  for (const results::FireEntry& entry : record.charges)
    if (entry.charge.portion == portion) return &entry;
  return nullptr;
}

// A spoiled charge that nothing repeats yet.
const fire::Charge* to_repeat(const SampleRecord& record) {
  for (const results::FireEntry& entry : record.charges) {
    const bool repeated = std::any_of(record.charges.begin(), record.charges.end(),
                                      [&](const results::FireEntry& other) { return other.charge.repeat_of == entry.charge.id; });
    if (entry.charge.spoiled && !repeated) return &entry.charge;
  }
  return nullptr;
}

// The sample that a record of the bench belongs to, and the portion.
Result<std::pair<SampleId, PortionId>> place_of(store::Connection& connection, const RecordRef& wanted) {
  using history::Entity;
  PortionId portion;
  switch (wanted.entity) {
    case Entity::sample: {
      PRILLBOOK_ASSIGN(const custody::Sample sample, custody::sample(connection, SampleId{wanted.record}));
      return std::pair(sample.id, PortionId{});
    }
    case Entity::portion: portion = PortionId{wanted.record}; break;
    case Entity::pan_test: {
      PRILLBOOK_ASSIGN(const gravity::PanTest test, gravity::pan_test(connection, PanTestId{wanted.record}));
      portion = test.portion;
      break;
    }
    case Entity::charge: {
      PRILLBOOK_ASSIGN(const fire::Charge charge, fire::charge(connection, ChargeId{wanted.record}));
      portion = charge.portion;
      break;
    }
    case Entity::bead: {
      PRILLBOOK_ASSIGN(const weighing::Origin origin, weighing::origin(connection, BeadId{wanted.record}));
      portion = origin.portion;
      break;
    }
    case Entity::metallics: {
      PRILLBOOK_ASSIGN(const gravity::Metallics held, gravity::metallics(connection, MetallicsId{wanted.record}));
      portion = held.portion;
      break;
    }
    case Entity::panning: return Error{ErrorCode::not_found, "record", "its place is the pan", {}};
    case Entity::sieve_analysis:
    case Entity::sieve_cut: return Error{ErrorCode::not_found, "record", "its place is the station of sieves", {}};
    case Entity::weighing: {
      PRILLBOOK_ASSIGN(const auto record, history::load_record(connection, Entity::weighing, wanted.record));
      return place_of(connection, {Entity::bead, record.whole(history::fields::weighing::bead)});
    }
    default: return Error{ErrorCode::not_found, "record", "it belongs to no sample", {}};
  }
  PRILLBOOK_ASSIGN(const portions::Portion held, portions::portion(connection, portion));
  return std::pair(held.sample, held.id);
}

}  // namespace

bool SampleSheet::show_record(const RecordRef& wanted) {
  const auto place = place_of(session_.connection, wanted);
  if (!place.ok()) return false;
  explaining_.reset();
  explanation_->hide();
  sample_ = place->first;
  portion_ = place->second;
  refresh();
  return true;
}

void SampleSheet::take(PortionId portion) {
  portion_ = portion;
  refresh();
  scroll_->verticalScrollBar()->setValue(0);
}

void SampleSheet::refresh() {
  if (!sample_) return;
  const auto record = results::load_sample_record(session_.connection, sample_);
  if (!record.ok()) {
    head_->set({}, sentence(record.error()));
    return;
  }
  if (portion_ && !record->portion(portion_)) portion_ = {};
  show_head(*record);
  show_results(*record);
  show_portions(*record);
  show_thread(*record);
  show_hand(*record);
  photographs_->show_owner({sample_, {}});
  fit_photographs();
}

void SampleSheet::show_head(const SampleRecord& record) {
  const custody::Sample& sample = record.sample;
  QString words = in_short(to_qt(sample.mark), 32);
  const auto join = [&](const QString& more) { words += QStringLiteral(" · ") + more; };
  if (sample.condition) join(choice_word(*sample.condition));
  const QString received = text(as_typed(sample.mass_received)), declared = text(as_typed(sample.mass_declared));
  if (!received.isEmpty() && !declared.isEmpty())
    join(tr("%1 of %2 declared").arg(received, declared));
  else if (!received.isEmpty())
    join(tr("%1 received").arg(received));
  else
    join(tr("not weighed"));
  join(in_short(to_qt(record.client.name), 28));
  const QString holder = to_qt(record.custody.chain.holder()), place = to_qt(record.custody.chain.place());
  if (!holder.isEmpty()) join(tr("with %1").arg(in_short(holder, 20)));
  if (!place.isEmpty()) join(in_short(place, 20));
  head_->set(to_qt(sample.number), words);
  head_->setToolTip(to_qt(sample.mark) + QStringLiteral("\n") + to_qt(record.client.name));
}

void SampleSheet::show_results(const SampleRecord& record) {
  const results::SampleResult result = results::compute(record);
  results_->set_lines(result_lines(record, result));
  show_sizes(result);
}

// Sieve analyses and what finer grinds caught, in sentences.
void SampleSheet::show_sizes(const results::SampleResult& result) {
  QStringList words;
  const DecimalMark mark = session_.writing.mark;
  for (const results::SizeResult& size : result.sizes)
    words << tr("%1 sieve: %2").arg(to_qt(size.label.substr(size.label.find('/'))), to_qt(summary::size_in_short(size, mark)));
  for (const std::string& sentence : summary::grind_words(result.grinds, mark)) words << to_qt(sentence);
  sizes_->setText(words.join(QLatin1Char('\n')));
  sizes_->setVisible(!words.isEmpty());
}

void SampleSheet::show_portions(const SampleRecord& record) {
  const auto left_words = [&](PortionId parent) {
    const bool cut =
        std::any_of(record.portions.begin(), record.portions.end(), [&](const auto& p) { return p.parent == parent; });
    const auto left = portions::left_of(record.portions, record.sample.mass_received, parent, record.losses);
    if (!cut || !left) return QString();
    const auto mass = portions::in_words(*left);
    return tr("%1 left").arg(text(figure(mass.number, mass.unit, session_.writing.mark)));
  };
  std::vector<LedgerRow> rows{
      {0, 0, to_qt(record.sample.number), tr("the sample"), as_typed(record.sample.mass_received), true, left_words({})}};
  const std::function<void(PortionId, int)> add = [&](PortionId parent, int depth) {
    for (const portions::Portion& portion : record.portions) {
      if (portion.parent != parent) continue;
      rows.push_back({portion.id.value, depth, QStringLiteral("/%1").arg(portion.number), choice_word(portion.purpose),
                      as_typed(portion.mass), true, left_words(portion.id)});
      if (depth < 12) add(portion.id, depth + 1);
    }
  };
  add({}, 1);
  portions_->set_rows(std::move(rows));
  portions_->take(portion_.value);
}

void SampleSheet::show_thread(const SampleRecord& record) {
  const auto events = story::story_of(session_.connection, record);
  const auto found = findings::findings_of(session_.connection, sample_, session_.journal.clock().now());
  findings_seen_ = found.ok() ? *found : std::vector<findings::OpenOrAnswered>{};
  if (events.ok()) thread_->set_entries(thread_entries(record, *events, findings_seen_));
}

void SampleSheet::show_hand(const SampleRecord& record) {
  const portions::Portion* portion = record.portion(portion_);
  const results::PanEntry* pan = portion ? pan_of(record, portion_) : nullptr;
  const results::FireEntry* fire = portion ? charge_of(record, portion_) : nullptr;
  const std::string purpose = portion ? portion->purpose : std::string();
  const bool writes = !session_.read_only();
  const bool can_pan = writes && !pan && !fire && (purpose == "pan" || purpose == "duplicate" || purpose == "fraction");
  const bool can_fire = writes && !pan && !fire && !purpose.empty() && purpose != "pan" && purpose != "sieve" &&
                        purpose != "retain" && purpose != "reject" && purpose != "metallics";
  const fire::Charge* repeat = can_fire ? to_repeat(record) : nullptr;
  hand_head_->setVisible(portion != nullptr);
  if (portion)
    hand_head_->setText(tr("%1 · %2 · %3")
                            .arg(to_qt(record.portion_label(portion_)), choice_word(purpose),
                                 portion->mass ? text(as_typed(portion->mass)) : tr("not weighed")));
  const bool sieved = std::any_of(record.sieve_analyses.begin(), record.sieve_analyses.end(),
                                  [&](const sieves::Analysis& analysis) { return analysis.portion == portion_; });
  const bool can_sieve = sieved || (writes && purpose == "sieve");
  sieve_->setVisible(can_sieve);
  sieve_->setText(sieved ? tr("See its curve") : tr("Sieve it"));
  start_row_->setVisible(can_pan || can_fire || can_sieve);
  start_pan_->setVisible(can_pan);
  start_charge_->setVisible(can_fire);
  start_repeat_->setVisible(repeat != nullptr);
  if (repeat) {
    start_repeat_->setText(tr("It repeats %1, spoiled").arg(to_qt(record.portion_label(repeat->portion))));
    start_repeat_->setProperty("repeats", qlonglong(repeat->id.value));
  }
  if (pan) pan_->show_test(record, pan->test);
  if (fire) charge_->show_charge(record, fire->charge);
  if (pan || fire) bead_->show_bead(record, pan ? pan->bead : fire->bead, portion_);
  portion_form_->show_portion(portion_);
  cut_->show_parent(record, portion_);
  own_metal_->show_sample(record.sample.id);
  told_->show_sample(record.sample.id);
  pan_->setVisible(pan != nullptr);
  charge_->setVisible(fire != nullptr);
  bead_->setVisible(pan || fire);
  portion_form_->setVisible(portion != nullptr);
  cut_->setVisible(writes && !pan && !fire);
  const bool screened = std::any_of(record.metallics.begin(), record.metallics.end(),
                                    [&](const gravity::Metallics& one) { return one.portion == portion_; });
  screen_->show_portion(portion_);
  screen_->setVisible(writes && purpose == "metallics" && !fire && !screened);
  own_metal_part_->setVisible(writes && !portion);
  told_part_->setVisible(writes && !portion);
  fire_caution_->setVisible(fire || can_fire);
  pan_caution_->setVisible(pan || can_pan);
}

// A large photograph takes the place of the thread; small ones take what they need.
void SampleSheet::fit_photographs() {
  const bool large = photographs_->is_large();
  thread_->setVisible(!large);
  const int needed = photographs_->sizeHint().height();
  photographs_place_->setMinimumHeight(large ? 0 : needed);
  photographs_place_->setMaximumHeight(large ? QWIDGETSIZE_MAX : needed);
}

void SampleSheet::start_pan() {
  const auto made = gravity::start_pan_test(session_.journal, {portion_, {}, worker(session_), {}});
  made.ok() ? started() : emit said(sentence(made.error()));
}

void SampleSheet::start_charge(ChargeId repeat_of) {
  const auto made = fire::start_charge(session_.journal, {portion_, {}, worker(session_), repeat_of, {}, {}});
  made.ok() ? started() : emit said(sentence(made.error()));
}

void SampleSheet::started() {
  refresh();
  enter();
}

void SampleSheet::explain(const QString& action) {
  const std::size_t number = action.section(QLatin1Char('/'), 1).toUInt();
  if (number >= findings_seen_.size()) return;
  explaining_ = findings_seen_[number].finding;
  explanation_->leave_record();
  explanation_->set_hint(to_qt(explaining_->to_do));
  explanation_->show();
  explanation_->line()->setFocus(Qt::OtherFocusReason);
}

Result<void> SampleSheet::answer(const std::optional<std::string>& words) {
  if (!explaining_) return {};
  PRILLBOOK_TRY(findings::answer(session_.journal, *explaining_, words.value_or(std::string())));
  explaining_.reset();
  QMetaObject::invokeMethod(
      this,
      [this] {
        explanation_->leave_record();
        explanation_->hide();
      },
      Qt::QueuedConnection);
  return {};
}

void SampleSheet::enter() {
  QWidget* next = cut_->isHidden() ? nullptr : cut_->next();
  for (PressButton* button : {sieve_, start_charge_, start_pan_})
    if (!start_row_->isHidden() && !button->isHidden()) next = button;
  if (!screen_->isHidden()) next = screen_->next();
  if (!bead_->isHidden()) next = bead_->next();
  if (!next) return;
  next->setFocus(Qt::OtherFocusReason);
  bring_into_view(next);
}

}  // namespace prillbook::ui
