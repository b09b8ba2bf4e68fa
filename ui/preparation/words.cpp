// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/preparation/words.h"

#include <QtCore/QCoreApplication>

#include "core/assay/rounding.h"
#include "core/findings/wording.h"
#include "ui/kit/figures.h"
#include "ui/kit/record_fields.h"
#include "ui/kit/sentences.h"

namespace prillbook::ui {
namespace {

struct Preparation {
  Q_DECLARE_TR_FUNCTIONS(Preparation)
};

QString own_sentence(const Error& error) {
  const std::string& field = error.field;
  if (error.code == ErrorCode::conflict) {
    if (field == "cleaning.cleaned_at") return Preparation::tr("The machine was at work at that time: clean it before or after.");
    if (field == "cleaning.machine_id" || field == "step.machine_id" || field == "crushing_plan.machine_id")
      return Preparation::tr("This machine was retired by then.");
    if (field == "step.began_at") return Preparation::tr("The machine was cleaned, or in other use, in that time.");
    if (field == "step_share.portion_id") return Preparation::tr("A composite can’t be put into itself.");
  }
  if (error.code == ErrorCode::inconsistent) {
    if (field == "step.done_at") return Preparation::tr("The rock was not there by then: look at the time.");
    if (field == "step.closed") return Preparation::tr("For what was lost, weigh what went in and every part.");
    if (field == "step.method") return Preparation::tr("Only a split has a way of splitting.");
    if (field == "step.mass_out") return Preparation::tr("A split or a screen gives parts: weigh those.");
    if (field == "cleaning.flush_mass") return Preparation::tr("Only a flush has a mass of barren rock.");
    if (field == "cleaning.flush_grade") return Preparation::tr("Only a flush can be assayed.");
  }
  if (error.code == ErrorCode::missing_key && field == "cleaning.flush_mass")
    return Preparation::tr("How much barren rock went through? A flush has a mass.");
  if (error.code == ErrorCode::not_found && field == "cleaning")
    return Preparation::tr("It was never cleaned here: say how once, then one key repeats it.");
  if (error.code == ErrorCode::out_of_range &&
      (field.starts_with("step.") || field == "portion.mass" || field == "cleaning.flush_mass"))
    return Preparation::tr("A figure above zero is needed.");
  if (error.code == ErrorCode::missing_key && field == "plan_place") return Preparation::tr("Nothing waits for this machine.");
  return {};
}

}  // namespace

QString step_word(std::string_view kind) {
  if (kind == "dry") return Preparation::tr("dry");
  if (kind == "crush") return Preparation::tr("crush");
  if (kind == "pulverise") return Preparation::tr("pulverise");
  if (kind == "blend") return Preparation::tr("blend");
  if (kind == "split") return Preparation::tr("split");
  if (kind == "screen") return Preparation::tr("screen");
  return Preparation::tr("composite");
}

QString step_done_word(std::string_view kind) {
  if (kind == "dry") return Preparation::tr("dried");
  if (kind == "crush") return Preparation::tr("crushed");
  if (kind == "pulverise") return Preparation::tr("pulverised");
  if (kind == "blend") return Preparation::tr("blended");
  if (kind == "split") return Preparation::tr("split");
  if (kind == "screen") return Preparation::tr("screened");
  return Preparation::tr("put together");
}

QString method_word(std::string_view method) {
  if (method == "riffle") return Preparation::tr("riffle");
  if (method == "cone_and_quarter") return Preparation::tr("cone and quarter");
  if (method == "rotary") return Preparation::tr("rotary splitter");
  return Preparation::tr("scoop");
}

QString way_word(std::string_view way) {
  if (way == "brush") return Preparation::tr("brush");
  if (way == "air") return Preparation::tr("air");
  if (way == "wipe") return Preparation::tr("wipe");
  return Preparation::tr("flush");
}

Figure mass_figure(Mass mass, DecimalMark mark) {
  const std::string words = findings::mass_in_words(mass);
  const auto blank = words.find(' ');
  return figure(words.substr(0, blank), words.substr(blank + 1), mark);
}

QString mass_words(Mass mass, DecimalMark mark) { return text(mass_figure(mass, mark)); }

QString number_words(double value, DecimalMark mark) { return figure(findings::two_digits(value), {}, mark).number; }

QString grade_words(Grade grade, DecimalMark mark) {
  return text(figure(findings::two_digits(grade.in(unit::gram_per_tonne)), "g/t", mark));
}

QString basis_word(results::GradeBasis basis) {
  switch (basis) {
    case results::GradeBasis::assayed: return Preparation::tr("assayed");
    case results::GradeBasis::panned: return Preparation::tr("by the pan");
    case results::GradeBasis::expected: return Preparation::tr("expected");
    case results::GradeBasis::unknown: return Preparation::tr("not known, taken as ordinary");
  }
  return {};
}

QString hold_up_words(const results::MachineState& state, DecimalMark mark) {
  const QString mass = mass_words(state.holdup.mass, mark);
  switch (state.origin) {
    case results::HoldUpOrigin::flushes: {
      const QString learned =
          text(figure(written(state.holdup.mass.in(unit::gram), state.holdup.half_width().in(unit::gram)), "g", mark));
      return state.flushes == 1
                 ? Preparation::tr("holds %1, learned from one assayed flush: a lower bound").arg(learned)
                 : Preparation::tr("holds %1, learned from %2 assayed flushes: a lower bound").arg(learned).arg(state.flushes);
    }
    case results::HoldUpOrigin::machine: return Preparation::tr("holds %1, as set for it").arg(mass);
    case results::HoldUpOrigin::setting: return Preparation::tr("holds %1, by the lab’s setting").arg(mass);
    case results::HoldUpOrigin::none: return Preparation::tr("hold-up not known: carry-over is not judged");
  }
  return {};
}

QString preparation_sentence(const Error& error) {
  const QString own = own_sentence(error);
  return own.isEmpty() ? sentence(error) : own;
}

}  // namespace prillbook::ui
