// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/furnace/words.h"

#include <QtCore/QCoreApplication>

#include "ui/kit/figures.h"
#include "ui/kit/sentences.h"

namespace prillbook::ui {
namespace {

struct FurnaceWords {
  Q_DECLARE_TR_FUNCTIONS(FurnaceWords)
};

QString reagent_line(const QString& name, Mass wanted, const std::optional<Mass>& weighed, const std::optional<Mass>& recipe,
                     DecimalMark mark) {
  QString line = QStringLiteral("%1  %2").arg(name, grams(wanted, mark));
  if (recipe) line += FurnaceWords::tr(" · recipe %1").arg(grams(*recipe, mark));
  if (weighed) line += FurnaceWords::tr(" · weighed %1").arg(grams(*weighed, mark));
  return line;
}

QString power_words(const char* name, const Coefficient& practice, const Coefficient& theory) {
  return FurnaceWords::tr("%1: %2 g lead a gram in practice (%3), %4 in theory (%5)")
      .arg(QLatin1String(name), to_qt(fixed(practice.value, 1)), to_qt(practice.source), to_qt(fixed(theory.value, 2)),
           to_qt(theory.source));
}

}  // namespace

QString grams(Mass mass, DecimalMark mark) { return text(figure(fixed(mass.in(unit::gram), 1), "g", mark)); }

QString warning_words(ChargeWarning warning) {
  switch (warning) {
    case ChargeWarning::litharge_scarce:
      return FurnaceWords::tr("Litharge is scarce: after the button less than a third of the ore is left as flux.");
    case ChargeWarning::button_off_target:
      return FurnaceWords::tr("The button falls short of the one wanted: there is not enough lead, or too little reducer.");
    case ChargeWarning::button_small: return FurnaceWords::tr("A button under 18 g may leave gold and silver in the slag.");
    case ChargeWarning::button_large: return FurnaceWords::tr("A button above 50 g costs silver in the cupel.");
    case ChargeWarning::nitre_burns_all_lead:
      return FurnaceWords::tr("At its full power the nitre burns more lead than the ore reduces: there may be no button.");
    case ChargeWarning::nitre_may_boil_over: return FurnaceWords::tr("More nitre than ore: the pot may boil over.");
    case ChargeWarning::silicate_degree_low: return FurnaceWords::tr("The slag is too basic: add silica.");
    case ChargeWarning::silicate_degree_high: return FurnaceWords::tr("The slag is too acid: add soda ash or litharge.");
    case ChargeWarning::composition_assumed:
      return FurnaceWords::tr("What the ore is made of was assumed from its kind; the slag will show.");
    case ChargeWarning::iron_needed:
      return FurnaceWords::tr("Sulphide is left over: add litharge or nitre, or iron, or a matte will form.");
    case ChargeWarning::cupel_small: return FurnaceWords::tr("The cupel weighs less than the button: it can’t drink it.");
  }
  return {};
}

QStringList mixture_lines(const Charge& design, const Mixture& weighed, const Mixture* recipe, DecimalMark mark) {
  const Mixture none;
  const Mixture& kept = recipe ? *recipe : none;
  QStringList lines;
  const auto line = [&](const QString& name, const std::optional<Mass>& wanted, const std::optional<Mass>& got,
                        const std::optional<Mass>& by_recipe) {
    if (wanted || got || by_recipe) lines << reagent_line(name, wanted.value_or(Mass()), got, by_recipe, mark);
  };
  line(FurnaceWords::tr("litharge"), design.litharge, weighed.litharge, kept.litharge);
  line(FurnaceWords::tr("soda ash"), design.soda_ash, weighed.soda_ash, kept.soda_ash);
  line(FurnaceWords::tr("borax glass"), design.borax_glass, weighed.borax, kept.borax);
  line(FurnaceWords::tr("silica"), design.silica, weighed.silica, kept.silica);
  line(FurnaceWords::tr("flour"), design.flour, weighed.flour, kept.flour);
  line(FurnaceWords::tr("nitre"), design.nitre, weighed.nitre, kept.nitre);
  return lines;
}

QString button_line(const Charge& charge, DecimalMark mark) {
  QString words = FurnaceWords::tr("Button %1 by practice, %2 by theory.")
                      .arg(grams(charge.button_expected, mark), grams(charge.button_theory, mark));
  if (charge.silicate_degree)
    words += FurnaceWords::tr(" Silicate degree %1.").arg(to_qt(fixed(*charge.silicate_degree, 1, mark)));
  return words;
}

QStringList source_lines(const ChargeInput& input) {
  QStringList lines;
  lines << power_words("flour", find_reagent("flour")->practice, find_reagent("flour")->theory);
  lines << power_words("nitre", find_reagent("nitre")->practice, find_reagent("nitre")->theory);
  for (const SulphideShare& one : input.sulphides)
    if (const Sulphide* mineral = find_sulphide(one.mineral))
      lines << power_words(std::string(mineral->name).c_str(), mineral->practice,
                           {mineral->theory(), "all sulphur to sulphate, Beringer p. 98"});
  if (input.reducing_power)
    lines << FurnaceWords::tr("the ore: %1 g lead a gram, measured by the lab").arg(to_qt(fixed(*input.reducing_power, 2)));
  lines << FurnaceWords::tr("litharge for the ore: Beringer p. 92, 95, 138; soda ash 1.26 to 1 of silica: p. 93, 138");
  lines << FurnaceWords::tr("borax: Beringer p. 90–92, 116, 138, 140; silica up to a monosilicate: Fulton p. 60");
  lines << FurnaceWords::tr("button about as heavy as the ore, 20 to 35 g, where none is asked for: Beringer p. 90, 137");
  return lines;
}

}  // namespace prillbook::ui
