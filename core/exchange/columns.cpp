// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/columns.h"

#include <array>

#include "core/summary/lines.h"

namespace prillbook::exchange {
namespace {

using summary::Figure;
using summary::ResultLine;

constexpr std::array columns{
    SummaryColumn{"sample", "Sample"},
    SummaryColumn{"mark", "Client's mark"},
    SummaryColumn{"client", "Client"},
    SummaryColumn{"test", "Test"},
    SummaryColumn{"kind", "Kind"},
    SummaryColumn{"state", "State"},
    SummaryColumn{"reason", "Reason"},
    SummaryColumn{"charges_in_mean", "Charges in the mean", true},
    SummaryColumn{"portion_g", "Portion, g", true},
    SummaryColumn{"bead_mg", "Bead, mg", true},
    SummaryColumn{"fineness_permil", "Fineness, ‰", true},
    SummaryColumn{"fineness_method", "Fineness got by"},
    SummaryColumn{"gold_g_t", "Gold, g/t", true},
    SummaryColumn{"gold_g_t_lo", "Gold, g/t, low end (95 %)", true},
    SummaryColumn{"gold_g_t_hi", "Gold, g/t, high end (95 %)", true},
    SummaryColumn{"gold_ozt_st", "Gold, troy oz/short ton", true},
    SummaryColumn{"gold_ozt_st_lo", "Gold, troy oz/short ton, low end (95 %)", true},
    SummaryColumn{"gold_ozt_st_hi", "Gold, troy oz/short ton, high end (95 %)", true},
    SummaryColumn{"silver_g_t", "Silver by difference, g/t", true},
    SummaryColumn{"silver_g_t_lo", "Silver, g/t, low end (95 %)", true},
    SummaryColumn{"silver_g_t_hi", "Silver, g/t, high end (95 %)", true},
    SummaryColumn{"silver_ozt_st", "Silver by difference, troy oz/short ton", true},
    SummaryColumn{"silver_ozt_st_lo", "Silver, troy oz/short ton, low end (95 %)", true},
    SummaryColumn{"silver_ozt_st_hi", "Silver, troy oz/short ton, high end (95 %)", true},
    SummaryColumn{"silver_remark", "Silver, remark"},
    SummaryColumn{"recovery_pct", "Pan recovery, % of fire", true},
    SummaryColumn{"recovery_pct_lo", "Pan recovery, %, low end (95 %)", true},
    SummaryColumn{"recovery_pct_hi", "Pan recovery, %, high end (95 %)", true},
    SummaryColumn{"gap_g_t", "Fire less pan, g/t", true},
    SummaryColumn{"gap_g_t_lo", "Fire less pan, g/t, low end (95 %)", true},
    SummaryColumn{"gap_g_t_hi", "Fire less pan, g/t, high end (95 %)", true},
    SummaryColumn{"verdict", "Verdict"},
    SummaryColumn{"verdict_basis", "Verdict rests on"},
    SummaryColumn{"calculated_head_g_t", "Calculated head, g/t", true},
    SummaryColumn{"closure_pct", "Closure, %", true},
    SummaryColumn{"size", "Sieve size"},
    SummaryColumn{"p80_um", "P80, µm", true},
    SummaryColumn{"p50_um", "P50, µm", true},
    SummaryColumn{"sieve_loss_pct", "Lost in sieving, %", true},
    SummaryColumn{"load_held", "Furnace load held"},
};

struct Cells {
  std::vector<std::string> texts;

  void add(std::string text) { texts.push_back(std::move(text)); }
  void value(const std::optional<Figure>& figure) { add(figure ? figure->digits : ""); }
  void interval(const std::optional<Figure>& figure) {
    value(figure);
    add(figure ? figure->lo_digits : "");
    add(figure ? figure->hi_digits : "");
  }
};

}  // namespace

std::span<const SummaryColumn> summary_columns() { return columns; }

std::vector<std::string> summary_cells(const ResultLine& line) {
  Cells cells;
  for (const std::string* text : {&line.sample, &line.mark, &line.client, &line.test}) cells.add(*text);
  cells.add(std::string(kind_name(line.kind)));
  cells.add(line.state);
  cells.add(line.reason);
  cells.add(line.valid > 0 ? std::to_string(line.valid) : "");
  cells.value(line.portion);
  cells.value(line.bead);
  cells.value(line.fineness);
  cells.add(line.fineness_method);
  for (const auto* figure : {&line.gold, &line.gold_oz, &line.silver, &line.silver_oz}) cells.interval(*figure);
  cells.add(line.silver_words);
  cells.interval(line.recovery);
  cells.interval(line.gap);
  cells.add(line.verdict);
  cells.add(line.basis);
  cells.value(line.head);
  cells.value(line.closure);
  cells.add(line.size);
  for (const auto* figure : {&line.p80, &line.p50, &line.sieve_loss}) cells.value(*figure);
  cells.add(line.held);
  return std::move(cells.texts);
}

}  // namespace prillbook::exchange
