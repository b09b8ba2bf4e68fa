// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/milling/lot_account.h"

#include <cmath>

#include "core/readings/last_place.h"
#include "core/units/units.h"

namespace prillbook::milling {
namespace {

// In the base unit of the measure.
std::optional<Measured> measured_of(const readings::Figure& figure) {
  if (!figure) return std::nullopt;
  const double root_12 = std::sqrt(12.0);
  switch (figure->state) {
    case readings::State::none_seen: return Measured{0, 0};
    case readings::State::below_detection: return Measured{figure->value / 2, figure->value / root_12};
    case readings::State::measured: break;
  }
  return Measured{figure->value, readings::last_place(*figure).value_or(0) / root_12};
}

Measured product(const Measured& a, const Measured& b, double scale) {
  return {a.value * b.value * scale, std::hypot(a.u * b.value, b.u * a.value) * scale};
}

Measured difference(const Measured& a, const Measured& b) { return {a.value - b.value, std::hypot(a.u, b.u)}; }

Measured sum(const Measured& a, const Measured& b) { return {a.value + b.value, std::hypot(a.u, b.u)}; }

Measured ratio_pct(const Measured& part, const Measured& whole) {
  const double share = part.value / whole.value;
  return {100 * share, 100 * std::hypot(part.u / whole.value, share * whole.u / whole.value)};
}

std::optional<Measured> dry_mass(const MillingLot& lot) {
  const auto wet = measured_of(lot.mass);
  if (!wet) return std::nullopt;
  const Measured water = measured_of(lot.moisture).value_or(Measured{});
  return product(*wet, {100 - water.value, water.u}, 0.01);
}

constexpr double g_of_g_at_g_t = 1e-6;  // grams of metal in one gram of rock at 1 g/t

void split(const MillingLot& lot, LotAccount& account) {
  const auto share = measured_of(lot.owner_share);
  if (!share || !account.bullion) return;
  account.owner = product(*account.bullion, *share, 0.01);
  account.mill = product(*account.bullion, {100 - share->value, share->u}, 0.01);
}

void balance(LotAccount& account) {
  if (!account.head || !account.bullion || !account.tail_gold || account.concentrate_open) return;
  account.accounted = sum(sum(*account.bullion, account.concentrate.value_or(Measured{})), *account.tail_gold);
  account.unaccounted = difference(*account.head, *account.accounted);
  if (account.head->value > 0) account.accounted_pct = ratio_pct(*account.accounted, *account.head);
}

}  // namespace

Result<LotAccount> account_of(const MillingLot& lot, const std::optional<Measured>& fire) {
  LotAccount account;
  const auto dry = dry_mass(lot);
  const auto concentrate = measured_of(lot.concentrate);
  account.head_by_fire = !lot.head && fire;
  account.head_g_t = lot.head ? measured_of(lot.head) : fire;
  if (const auto fineness = measured_of(lot.bullion_fineness), bullion = measured_of(lot.bullion); fineness && bullion)
    account.bullion = product(*bullion, *fineness, 0.001);
  if (const auto grade = measured_of(lot.concentrate_gold); grade && concentrate)
    account.concentrate = product(*concentrate, *grade, g_of_g_at_g_t);
  account.concentrate_open = concentrate && concentrate->value > 0 && !account.concentrate;
  split(lot, account);
  if (!dry) return account;
  const Measured tail = difference(*dry, concentrate.value_or(Measured{}));
  if (tail.value < 0)
    return refusal(ErrorCode::inconsistent, "milling_lot.concentrate", "the concentrate is heavier than what was milled");
  account.dry = Mass(dry->value, unit::gram);
  account.tail = Mass(tail.value, unit::gram);
  if (account.head_g_t) account.head = product(*dry, *account.head_g_t, g_of_g_at_g_t);
  if (const auto grade = measured_of(lot.tail_gold)) account.tail_gold = product(tail, *grade, g_of_g_at_g_t);
  balance(account);
  return account;
}

}  // namespace prillbook::milling
