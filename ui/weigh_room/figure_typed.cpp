// SPDX-License-Identifier: GPL-3.0-or-later
// The weigh room while a figure is being typed: the grade it would give, and what is odd about it.
#include <algorithm>

#include "core/assay/rounding.h"
#include "core/results/balance_scatter.h"
#include "core/results/sample_result.h"
#include "core/units/units.h"
#include "core/weighing/plausibility.h"
#include "core/weighing/spread.h"
#include "ui/balance_port/balance_port.h"
#include "ui/kit/figures.h"
#include "ui/kit/sentences.h"
#include "ui/weigh_room/mass_field.h"
#include "ui/weigh_room/weigh_room.h"

namespace prillbook::ui {

readings::Reading WeighRoom::on_balance(readings::Reading reading) const {
  if (!balance_) return reading;
  reading.balance = balance_->id;
  if (balance_->step) reading.step_g = balance_->step->mass().in(unit::gram);
  return reading;
}

void WeighRoom::show_grade(const readings::Reading* typed) {
  grade_->clear();
  grade_words_->clear();
  show_step(typed);
  if (!record_ || !bead_ || (typed && typed->state == readings::State::none_seen)) return;
  if (typed && cup_ == Cup::asked) return;
  const auto net = typed ? as_net(*typed) : Result<readings::Reading>(readings::Reading());
  if (!net.ok()) return;
  const auto result =
      typed ? results::grade_if(*record_, bead_, what_, on_balance(*net)) : results::grade_of_bead(*record_, bead_);
  if (!result.ok() || !*result) return;
  const GradeResult& grade = **result;
  const MeasuredGrade& shown = grade.gold ? *grade.gold : grade.bead;
  std::optional<double> half_width;
  if (shown.lo && shown.hi) half_width = (shown.hi->in(unit::gram_per_tonne)-shown.lo->in(unit::gram_per_tonne)) / 2;
  grade_->setText(tr("%1 g/t").arg(to_qt(written(shown.g_t(), half_width, {}, session_.writing.mark))));
  grade_words_->setText(typed ? (grade.gold ? tr("gold, as typed") : tr("gold and silver together, as typed"))
                              : (grade.gold ? tr("gold") : tr("gold and silver together")));
}

// The step of the balance, and how much of the figure half of it is where the figure is small.
void WeighRoom::show_step(const readings::Reading* typed) {
  QString words = balance_ && balance_->step ? tr("step %1").arg(text(as_typed(balance_->step)))
                  : balance_                 ? tr("step not known: no uncertainty can be given")
                                             : tr("without it no uncertainty can be given");
  // The wire says where it is in the same line: what was weighed last keeps its room.
  if (!port_->settings().port.isEmpty()) words += QStringLiteral(" · ") + port_->state_words();
  balance_field_->set_hint(words);
  QString near;
  if (typed && cup_ != Cup::asked)
    for (const weighing::Question& question : weighing::doubts(as_net(*typed).value_or(*typed), context()))
      if (question.doubt == weighing::Doubt::near_step)
        near = tr("near the step of the balance: half a step is %1 % of this")
                   .arg(to_qt(rounded(question.figure, decimals_for_uncertainty(question.figure), session_.writing.mark)));
  mass_->set_hint(near);
}

weighing::Weighed WeighRoom::context() const {
  weighing::Weighed context;
  const auto origin = weighing::origin(session_.connection, bead_);
  if (origin.ok() && origin->portion_mass) context.portion = origin->portion_mass->mass();
  if (balance_ && balance_->step) context.step = balance_->step->mass();
  const double suspicious = record_ ? record_->settings.suspicious_grade_g_t : lab::Settings().suspicious_grade_g_t;
  context.suspicious = Grade(suspicious, unit::gram_per_tonne);
  take_earlier(context);
  return context;
}

// What was weighed of the same thing on this balance, and how it scatters.
void WeighRoom::take_earlier(weighing::Weighed& context) const {
  const weighing::Bead* bead = bead_in_record();
  if (!bead) return;
  const BalanceId balance = balance_ ? balance_->id : BalanceId();
  for (const weighing::Weighing* one : bead->valid(what_)) {
    if (one->balance != balance || one->mass.state != readings::State::measured) continue;
    context.earlier.push_back(one->mass);
    context.tared = context.tared || one->is_difference();
  }
  if (!context.earlier.empty()) context.repeat_sd = results::repeat_sd(*record_, balance);
}

std::optional<ReadingField::Doubt> WeighRoom::doubt(const readings::Reading& typed) const {
  const DecimalMark mark = session_.writing.mark;
  const auto net = as_net(typed);
  if (cup_ == Cup::asked || !net.ok()) return std::nullopt;  // no bead; or refused when it is written
  const readings::Reading& reading = *net;
  for (const weighing::Question& question : weighing::doubts(reading, context())) {
    const QString figure = text(as_typed(reading));
    const auto grade = [&] { return to_qt(rounded(question.figure, decimals_for_uncertainty(question.figure / 50), mark)); };
    switch (question.doubt) {
      case weighing::Doubt::perhaps_milligrams:
        if (cup_ != Cup::none) return std::nullopt;  // two figures in one unit: the slip is in neither alone
        return ReadingField::Doubt{{{QLatin1Char('m'), to_qt(question.instead->typed)}},
                                   tr("%1 would be %2 g/t").arg(figure, grade())};
      case weighing::Doubt::very_rich: return ReadingField::Doubt{{}, tr("%1 would be %2 g/t").arg(figure, grade())};
      case weighing::Doubt::apart_from_earlier: {
        const QString off = to_qt(rounded(question.figure, decimals_for_uncertainty(question.figure), mark));
        const QString words = tr("%1 is %2 mg off what was weighed before").arg(figure, off);
        if (!question.instead || cup_ != Cup::none) return ReadingField::Doubt{{}, words};
        return ReadingField::Doubt{{{QLatin1Char('d'), to_qt(question.instead->typed)}}, words};
      }
      case weighing::Doubt::off_step:
        return ReadingField::Doubt{
            {}, tr("%1 is no multiple of this balance’s step, %2").arg(figure, text(as_typed(balance_->step)))};
      case weighing::Doubt::heavier_than_portion: return std::nullopt;  // refused when it is written
      case weighing::Doubt::near_step:
        return ReadingField::Doubt{{},
                                   tr("%1 is near the step of the balance, %2: half a step is %3 % of it")
                                       .arg(figure, text(as_typed(balance_->step)),
                                            to_qt(rounded(question.figure, decimals_for_uncertainty(question.figure), mark)))};
    }
  }
  const QString swap = swap_words(reading);
  if (swap.isEmpty()) return std::nullopt;
  return ReadingField::Doubt{{}, swap};
}

// A figure that is out of keeping with this sample and would suit another bead that waits nearby.
QString WeighRoom::swap_words(const readings::Reading& reading) const {
  constexpr std::size_t nearby = 24;
  if (!record_ || !(reading.value > 0)) return {};
  const auto origin = weighing::origin(session_.connection, bead_);
  if (!origin.ok() || !origin->portion_mass || !(origin->portion_mass->value > 0)) return {};
  const auto usual = weighing::usual_grade_g_t(record_->settings, origin->expected);
  if (!usual) return {};
  const auto grade_in = [&](const weighing::Origin& from) {
    return grade(reading.mass(), from.portion_mass->mass()).in(unit::gram_per_tonne);
  };
  const auto beads = waiting_beads();
  for (std::size_t i = 0; i < std::min(nearby, beads.size()); ++i) {
    const weighing::Origin& other = beads[i];
    const auto usual_there = weighing::usual_grade_g_t(record_->settings, other.expected);
    if (other.bead == bead_ || !usual_there || !other.portion_mass || !(other.portion_mass->value > 0)) continue;
    const double here = grade_in(*origin), there = grade_in(other);
    if (!weighing::perhaps_swapped(here, *usual, there, *usual_there)) continue;
    const QString bead =
        tr("%1/%2 %3").arg(to_qt(other.sample_number)).arg(other.portion_number).arg(other.from_pan ? tr("pan") : tr("fire"));
    return tr("%1 would be %2 g/t in a sample expected to be %3; it would suit %4 (%5), as if two beads had changed places")
        .arg(text(as_typed(reading)), to_qt(rounded(here, decimals_for_uncertainty(here / 50), session_.writing.mark)),
             to_qt(*origin->expected), bead, to_qt(*other.expected));
  }
  return {};
}

}  // namespace prillbook::ui
