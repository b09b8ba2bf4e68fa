// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/preparation/step_balance.h"

#include <cmath>

namespace prillbook {

Result<StepBalance> balance_step(const Weighed& in, const std::vector<Weighed>& out, double limit_pct) {
  const auto sound = [](const Weighed& one) {
    const double mass = one.mass.in(unit::gram), step = one.step.in(unit::gram);
    return std::isfinite(mass) && mass >= 0 && std::isfinite(step) && step >= 0;
  };
  if (!sound(in) || in.mass == Mass{})
    return refusal(ErrorCode::out_of_range, "step.mass_in", "what went in weighs more than zero");
  if (out.empty()) return refusal(ErrorCode::too_small, "step.mass_out", "nothing that came out was weighed");
  StepBalance balance;
  balance.in = in.mass;
  double squares = std::pow(in.step.in(unit::gram), 2) / 12;
  for (const Weighed& one : out) {
    if (!sound(one)) return refusal(ErrorCode::out_of_range, "step.mass_out", "what came out does not weigh less than zero");
    balance.out += one.mass;
    squares += std::pow(one.step.in(unit::gram), 2) / 12;
  }
  balance.loss = balance.in - balance.out;
  balance.loss_pct = 100 * (balance.loss / balance.in);
  balance.u = Mass(std::sqrt(squares), unit::gram);
  const double size_g = std::abs(balance.loss.in(unit::gram));
  balance.beyond = std::abs(balance.loss_pct) > limit_pct && size_g > 2 * balance.u.in(unit::gram);
  return balance;
}

}  // namespace prillbook
