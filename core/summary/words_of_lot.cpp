// SPDX-License-Identifier: GPL-3.0-or-later
// The account of a lot that was milled for its owner, as lines of a table and plain sentences.
#include "core/summary/words_of_lot.h"

#include "core/assay/rounding.h"

namespace prillbook::summary {
namespace {

using milling::LotAccount;
using milling::Measured;
using milling::MillingLot;

Figure amount(const Measured& of, std::string_view unit, const Speech& say) {
  if (of.u > 0) return figure(of.value, of.lo(), of.hi(), unit, {}, say);
  return of.value == 0 ? limit({}, unit, say) : figure(of.value, {}, {}, unit, {}, say);
}

Figure gold_in_grams(const Measured& of, const Speech& say) { return amount(of, unit::gram.symbol, say); }

Cell read_cell(const readings::Figure& read, const Speech& say) { return read ? as_typed(*read, say) : std::string(); }

std::optional<Measured> share_of(const std::optional<Measured>& part, const LotAccount& account) {
  if (!part || !account.head || !(account.head->value > 0)) return std::nullopt;
  return Measured{100 * part->value / account.head->value, 0};
}

// What, its mass, its grade, its gold, its share of the head.
TableRow row(std::string what, Cell mass, Cell grade, const std::optional<Measured>& gold, const LotAccount& account,
             const Speech& say) {
  std::vector<Figure> figures, shares;
  if (gold) figures.push_back(gold_in_grams(*gold, say));
  if (const auto share = share_of(gold, account)) shares.push_back(figure(share->value, {}, {}, unit::percent.symbol, 0.1, say));
  return {{std::move(what), std::move(mass), std::move(grade), std::move(figures), std::move(shares)}, "", false, false};
}

std::string in_kilograms(const Mass& mass, const Speech& say) {
  const auto words = portions::in_words(mass);
  return marked(words.number, say) + " " + std::string(words.unit);
}

Cell head_grade(const MillingLot& lot, const LotAccount& account, const Speech& say) {
  if (!account.head_by_fire) return read_cell(lot.head, say);
  return std::vector<Figure>{amount(*account.head_g_t, unit::gram_per_tonne.symbol, say)};
}

void add_missing(Sentences& out, const MillingLot& lot, const LotAccount& account, const Speech& say) {
  if (account.accounted) return;
  std::string missing;
  const auto miss = [&](bool there, std::string what) {
    if (!there) missing += (missing.empty() ? "" : ", ") + what;
  };
  miss(lot.mass.has_value(), say("lot.needs_mass"));
  miss(account.head_g_t.has_value(), say("lot.needs_head"));
  miss(account.bullion.has_value(), say("lot.needs_bullion"));
  miss(lot.tail_gold.has_value(), say("lot.needs_tail"));
  miss(!account.concentrate_open, say("lot.needs_concentrate"));
  out.push_back(say("lot.waits", {{"what", missing}}));
}

}  // namespace

Result<LotAccount> lot_account(const SummarySample& sample) {
  std::optional<Measured> fire;
  if (const auto& mean = sample.result.fire.gold.mean)
    fire = Measured{mean->value.in(unit::gram_per_tonne), combined_u(mean->parts)};
  return milling::account_of(*sample.lot, fire);
}

Table lot_table(const MillingLot& lot, const LotAccount& account, const Speech& say) {
  Table table{
      {{say("lot.what"), false}, {say("lot.mass"), false}, {say("lot.grade"), false}, {say("table.gold")}, {say("lot.of_head")}},
      {}};
  const auto add = [&](std::string what, Cell mass, Cell grade, const std::optional<Measured>& gold, bool stands_out = false) {
    table.rows.push_back(row(std::move(what), std::move(mass), std::move(grade), gold, account, say));
    table.rows.back().mean = stands_out;
  };
  add(say("lot.head"), account.dry ? Cell(in_kilograms(*account.dry, say)) : Cell(std::string()), head_grade(lot, account, say),
      account.head);
  if (lot.bullion) add(say("lot.bullion"), read_cell(lot.bullion, say), read_cell(lot.bullion_fineness, say), account.bullion);
  if (lot.concentrate)
    add(say("lot.concentrate"), read_cell(lot.concentrate, say), read_cell(lot.concentrate_gold, say), account.concentrate);
  if (lot.tail_gold)
    add(say("lot.tail"), account.tail ? Cell(in_kilograms(*account.tail, say)) : Cell(std::string()),
        read_cell(lot.tail_gold, say), account.tail_gold);
  if (account.accounted) add(say("lot.accounted"), std::string(), std::string(), account.accounted, true);
  if (account.unaccounted) add(say("lot.unaccounted"), std::string(), std::string(), account.unaccounted);
  return table;
}

Sentences lot_words(const MillingLot& lot, const LotAccount& account, const Speech& say) {
  Sentences out;
  if (lot.mass) {
    const wording::Named when{"when", lot.milled_at ? say("lot.when", {{"date", local_date(*lot.milled_at)}}) : ""};
    const wording::Named mass{"mass", as_typed(*lot.mass, say)};
    out.push_back(lot.moisture
                      ? say("lot.milled_moist",
                            {mass, when, {"moisture", as_typed(*lot.moisture, say)}, {"dry", in_kilograms(*account.dry, say)}})
                      : say("lot.milled", {mass, when}));
  }
  if (account.accounted_pct)
    out.push_back(say("lot.share", {{"share", with_unit(amount(*account.accounted_pct, unit::percent.symbol, say))}}));
  add_missing(out, lot, account, say);
  if (lot.sponge && lot.bullion)
    out.push_back(say("lot.melted", {{"sponge", as_typed(*lot.sponge, say)}, {"bullion", as_typed(*lot.bullion, say)}}));
  if (account.owner)
    out.push_back(say("lot.split", {{"gold", with_unit(gold_in_grams(*account.bullion, say))},
                                    {"owner", with_unit(gold_in_grams(*account.owner, say))},
                                    {"percent", as_typed(*lot.owner_share, say)},
                                    {"mill", with_unit(gold_in_grams(*account.mill, say))}}));
  if (lot.agreement) out.push_back(say("lot.agreed", {{"words", *lot.agreement}}));
  if (lot.remarks) out.push_back(*lot.remarks);
  return out;
}

}  // namespace prillbook::summary
