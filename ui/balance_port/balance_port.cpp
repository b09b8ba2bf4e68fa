// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/balance_port/balance_port.h"

#include <QtCore/QSettings>
#include <QtCore/QTimer>
#include <QtSerialPort/QSerialPort>

namespace prillbook::ui {
namespace {

constexpr int try_again_ms = 1500;

class KeptPort : public QSettings {
 public:
  KeptPort() : QSettings(IniFormat, UserScope, QStringLiteral("prillbook"), QStringLiteral("window")) {
    beginGroup(QStringLiteral("balance_port"));
  }
};

QSerialPort::Parity parity_of(const QString& word) {
  if (word == QLatin1String("even")) return QSerialPort::EvenParity;
  return word == QLatin1String("odd") ? QSerialPort::OddParity : QSerialPort::NoParity;
}

}  // namespace

PortSettings kept_port_settings() {
  const KeptPort kept;
  PortSettings settings;
  settings.port = kept.value(QStringLiteral("port")).toString();
  settings.speed = kept.value(QStringLiteral("speed"), settings.speed).toInt();
  settings.data_bits = kept.value(QStringLiteral("data_bits"), settings.data_bits).toInt();
  settings.parity = kept.value(QStringLiteral("parity"), settings.parity).toString();
  settings.layout = kept.value(QStringLiteral("layout")).toString();
  settings.sends = kept.value(QStringLiteral("sends"), settings.sends).toString();
  return settings;
}

void keep_port_settings(const PortSettings& settings) {
  KeptPort kept;
  kept.setValue(QStringLiteral("port"), settings.port);
  kept.setValue(QStringLiteral("speed"), settings.speed);
  kept.setValue(QStringLiteral("data_bits"), settings.data_bits);
  kept.setValue(QStringLiteral("parity"), settings.parity);
  kept.setValue(QStringLiteral("layout"), settings.layout);
  kept.setValue(QStringLiteral("sends"), settings.sends);
}

BalancePort::BalancePort(QObject* parent)
    : QObject(parent), layout_(&balance_line::layouts().front()), port_(new QSerialPort(this)), again_(new QTimer(this)) {
  again_->setSingleShot(true);
  again_->setInterval(try_again_ms);
  connect(again_, &QTimer::timeout, this, &BalancePort::open);
  connect(port_, &QSerialPort::readyRead, this, &BalancePort::read);
  connect(port_, &QSerialPort::errorOccurred, this, [this](QSerialPort::SerialPortError error) {
    if (port_->isOpen() && (error == QSerialPort::ResourceError || error == QSerialPort::ReadError)) lost();
  });
}

void BalancePort::use(const PortSettings& settings) {
  again_->stop();
  if (port_->isOpen()) port_->close();
  lines_.forget();
  settings_ = settings;
  const auto* named = balance_line::find_layout(settings.layout.toStdString());
  layout_ = named ? named : &balance_line::layouts().front();
  open();
}

bool BalancePort::is_open() const { return port_->isOpen(); }

QString BalancePort::state_words() const {
  if (settings_.port.isEmpty()) return {};
  if (is_open()) return tr("listening to %1").arg(settings_.port);
  return tr("%1 is not there; it is tried again").arg(settings_.port);
}

void BalancePort::open() {
  if (!settings_.port.isEmpty()) {
    port_->setPortName(settings_.port);
    port_->setBaudRate(settings_.speed);
    port_->setDataBits(settings_.data_bits == 7 ? QSerialPort::Data7 : QSerialPort::Data8);
    port_->setParity(parity_of(settings_.parity));
    if (!port_->open(QIODevice::ReadOnly)) again_->start();
  }
  emit state_changed();
}

void BalancePort::read() {
  const QByteArray bytes = port_->readAll();
  for (const std::string& line : lines_.feed({bytes.constData(), std::size_t(bytes.size())})) {
    const QString raw = QString::fromStdString(balance_line::readable(line));
    const auto figure = balance_line::read_line(line, *layout_);
    if (figure.ok())
      emit figure_sent(*figure, raw);
    else
      emit line_refused(raw, figure.error());
  }
}

// The plug was drawn: half a line is no line, and the port is tried again until it is back.
void BalancePort::lost() {
  port_->close();
  lines_.forget();
  again_->start();
  emit state_changed();
}

}  // namespace prillbook::ui
