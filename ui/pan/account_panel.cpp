// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/pan/account_panel.h"

#include <QtWidgets/QGridLayout>
#include <QtWidgets/QLabel>
#include <algorithm>

#include "core/assay/rounding.h"
#include "core/sieving/sieve_name.h"
#include "core/units/units.h"
#include "ui/kit/figures.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"

namespace prillbook::ui {
namespace {

QString verdict_words(const results::PanAccount& account) {
  const QString sampling =
      account.sampling_judged ? AccountPanel::tr("sampling included") : AccountPanel::tr("sampling not judged");
  switch (account.verdict) {
    case results::GoldBalance::incomplete: {
      QStringList missing;
      for (const std::string& one : account.missing) missing << to_qt(one);
      return AccountPanel::tr("Not complete: no gold figure of %1.").arg(missing.join(QStringLiteral(", ")));
    }
    case results::GoldBalance::not_determined: return AccountPanel::tr("Not judged: an uncertainty is missing.");
    case results::GoldBalance::closes: return AccountPanel::tr("The gold closes within its interval; %1.").arg(sampling);
    case results::GoldBalance::short_of_head: return AccountPanel::tr("Less gold was found than fire says; %1.").arg(sampling);
    case results::GoldBalance::over_head: return AccountPanel::tr("More gold was found than fire says; %1.").arg(sampling);
  }
  return {};
}

}  // namespace

AccountPanel::AccountPanel(Session& session, QWidget* parent) : QWidget(parent), session_(session), grid_(new QGridLayout(this)) {
  grid_->setContentsMargins(0, 0, 0, 0);
  grid_->setHorizontalSpacing(rhythm);
  grid_->setVerticalSpacing(rhythm / 2);
  grid_->setColumnStretch(2, 1);
}

void AccountPanel::clear() {
  while (QLayoutItem* item = grid_->takeAt(0)) {
    if (QWidget* widget = item->widget()) {
      widget->hide();
      widget->deleteLater();
    }
    delete item;
  }
  next_ = 0;
}

void AccountPanel::heading(const QString& words) {
  auto* label = new QLabel(words);
  label->setFont(face(TextSize::body, Weight::bold));
  label->setContentsMargins(0, next_ ? rhythm : 0, 0, 0);
  grid_->addWidget(label, next_++, 0, 1, 3);
}

void AccountPanel::line(const QString& name, const QString& figure, const QString& words, bool sum) {
  const std::pair<QString, const char*> cells[] = {{name, "quiet"}, {figure, ""}, {words, "quiet"}};
  for (int column = 0; column < 3; ++column) {
    auto* label = new QLabel(cells[column].first);
    label->setFont(column == 1 ? face(TextSize::body, sum ? Weight::bold : Weight::book) : face(TextSize::small));
    label->setProperty("tone", cells[column].second);
    label->setTextFormat(Qt::PlainText);
    label->setWordWrap(column == 2);
    const auto side = column == 1 ? Qt::AlignRight : Qt::AlignLeft;
    grid_->addWidget(label, next_, column, side | Qt::AlignBaseline);
  }
  ++next_;
}

QString AccountPanel::mass_words(const std::optional<Mass>& mass) const {
  if (!mass) return QStringLiteral("–");
  const portions::MassInWords words = portions::in_words(*mass);
  return text(figure(words.number, words.unit, session_.writing.mark));
}

QString AccountPanel::gold_words(const std::optional<results::GoldMass>& gold) const {
  if (!gold) return QStringLiteral("–");
  std::optional<double> half_width;
  if (gold->lo && gold->hi) half_width = (gold->hi->in(unit::milligram)-gold->lo->in(unit::milligram)) / 2;
  const std::string number = written(gold->value.in(unit::milligram), half_width, {}, session_.writing.mark);
  return text(Figure{to_qt(number), QStringLiteral("mg")});
}

void AccountPanel::show_test(const results::SampleRecord& record, const results::SampleResult& result, PanTestId test) {
  clear();
  const auto account = std::find_if(result.pan_accounts.begin(), result.pan_accounts.end(),
                                    [&](const results::PanAccount& one) { return one.test == test; });
  if (account != result.pan_accounts.end()) {
    show_mass(*account);
    show_gold(*account);
  }
  show_grinds(record, result, test);
}

void AccountPanel::show_mass(const results::PanAccount& account) {
  heading(tr("Mass"));
  line(tr("portion"), mass_words(account.mass));
  line(tr("free gold, raw"), account.free_gold ? gold_words(results::GoldMass{*account.free_gold, {}, {}, {}}) : mass_words({}));
  line(tr("magnetite"), mass_words(account.magnetite));
  line(tr("remainder"), mass_words(account.remainder));
  line(tr("tail"), mass_words(account.tail));
  line(tr("not accounted for"), mass_words(account.not_accounted),
       account.not_accounted ? (*account.not_accounted < Mass() ? tr("a gain") : QString())
                             : tr("once portion, remainder and tail are weighed"),
       true);
}

void AccountPanel::show_gold(const results::PanAccount& account) {
  heading(tr("Gold"));
  line(tr("in the bead"), gold_words(account.in_bead));
  line(tr("in the remainder"), gold_words(account.in_remainder), account.in_remainder ? QString() : tr("not assayed"));
  line(tr("in the tail"), gold_words(account.in_tail), account.in_tail ? QString() : tr("not assayed"));
  line(tr("found"), gold_words(account.found), {}, true);
  line(tr("by fire"), gold_words(account.head), account.head ? QString() : tr("no charge of the rock yet"));
  line(tr("not accounted for"), gold_words(account.gold_gap), {}, true);
  auto* words = new QLabel(verdict_words(account));
  words->setFont(face(TextSize::small));
  words->setWordWrap(true);
  words->setTextFormat(Qt::PlainText);
  grid_->addWidget(words, next_++, 0, 1, 3);
}

// Coarse to fine, with what each pan caught of the rock.
void AccountPanel::show_grinds(const results::SampleRecord& record, const results::SampleResult& result, PanTestId test) {
  if (result.pan.size() < 2) return;
  heading(tr("Pannings of this sample"));
  std::vector<const results::TestResult*> tests;
  for (const results::TestResult& one : result.pan) tests.push_back(&one);
  std::stable_sort(tests.begin(), tests.end(),
                   [](const auto* a, const auto* b) { return a->grind.value_or(Opening()) > b->grind.value_or(Opening()); });
  for (const results::TestResult* one : tests) {
    const QString name = to_qt(one->label.substr(std::min(one->label.find('/'), one->label.size()))) + QLatin1Char(' ') +
                         (one->grind ? to_qt(opening_in_words(*one->grind, session_.writing.mark)) : tr("grind not known"));
    QString caught = QStringLiteral("–"), words;
    if (one->grade && one->grade->gold) {
      const MeasuredGrade& gold = *one->grade->gold;
      std::optional<double> half_width;
      if (gold.lo && gold.hi) half_width = (gold.hi->in(unit::gram_per_tonne)-gold.lo->in(unit::gram_per_tonne)) / 2;
      caught = text(Figure{to_qt(written(gold.g_t(), half_width, {}, record.settings.decimal_mark)), QStringLiteral("g/t")});
    }
    for (const results::GrindPoint& point : result.grinds.points)
      if (point.test == one->pan_test && point.recovery)
        words = tr("%1 % of fire").arg(to_qt(rounded(100 * *point.recovery, 0, session_.writing.mark)));
    if (one->state == results::TestState::spoiled) words = tr("spoiled");
    line(name, caught, words, one->pan_test == test);
  }
}

}  // namespace prillbook::ui
