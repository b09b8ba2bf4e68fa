// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/quality/material_pane.h"

#include <QtWidgets/QHBoxLayout>
#include <QtWidgets/QLabel>
#include <QtWidgets/QVBoxLayout>
#include <algorithm>

#include "core/assay/rounding.h"
#include "core/custody/custody.h"
#include "core/history/fields.h"
#include "core/lab/lab.h"
#include "core/portions/portions.h"
#include "core/results/control_chart.h"
#include "ui/kit/figures.h"
#include "ui/kit/form.h"
#include "ui/kit/press_button.h"
#include "ui/kit/record_fields.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"
#include "ui/quality/control_picture.h"
#include "ui/quality/words.h"

namespace prillbook::ui {
namespace {

namespace material_fields = history::fields::control_material;

constexpr std::int64_t most_drawn = 60;

QLabel* material_label(TextSize size, const char* tone) {
  auto* label = new QLabel;
  label->setFont(face(size));
  label->setProperty("tone", tone);
  label->setTextFormat(Qt::PlainText);
  label->setWordWrap(true);
  return label;
}

QString origin_words(const results::ChartLimits& limits, DecimalMark mark) {
  const QString sd = to_qt(rounded(limits.sd, decimals_for_uncertainty(limits.sd), mark));
  switch (limits.origin) {
    case results::SpreadOrigin::stated: return MaterialPane::tr("s %1 g/t, as stated with the material").arg(sd);
    case results::SpreadOrigin::own_results: return MaterialPane::tr("s %1 g/t, from the lab’s own results").arg(sd);
    case results::SpreadOrigin::setting: return MaterialPane::tr("s %1 g/t, a share of its gold set for the lab").arg(sd);
  }
  return {};
}

QString bias_words(const QString& metal, const results::MetalBias& bias, DecimalMark mark) {
  const double step = bias.u_mean && *bias.u_mean > 0 ? *bias.u_mean : 0.01;
  const int places = decimals_for_uncertainty(step);
  QString words = MaterialPane::tr("%1: %2 g/t, the mean of %3; certified %4; %5 %")
                      .arg(metal, to_qt(rounded(bias.mean, places, mark)))
                      .arg(bias.n)
                      .arg(to_qt(rounded(bias.certified, places, mark)),
                           to_qt((bias.bias.relative_pct < 0 ? "−" : "+") + fixed(std::abs(bias.bias.relative_pct), 1, mark)));
  if (!bias.bias.en) return words + MaterialPane::tr("; no score: an uncertainty, or what it means, is not stated.");
  words +=
      MaterialPane::tr("; zeta %1, En %2: ").arg(to_qt(fixed(*bias.bias.zeta, 1, mark)), to_qt(fixed(*bias.bias.en, 2, mark)));
  return words + (std::abs(*bias.bias.en) <= 1 ? MaterialPane::tr("they agree.")
                                               : MaterialPane::tr("they differ beyond their uncertainties."));
}

}  // namespace

MaterialPane::MaterialPane(Session& session, QWidget* parent)
    : QWidget(parent),
      session_(session),
      fields_(new RecordFields(session, history::Entity::control_material, this)),
      weigh_(new ReadingField(tr("Weigh a charge of it"), {Measure::mass, "g", session.writing.mark, false})),
      make_flux_(new PressButton(tr("Make a flux blank"), PressButton::Rank::main)),
      stock_(new ReadingField(tr("Stock received"), {Measure::mass, "g", session.writing.mark, false})),
      left_(material_label(TextSize::body, "quiet")),
      picture_(new ControlPicture),
      limits_(material_label(TextSize::small, "quiet")),
      signals_(material_label(TextSize::body, "")),
      bias_(material_label(TextSize::body, "")),
      values_(new QWidget),
      meaning_(new ChoiceField(
          tr("The uncertainties are"),
          {{"standard", tr("standard, k = 1")}, {"expanded", tr("expanded, k = 2")}, {"limits", tr("limits either side")}})) {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(rhythm);
  auto* top = new Form(2);
  top->row({weigh_, left_});
  column->addWidget(top);
  column->addWidget(make_flux_, 0, Qt::AlignLeft);
  column->addWidget(picture_);
  column->addWidget(limits_);
  column->addWidget(signals_);
  column->addWidget(bias_);
  column->addWidget(hairline());
  auto* value_column = new QVBoxLayout(values_);
  value_column->setContentsMargins(0, 0, 0, 0);
  auto* value_form = new Form(4);
  value_form->row({fields_->figure(tr("Gold"), material_fields::gold, "g/t"),
                   fields_->figure(tr("its uncertainty"), material_fields::gold_u, "g/t"),
                   fields_->figure(tr("Silver"), material_fields::silver, "g/t"),
                   fields_->figure(tr("its uncertainty"), material_fields::silver_u, "g/t")});
  value_form->wide(meaning_);
  value_form->row({fields_->figure(tr("s of one charge"), material_fields::gold_sd, "g/t"),
                   fields_->text(tr("Certificate"), material_fields::certificate)});
  value_column->addWidget(value_form);
  column->addWidget(values_);
  auto* form = new Form(3);
  form->row(
      {fields_->text(tr("Name"), material_fields::name), stock_, fields_->time(tr("Used up"), material_fields::used_up_at)});
  form->wide(fields_->choice(tr("Came"), material_fields::origin));
  form->row({fields_->text(tr("Remarks"), material_fields::remarks)});
  column->addWidget(form);
  column->addStretch();
  weigh_->set_read_only(session_.read_only());
  stock_->set_read_only(session_.read_only());
  make_flux_->setEnabled(!session_.read_only());
  weigh_->set_hint(tr("Then it waits at the Furnace."));
  weigh_->on_commit([this](const auto& mass) { return weigh_in(mass); });
  connect(weigh_, &Field::committed, this, [this] { weigh_->leave_record(); });
  stock_->on_commit(
      [this](const auto& mass) { return portions::set_received_mass(session_.journal, material_.stock, mass, std::nullopt); });
  connect(make_flux_, &QPushButton::clicked, this, [this] {
    if (const auto made = weigh_in({}); !made.ok()) emit said(sentence(made.error()));
  });
}

Result<void> MaterialPane::weigh_in(const std::optional<readings::Reading>& mass) {
  if (!mass && material_.kind != "blank_flux") return {};
  const auto person = lab::person_by_initials(session_.connection, session_.journal.author());
  const auto made = controls::weigh_in(session_.journal, material_.id, mass, person.ok() ? person->id : PersonId{});
  if (!made.ok()) return made.error();
  emit said(tr("A charge of %1 waits at the Furnace.").arg(to_qt(material_.name)));
  return {};
}

void MaterialPane::show_material(ControlMaterialId id) {
  const auto held = controls::material(session_.connection, id);
  if (!held.ok()) return;
  if (id != material_.id) {
    weigh_->leave_record();
    stock_->leave_record();
  }
  material_ = *held;
  fields_->show(id.value);
  meaning_->set_value(material_.u_meaning);
  const bool flux = material_.kind == "blank_flux";
  weigh_->setVisible(!flux);
  make_flux_->setVisible(flux);
  values_->setVisible(material_.kind == "reference");
  stock_->setVisible(!flux);
  if (const auto stock = custody::sample(session_.connection, material_.stock); stock.ok())
    stock_->set_value(stock->mass_received);
  left_->setText(left_words());
  show_results();
}

QString MaterialPane::left_words() const {
  const auto stock = custody::sample(session_.connection, material_.stock);
  QString words = stock.ok() ? tr("Kept as %1.").arg(to_qt(stock->number)) : QString();
  const auto left = controls::left_of_stock(session_.connection, material_);
  if (left.ok() && *left) {
    const portions::MassInWords mass = portions::in_words(**left);
    words += QLatin1Char(' ') + tr("%1 left.").arg(text(figure(mass.number, mass.unit, session_.writing.mark)));
  }
  return words;
}

void MaterialPane::show_results() {
  auto reader = results::TestReader::open(session_.connection);
  if (!reader.ok()) return limits_->setText(sentence(reader.error()));
  auto chart = results::control_chart(*reader, material_, {}, most_drawn);
  if (!chart.ok()) return limits_->setText(sentence(chart.error()));
  const DecimalMark mark = session_.writing.mark;
  const bool blank = material_.kind == "blank_rock";
  if (material_.kind != "reference") chart->limits.reset(), chart->alarms.clear();
  picture_->setVisible(material_.kind != "blank_flux");
  limits_->setText(material_.kind == "blank_flux"
                       ? tr("A flux blank is judged by the mass of its gold, at the load it went in with.")
                   : blank          ? tr("The limit of rock blanks is set in Lab set-up.")
                   : !chart->limits ? tr("Limits are drawn once its gold is entered, or eight results of the lab are there.")
                                    : origin_words(*chart->limits, mark) + QStringLiteral("; ") +
                                          (reader->settings().nelson_rules ? tr("Nelson’s rules.") : tr("Westgard’s rules.")));
  QStringList lines;
  for (const results::ChartSignal& signal : chart->alarms)
    if (signal.point + 1 == chart->points.size())
      lines << tr("The newest result breaks %1: %2.").arg(to_qt(signal.rule), to_qt(signal.words));
  signals_->setText(lines.join(QLatin1Char('\n')));
  signals_->setVisible(!lines.isEmpty());
  QStringList bias;
  if (const auto gold = results::gold_bias(*chart)) bias << bias_words(tr("Gold"), *gold, mark);
  if (const auto silver = results::silver_bias(*chart)) bias << bias_words(tr("Silver"), *silver, mark);
  bias_->setText(bias.join(QLatin1Char('\n')));
  bias_->setVisible(!bias.isEmpty());
  picture_->show_chart(*std::move(chart), blank ? std::optional(reader->settings().blank_limit_g_t) : std::nullopt, mark);
}

void MaterialPane::enter() {
  if (weigh_->isVisibleTo(this))
    weigh_->setFocus(Qt::OtherFocusReason);
  else
    make_flux_->setFocus(Qt::OtherFocusReason);
}

}  // namespace prillbook::ui
