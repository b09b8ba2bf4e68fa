// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/quality/words.h"

#include <QtCore/QCoreApplication>
#include <QtCore/QStringList>

#include "ui/kit/sentences.h"

namespace prillbook::ui {
namespace {

QString quality_word(const char* text) { return QCoreApplication::translate("Quality", text); }

}  // namespace

QString role_word(controls::Role role) { return quality_word(std::string(controls::role_in_words(role)).c_str()); }

QString kind_word(const std::string& material_kind) { return role_word(controls::role_named(material_kind)); }

QString verdict_word(results::ControlVerdict verdict) {
  switch (verdict) {
    case results::ControlVerdict::waiting: return quality_word("no figure yet");
    case results::ControlVerdict::within: return quality_word("within");
    case results::ControlVerdict::warning: return quality_word("warning");
    case results::ControlVerdict::outside: return quality_word("outside");
    case results::ControlVerdict::not_judged: return quality_word("not judged");
  }
  return {};
}

QString standing_word(const results::RunControls& run) {
  if (run.changed_since) return quality_word("its controls have changed since it was accepted");
  switch (run.standing) {
    case results::RunStanding::no_controls: return quality_word("no control in it");
    case results::RunStanding::waiting: return quality_word("waits for its controls");
    case results::RunStanding::within: return quality_word("controls within");
    case results::RunStanding::outside: return quality_word("outside, to be decided");
    case results::RunStanding::accepted: return quality_word("accepted");
    case results::RunStanding::held: return quality_word("held");
    case results::RunStanding::repeated: return quality_word("repeated");
  }
  return {};
}

QString control_line(const results::ControlResult& control) {
  QStringList verdict{verdict_word(control.verdict)};
  for (const results::ChartSignal& alarm : control.alarms) verdict << to_qt(alarm.rule);
  QStringList parts{verdict.join(QStringLiteral(", "))};
  if (!control.found.empty()) parts << to_qt(control.found);
  if (!control.allowed.empty()) parts << quality_word("allowed: %1").arg(to_qt(control.allowed));
  return parts.join(QStringLiteral(" · "));
}

}  // namespace prillbook::ui
