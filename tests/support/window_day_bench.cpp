// SPDX-License-Identifier: GPL-3.0-or-later
// The scenes of the day at the bench: from the bag at the counter to the bead on the balance.
#include <QtCore/QRegularExpression>

#include "tests/support/window_day.h"
#include "tests/support/window_hand.h"
#include "tests/support/window_sight.h"

namespace prillbook::testing_support {

bool WindowDay::first_steps() {
  if (window_.current() || !in_sight_with(window_, "Name of the lab")) return true;
  if (!enter("Name of the lab", words("Bench"), "setting.value")) return false;
  if (!enter("Initials", "HM", "person.initials")) return false;
  if (!enter("Balance", words("bead balance"), "balance.name")) return false;
  if (!enter("Step", "0.0001", "balance.step")) return false;
  return enter("Client", words("Syndicate"), "client.name");
}

bool WindowDay::receiving() {
  if (!bring_in()) return false;
  if (!enter("Mass declared", figure("4,1"), "sample.mass_declared")) return false;
  if (!enter("Mass received", figure("4,0"), "sample.mass_received")) return false;
  if (!enter("Mass received", figure("4,1"), "sample.mass_received")) return false;  // a slip, mended
  return enter("Place taken", words("north drive"), "sample.place");
}

bool WindowDay::bring_in() {
  press(Qt::Key_1, Qt::ControlModifier);
  press_button(window_, "New consignment");
  client_ = words("Claim");
  if (!enter("Client", client_, "client.name")) return false;
  if (!enter("Carrier", words("post"), "consignment.carrier")) return false;
  if (!enter("Client's mark", words("Adit"), "sample.mark")) return false;
  static const QRegularExpression number("\\d\\d-\\d{4}");
  standing_.sample = number.match(written()).captured();
  return choose("Condition on receipt", 't', {"sample.condition", "torn"});
}

bool WindowDay::preparation() {
  press(Qt::Key_2, Qt::ControlModifier);
  auto* list = window_.current()->findChild<ui::WaitingList*>();
  list->setFocus();
  press(Qt::Key_End);
  press(Qt::Key_Return);
  auto* kind = in_sight_with<ui::ChoiceField>(window_, "Next step");
  if (!kind || !kind->isEnabled()) return true;
  kind->editor()->setFocus();
  press(Qt::Key_C);
  const QString in = figure("0.5") + " kg", out = figure("0.49") + " kg";
  fill("Mass in", in);
  fill("Mass out", out);
  return push("Write the step", {{"step", ""}, {"step.mass_in", in.toStdString()}, {"step.mass_out", out.toStdString()}});
}

bool WindowDay::sheet() {
  if (!go_to_sheet(standing_.sample) || !cut('p', "500")) return false;
  if (!push("Pan it", {{"pan_test", ""}, {"bead", ""}})) return false;
  const QString bead = figure("0.6");
  half_type_first("Bead", bead);
  if (!enter("Bead", bead, "weighing.mass")) return false;
  if (!enter("Weigh again", figure("0.6"), "weighing.mass")) return false;
  if (!enter("Grind, P80", figure("180"), "pan_test.grind")) return false;
  if (!enter("Colours counted", words("7 fine"), "pan_test.colours")) return false;
  if (!enter("Tail", figure("455"), "portion.mass")) return false;
  if (!take_back(Qt::ControlModifier, {"portion.struck", "1"})) return false;
  if (!take_back(Qt::ControlModifier | Qt::ShiftModifier, {"portion.struck", "0"})) return false;
  auto* explain = button(window_, "Explain");
  if (!explain) return true;
  explain->click();
  return enter("What explains it", words("torn at the counter"), "answer.explanation");
}

bool WindowDay::pan_a_bead() {
  if (!go_to_sheet(standing_.sample) || !cut('p', figure("500"))) return false;
  if (!push("Pan it", {{"pan_test", ""}, {"bead", ""}})) return false;
  return enter("Bead", figure("0.6"), "weighing.mass");
}

bool WindowDay::pan() {
  if (!go_to_sheet(standing_.sample) || !cut('p', figure("100"))) return false;
  press(Qt::Key_3, Qt::ControlModifier);
  if (button(window_, "Begin the pan test")) {
    if (!push("Begin the pan test", {{"pan_test", ""}, {"panning", ""}})) return false;
  }
  if (!enter("Grind, P80", figure("150"), "pan_test.grind")) return false;
  if (!enter("above 1 mm", QString::number(standing_.texts % 900), "pan_test.colours_coarse")) return false;
  if (!enter("Magnetite pulled", figure("1,2"), "pan_test.magnetite")) return false;
  return enter("Remarks", words("no flour gold"), "pan_test.remarks");
}

bool WindowDay::furnace() {
  if (!go_to_sheet(standing_.sample) || !cut('f', figure("30"))) return false;
  if (!push("Put it in a crucible", {{"charge", ""}, {"bead", ""}})) return false;
  const QString lead = figure("28");
  half_type_first("Lead button", lead);
  if (!enter("Lead button", lead, "charge.button")) return false;
  press(Qt::Key_4, Qt::ControlModifier);
  if (in_sight_with(window_, "Litharge")) {
    if (!enter("Litharge", figure("80"), "charge.litharge")) return false;
    if (!enter("Soda ash", figure("30"), "charge.soda_ash")) return false;
  }
  if (!push("Begin a cupellation", {{"furnace_run", ""}})) return false;
  for (const int read : {930, 955})
    if (!enter("Read now, °C", QString::number(read + standing_.texts % 20), "run_reading.read_c")) return false;
  return true;
}

bool WindowDay::sieves() {
  if (!go_to_sheet(standing_.sample) || !cut('s', figure("100"))) return false;
  press(Qt::Key_5, Qt::ControlModifier);
  if (in_sight_with(window_, "Stack") && !enter("Stack", "40, 60, 100 ASTM", "sieve_analysis")) return false;
  for (const auto& [label, mass] : {std::pair("On 425 µm", "10"), std::pair("On 250 µm", "29"), std::pair("In the pan", "28")})
    if (!enter(label, figure(mass), "sieve_cut.retained")) return false;
  return true;
}

bool WindowDay::weigh_room() {
  if (!go_to_sheet(standing_.sample) || !cut('p', figure("100"))) return false;
  if (!push("Pan it", {{"pan_test", ""}, {"bead", ""}})) return false;
  prepared_();
  press(Qt::Key_6, Qt::ControlModifier);
  for (int beads = 0; beads < 3; ++beads) {
    if (auto* line = line_in_hand(); !line || !line->typed().isEmpty()) return true;
    if (!enter_in_hand(figure("0.5"), "weighing.mass")) return false;
  }
  return true;
}

bool WindowDay::quality() {
  press(Qt::Key_9, Qt::ControlModifier);
  if (!enter("Rock blank, one in", QString::number(20 + standing_.texts % 900), "setting.value")) return false;
  const QString name = words("barren quartz");
  fill("Name on its label", name);
  return choose("It is", 'b', {"control_material.name", name.toStdString()});
}

bool WindowDay::set_up() {
  if (!part_of_set_up("The lab")) return false;
  if (!enter("Telephone or e-mail", words("by the ford"), "setting.value")) return false;
  return enter("Address", words("Quarry lane"), "setting.value");
}

}  // namespace prillbook::testing_support
