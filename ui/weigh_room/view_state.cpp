// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/weigh_room/view_state.h"

#include <QtCore/QSettings>

namespace prillbook::ui::view_state {
namespace {

class Kept : public QSettings {
 public:
  Kept() : QSettings(IniFormat, UserScope, QStringLiteral("prillbook"), QStringLiteral("window")) {
    beginGroup(QStringLiteral("weigh_room"));
  }
};

}  // namespace

std::string unit() { return Kept().value(QStringLiteral("unit")).toString() == QStringLiteral("g") ? "g" : "mg"; }
void keep_unit(const std::string& unit) { Kept().setValue(QStringLiteral("unit"), QString::fromStdString(unit)); }

bool large() { return Kept().value(QStringLiteral("large")).toBool(); }
void keep_large(bool large) { Kept().setValue(QStringLiteral("large"), large); }

QString balance() { return Kept().value(QStringLiteral("balance")).toString(); }
void keep_balance(const QString& name) { Kept().setValue(QStringLiteral("balance"), name); }

}  // namespace prillbook::ui::view_state
