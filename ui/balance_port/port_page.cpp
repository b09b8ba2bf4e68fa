// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/balance_port/port_page.h"

#include <QtSerialPort/QSerialPortInfo>
#include <QtWidgets/QHBoxLayout>
#include <QtWidgets/QLabel>
#include <QtWidgets/QVBoxLayout>
#include <algorithm>

#include "core/balance_line/steady.h"
#include "ui/kit/fields.h"
#include "ui/kit/sentences.h"
#include "ui/kit/theme.h"

namespace prillbook::ui {
namespace {

constexpr int speeds[] = {600, 1200, 2400, 4800, 9600, 19200, 38400, 57600, 115200};

QString ports_found() {
  QStringList names;
  for (const QSerialPortInfo& info : QSerialPortInfo::availablePorts()) names << info.portName();
  return names.isEmpty() ? PortPage::tr("this computer shows no serial port now")
                         : PortPage::tr("found here: %1").arg(names.join(PortPage::tr(", ")));
}

QLabel* words(TextSize size) {
  auto* label = new QLabel;
  label->setFont(face(size));
  label->setTextFormat(Qt::PlainText);
  label->setWordWrap(true);
  return label;
}

}  // namespace

PortPage::PortPage(QWidget* parent)
    : QWidget(parent),
      settings_(kept_port_settings()),
      port_(new BalancePort(this)),
      name_(new TextField(tr("Serial port"))),
      speed_(new PickField(tr("Speed, bits a second"))),
      bits_(new ChoiceField(tr("Data bits"), {{"7", tr("7")}, {"8", tr("8")}})),
      parity_(new ChoiceField(tr("Parity"), {{"none", tr("none")}, {"even", tr("even")}, {"odd", tr("odd")}})),
      layout_(new PickField(tr("A line is"))),
      sends_(new ChoiceField(tr("The balance sends"), {{"print", tr("at its print key")},
                                                       {"key", tr("all the time: Enter takes it")},
                                                       {"itself", tr("all the time: what is steady is taken")}})),
      state_(words(TextSize::body)),
      line_(words(TextSize::large)) {
  std::vector<PickField::Item> items;
  for (const int speed : speeds) items.push_back({speed, QString::number(speed)});
  speed_->set_items(std::move(items));
  std::vector<PickField::Item> kinds;
  for (std::size_t i = 0; i < balance_line::layouts().size(); ++i)
    kinds.push_back({std::int64_t(i) + 1, to_qt(balance_line::layouts()[i].name)});
  layout_->set_items(std::move(kinds));
  name_->on_commit([this](const std::optional<std::string>& name) -> Result<void> {
    settings_.port = name ? to_qt(*name) : QString();
    keep();
    return {};
  });
  speed_->on_commit([this](std::optional<std::int64_t> speed) -> Result<void> {
    settings_.speed = int(speed.value_or(PortSettings().speed));
    keep();
    return {};
  });
  bits_->on_commit([this](const std::optional<std::string>& bits) -> Result<void> {
    settings_.data_bits = bits == "7" ? 7 : 8;
    keep();
    return {};
  });
  parity_->on_commit([this](const std::optional<std::string>& parity) -> Result<void> {
    settings_.parity = to_qt(parity.value_or("none"));
    keep();
    return {};
  });
  layout_->on_commit([this](std::optional<std::int64_t> layout) -> Result<void> {
    settings_.layout = layout ? to_qt(balance_line::layouts()[std::size_t(*layout - 1)].name) : QString();
    keep();
    return {};
  });
  sends_->on_commit([this](const std::optional<std::string>& sends) -> Result<void> {
    settings_.sends = to_qt(sends.value_or("print"));
    keep();
    return {};
  });
  for (ChoiceField* field : {bits_, parity_, sends_}) field->set_required(true);
  name_->set_value(settings_.port.isEmpty() ? std::nullopt : std::optional(to_core(settings_.port)));
  speed_->set_value(settings_.speed);
  bits_->set_value(std::to_string(settings_.data_bits == 7 ? 7 : 8));
  parity_->set_value(to_core(settings_.parity));
  sends_->set_value(to_core(settings_.sends));
  const auto* chosen = balance_line::find_layout(to_core(settings_.layout));
  layout_->set_value(chosen ? chosen - balance_line::layouts().data() + 1 : 1);
  connect(port_, &BalancePort::state_changed, this, &PortPage::show_state);
  connect(port_, &BalancePort::figure_sent, this, [this](const balance_line::Figure& figure, const QString& raw) {
    const bool stable = figure.stability == balance_line::Stability::stable;
    line_->setText(stable ? tr("%1, understood as %2").arg(raw, to_qt(figure.typed))
                   : figure.stability == balance_line::Stability::moving ? tr("%1, still moving").arg(raw)
                                                                         : tr("%1, overload").arg(raw));
  });
  connect(port_, &BalancePort::line_refused, this,
          [this](const QString& raw, const Error&) { line_->setText(tr("%1, not understood").arg(raw)); });

  auto* row = new QHBoxLayout;
  row->setSpacing(4 * rhythm);
  row->addWidget(name_, 3);
  row->addWidget(speed_, 2);
  auto* second = new QHBoxLayout;
  second->setSpacing(4 * rhythm);
  second->addWidget(bits_, 1);
  second->addWidget(parity_, 2);
  auto* explain = words(TextSize::body);
  explain->setText(
      tr("Best is a balance that sends when its print key is pressed: the figure then stands in the field of the weigh room as "
         "if "
         "it had been typed, and one that still moves is not taken. One that sends all the time shows its figure beside the "
         "field; %1 equal lines are a reading, and it is taken once: the next only after the balance was seen empty. Press the "
         "print key now to see here what it sends. A balance that types like a keyboard needs none of this.")
          .arg(balance_line::SteadyReadings::lines_of_a_run));
  explain->setProperty("tone", "quiet");
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(2 * rhythm);
  column->addLayout(row);
  column->addLayout(second);
  column->addWidget(layout_);
  column->addWidget(sends_);
  column->addWidget(explain);
  column->addWidget(state_);
  column->addWidget(line_);
}

void PortPage::enter() { name_->setFocus(); }

void PortPage::keep() {
  keep_port_settings(settings_);
  line_->clear();
  port_->use(settings_);
}

void PortPage::show_state() {
  state_->setText(settings_.port.isEmpty() ? tr("No port: figures are typed.") : port_->state_words());
}

void PortPage::showEvent(QShowEvent* event) {
  QWidget::showEvent(event);
  name_->set_hint(ports_found());
  port_->use(settings_);
}

void PortPage::hideEvent(QHideEvent* event) {
  QWidget::hideEvent(event);
  port_->use({});
}

}  // namespace prillbook::ui
