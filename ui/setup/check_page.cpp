// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/setup/check_page.h"

#include <QtCharts/QChart>
#include <QtCharts/QChartView>
#include <QtCharts/QDateTimeAxis>
#include <QtCharts/QLineSeries>
#include <QtCharts/QScatterSeries>
#include <QtCharts/QValueAxis>
#include <QtCore/QDateTime>
#include <QtWidgets/QHBoxLayout>
#include <QtWidgets/QLabel>
#include <QtWidgets/QLineEdit>
#include <QtWidgets/QVBoxLayout>
#include <algorithm>

#include "core/assay/rounding.h"
#include "core/lab/lab.h"
#include "core/units/units.h"
#include "ui/kit/fields.h"
#include "ui/kit/figures.h"
#include "ui/kit/form.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"

namespace prillbook::ui {
namespace {

constexpr std::int64_t checks_shown = 120;
constexpr int rows_shown = 6, chart_height = 200;

double micrograms(Mass mass) { return mass.in(unit::microgram); }

QLabel* label_of(TextSize size, bool quiet = true) {
  auto* label = new QLabel;
  label->setFont(face(size));
  if (quiet) label->setProperty("tone", "quiet");
  label->setTextFormat(Qt::PlainText);
  label->setWordWrap(true);
  return label;
}

QString signed_micrograms(Mass mass, DecimalMark mark) {
  const double value = micrograms(mass);
  const QString sign = value < 0 ? QString(QChar(0x2212)) : QStringLiteral("+");
  return CheckPage::tr("%1%2 µg").arg(sign, to_qt(rounded(std::abs(value), std::abs(value) < 10 ? 1 : 0, mark)));
}

}  // namespace

CheckPage::CheckPage(Session& session, QWidget* parent)
    : QWidget(parent),
      session_(session),
      balance_field_(new PickField(tr("Balance"))),
      weight_field_(new PickField(tr("Check weight"))),
      mass_(new ReadingField(tr("The balance shows"), {Measure::mass, "mg", session.writing.mark})),
      verdict_(label_of(TextSize::body, false)),
      chart_(new QChart),
      view_(new QChartView(chart_)),
      list_(label_of(TextSize::body)),
      name_(new TextField(tr("New check weight"))),
      nominal_(new ReadingField(tr("Its mass"), {Measure::mass, "mg", session.writing.mark, false})),
      allowed_(new ReadingField(tr("Deviation let pass"), {Measure::mass, "mg", session.writing.mark, false})) {
  build();
  refresh();
}

void CheckPage::build() {
  balance_field_->on_commit([this](std::optional<std::int64_t> id) -> Result<void> {
    balance_ = BalanceId{id.value_or(0)};
    show_checks();
    return {};
  });
  weight_field_->on_commit([this](std::optional<std::int64_t> id) -> Result<void> {
    weight_ = CheckWeightId{id.value_or(0)};
    show_checks();
    return {};
  });
  mass_->on_commit([this](const readings::Figure& figure) { return weigh(figure); });
  connect(mass_, &Field::committed, this, [this] { mass_->leave_record(); });
  name_->on_commit([this](const std::optional<std::string>& name) -> Result<void> {
    fresh_name_ = name.value_or("");
    return {};
  });
  nominal_->on_commit([this](const readings::Figure& figure) -> Result<void> {
    fresh_nominal_ = figure;
    return {};
  });
  allowed_->on_commit([this](const readings::Figure& figure) -> Result<void> {
    if (!figure) return {};
    if (fresh_name_.empty()) return refusal(ErrorCode::missing_key, "check_weight.name", "a weight needs its name");
    if (!fresh_nominal_) return refusal(ErrorCode::missing_key, "check_weight.nominal", "a weight needs its mass");
    const auto made = weighing::add_check_weight(session_.journal, fresh_name_, *fresh_nominal_, *figure);
    if (!made.ok()) return made.error();
    weight_ = *made;
    return {};
  });
  connect(allowed_, &Field::committed, this, [this] {
    if (!weight_) return;
    for (LineField* field :
         {static_cast<LineField*>(name_), static_cast<LineField*>(nominal_), static_cast<LineField*>(allowed_)})
      field->leave_record();
    fresh_name_.clear();
    fresh_nominal_.reset();
    refresh();
  });
  chart_->legend()->hide();
  chart_->setMargins({0, 0, 0, 0});
  chart_->setBackgroundVisible(false);
  view_->setFixedHeight(chart_height);
  view_->setRenderHint(QPainter::Antialiasing);
  view_->setAccessibleName(tr("Deviation of the check weight over time"));
  auto* row = new QHBoxLayout;
  row->setSpacing(4 * rhythm);
  row->addWidget(balance_field_, 3);
  row->addWidget(weight_field_, 3);
  row->addWidget(mass_, 3);
  auto* fresh = new QHBoxLayout;
  fresh->setSpacing(4 * rhythm);
  fresh->addWidget(name_, 3);
  fresh->addWidget(nominal_, 3);
  fresh->addWidget(allowed_, 3);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(rhythm);
  column->addLayout(row);
  column->addWidget(verdict_);
  column->addWidget(view_);
  column->addWidget(list_);
  column->addWidget(hairline());
  column->addLayout(fresh);
  for (Field* field : findChildren<Field*>())
    if (field != balance_field_ && field != weight_field_) field->set_read_only(session_.read_only());
}

void CheckPage::refresh() {
  const auto balances = lab::balances(session_.connection);
  auto weights = weighing::check_weights(session_.connection);
  if (!balances.ok() || !weights.ok()) return;
  weights_ = *std::move(weights);
  std::vector<PickField::Item> items;
  for (const lab::Balance& one : *balances) items.push_back({one.id.value, to_qt(one.name)});
  if (!balance_ && !balances->empty()) balance_ = balances->front().id;
  balance_field_->set_items(std::move(items));
  balance_field_->set_value(balance_ ? std::optional(balance_.value) : std::nullopt);
  items.clear();
  for (const weighing::CheckWeight& one : weights_) items.push_back({one.id.value, to_qt(one.name)});
  if (!weight_ && !weights_.empty()) weight_ = weights_.front().id;
  weight_field_->set_items(std::move(items));
  weight_field_->set_value(weight_ ? std::optional(weight_.value) : std::nullopt);
  mass_->setEnabled(bool(balance_) && bool(weight_));
  show_checks();
}

void CheckPage::enter() {
  (weights_.empty() ? static_cast<LineField*>(name_) : static_cast<LineField*>(mass_))->line()->setFocus();
}

Result<void> CheckPage::weigh(const readings::Figure& figure) {
  if (!figure) return {};
  const auto person = lab::person_by_initials(session_.connection, session_.journal.author());
  const auto made =
      weighing::weigh_check(session_.journal, {balance_, weight_, *figure, {}, person.ok() ? person->id : PersonId{}, {}});
  if (!made.ok()) return made.error();
  show_checks();
  return {};
}

QString CheckPage::verdict_words(const std::vector<weighing::CheckWeighing>& checks) const {
  if (weights_.empty())
    return tr("No check weight yet: enter one below, with the deviation its certificate or the lab lets pass.");
  const auto verdict = weighing::verdict_at(checks, balance_, session_.journal.clock().now());
  QString words;
  switch (verdict.state) {
    case weighing::CheckState::never: words = tr("This balance has not been checked yet."); break;
    case weighing::CheckState::failed:
      words = tr("Out of check: %1 for %2. What is weighed from now on is marked until a check passes.")
                  .arg(text(as_typed(verdict.last->mass)), text(as_typed(verdict.last->nominal)));
      break;
    case weighing::CheckState::passed: words = tr("Checked today, within its limits."); break;
    case weighing::CheckState::other_day:
      words = tr("Not checked today; last on %1, within its limits.").arg(to_qt(local_date(verdict.last->weighed_at)));
      break;
  }
  if (const auto pooled = weighing::pooled_of_checks(checks, balance_))
    words +=
        tr(" Repeatability from these: %1 µg (%2 degrees of freedom); the uncertainty of beads takes it.")
            .arg(to_qt(rounded(micrograms(pooled->sd), decimals_for_uncertainty(micrograms(pooled->sd)), session_.writing.mark)))
            .arg(int(pooled->dof));
  return words;
}

void CheckPage::show_checks() {
  std::vector<weighing::CheckWeighing> checks;
  if (balance_) checks = weighing::check_weighings(session_.connection, balance_, checks_shown).value_or({});
  verdict_->setText(verdict_words(checks));
  std::erase_if(checks, [this](const weighing::CheckWeighing& one) { return one.weight != weight_; });
  QStringList lines;
  for (int i = 0; i < std::min(rows_shown, int(checks.size())); ++i) {
    const weighing::CheckWeighing& one = checks[std::size_t(i)];
    lines << tr("%1 %2   %3   %4   %5")
                 .arg(to_qt(local_date(one.weighed_at)), to_qt(local_time(one.weighed_at)), text(as_typed(one.mass)),
                      signed_micrograms(one.deviation(), session_.writing.mark),
                      one.failed() ? tr("✗ beyond its limit") : tr("✓ within"));
  }
  list_->setText(lines.join(QLatin1Char('\n')));
  draw(checks);
}

void CheckPage::draw(const std::vector<weighing::CheckWeighing>& checks) {
  chart_->removeAllSeries();
  for (QAbstractAxis* axis : chart_->axes()) {
    chart_->removeAxis(axis);
    delete axis;
  }
  view_->setVisible(!checks.empty());
  if (checks.empty()) return;
  auto* passed = new QScatterSeries;
  auto* failed = new QScatterSeries;
  auto* upper = new QLineSeries;
  auto* lower = new QLineSeries;
  double reach = 0;
  qint64 first = checks.back().weighed_at.utc_ms, last = checks.front().weighed_at.utc_ms;
  for (auto one = checks.rbegin(); one != checks.rend(); ++one) {
    const double x = double(one->weighed_at.utc_ms), off = micrograms(one->deviation()), limit = micrograms(one->allowed.mass());
    (one->failed() ? failed : passed)->append(x, off);
    upper->append(x, limit);
    lower->append(x, -limit);
    reach = std::max({reach, std::abs(off), limit});
  }
  constexpr qint64 half_day = 12 * 3600 * 1000;
  first -= half_day;
  last += half_day;
  for (QLineSeries* limit : {upper, lower}) {  // out to both edges
    limit->insert(0, QPointF(double(first), limit->at(0).y()));
    limit->append(double(last), limit->at(limit->count() - 1).y());
    limit->setPen(QPen(inks().signal, 1, Qt::DashLine));
  }
  passed->setMarkerSize(9);
  passed->setColor(inks().accent);
  failed->setMarkerShape(QScatterSeries::MarkerShapeRectangle);  // told by its form as well
  failed->setMarkerSize(11);
  failed->setColor(inks().signal);
  auto* time = new QDateTimeAxis;
  time->setFormat(QStringLiteral("d MMM"));
  time->setRange(QDateTime::fromMSecsSinceEpoch(first), QDateTime::fromMSecsSinceEpoch(last));
  time->setTickCount(4);
  auto* deviation = new QValueAxis;
  deviation->setRange(-1.2 * reach, 1.2 * reach);
  deviation->setTitleText(tr("deviation, µg"));
  for (QAbstractAxis* axis : {static_cast<QAbstractAxis*>(time), static_cast<QAbstractAxis*>(deviation)}) {
    axis->setLabelsFont(face(TextSize::small));
    axis->setTitleFont(face(TextSize::small));
    axis->setLabelsColor(inks().quiet);
    axis->setTitleBrush(inks().quiet);
    axis->setGridLineColor(inks().rule);
  }
  chart_->addAxis(time, Qt::AlignBottom);
  chart_->addAxis(deviation, Qt::AlignLeft);
  for (QXYSeries* series : {static_cast<QXYSeries*>(upper), static_cast<QXYSeries*>(lower), static_cast<QXYSeries*>(passed),
                            static_cast<QXYSeries*>(failed)}) {
    chart_->addSeries(series);
    series->attachAxis(time);
    series->attachAxis(deviation);
  }
}

}  // namespace prillbook::ui
