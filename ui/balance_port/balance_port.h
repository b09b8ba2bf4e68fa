// SPDX-License-Identifier: GPL-3.0-or-later
// A balance on a serial port: what it sends becomes figures, one a line. The port is opened again when it comes back.
#pragma once

#include <QtCore/QObject>
#include <QtCore/QString>

#include "core/balance_line/balance_line.h"

class QSerialPort;
class QTimer;

namespace prillbook::ui {

// Kept with the user's settings, never in the notebook: the port belongs to the machine.
struct PortSettings {
  QString port;  // "ttyUSB0" or a path; empty: no balance sends anything
  int speed = 9600;
  int data_bits = 8;
  QString parity = QStringLiteral("none");  // none, even, odd
  QString layout;                           // name of a layout; empty: the first
  // When the balance sends, and who takes the figure: "print" at its print key; "key" all the time, Enter takes what stands
  // still; "itself" all the time, what stands still is taken.
  QString sends = QStringLiteral("print");

  friend bool operator==(const PortSettings&, const PortSettings&) = default;
};
PortSettings kept_port_settings();
void keep_port_settings(const PortSettings& settings);

class BalancePort : public QObject {
  Q_OBJECT
 public:
  explicit BalancePort(QObject* parent = nullptr);
  // Closes what is open. Without a port: nothing is listened to.
  void use(const PortSettings& settings);
  const PortSettings& settings() const { return settings_; }
  bool is_open() const;
  QString state_words() const;  // "listening to ttyUSB0", "ttyUSB0 is not there: tried again"; empty without a port

 signals:
  // A line that was understood; `raw` is the line as it is kept with a reading.
  void figure_sent(const prillbook::balance_line::Figure& figure, const QString& raw);
  void line_refused(const QString& raw, const prillbook::Error& why);
  void state_changed();

 private:
  void open();
  void read();
  void lost();

  PortSettings settings_;
  const balance_line::Layout* layout_;
  QSerialPort* port_;
  QTimer* again_;
  balance_line::Assembler lines_;
};

}  // namespace prillbook::ui
