// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/columns.h"

#include <array>

#include "core/summary/lines.h"

namespace prillbook::exchange {
namespace {

using summary::Figure;
using summary::ResultLine;

constexpr std::array columns{
    SummaryColumn{"sample"},
    SummaryColumn{"mark"},
    SummaryColumn{"client"},
    SummaryColumn{"test"},
    SummaryColumn{"kind"},
    SummaryColumn{"state"},
    SummaryColumn{"reason"},
    SummaryColumn{"charges_in_mean", true},
    SummaryColumn{"portion_g", true},
    SummaryColumn{"bead_mg", true},
    SummaryColumn{"fineness_permil", true},
    SummaryColumn{"fineness_method"},
    SummaryColumn{"gold_g_t", true},
    SummaryColumn{"gold_g_t_lo", true},
    SummaryColumn{"gold_g_t_hi", true},
    SummaryColumn{"gold_ozt_st", true},
    SummaryColumn{"gold_ozt_st_lo", true},
    SummaryColumn{"gold_ozt_st_hi", true},
    SummaryColumn{"silver_g_t", true},
    SummaryColumn{"silver_g_t_lo", true},
    SummaryColumn{"silver_g_t_hi", true},
    SummaryColumn{"silver_ozt_st", true},
    SummaryColumn{"silver_ozt_st_lo", true},
    SummaryColumn{"silver_ozt_st_hi", true},
    SummaryColumn{"silver_remark"},
    SummaryColumn{"recovery_pct", true},
    SummaryColumn{"recovery_pct_lo", true},
    SummaryColumn{"recovery_pct_hi", true},
    SummaryColumn{"gap_g_t", true},
    SummaryColumn{"gap_g_t_lo", true},
    SummaryColumn{"gap_g_t_hi", true},
    SummaryColumn{"verdict"},
    SummaryColumn{"verdict_basis"},
    SummaryColumn{"calculated_head_g_t", true},
    SummaryColumn{"closure_pct", true},
    SummaryColumn{"size"},
    SummaryColumn{"p80_um", true},
    SummaryColumn{"p50_um", true},
    SummaryColumn{"sieve_loss_pct", true},
    SummaryColumn{"load_held"},
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

std::string title_of(const SummaryColumn& column, const summary::Speech& say) { return say.named("column", column.name); }

std::vector<std::string> summary_cells(const ResultLine& line, const summary::Speech& say) {
  Cells cells;
  const auto code = [&](std::string_view name) { cells.add(say.named("code", name)); };
  for (const std::string* text : {&line.sample, &line.mark, &line.client, &line.test}) cells.add(*text);
  code(kind_name(line.kind));
  code(line.state);
  cells.add(line.reason);
  cells.add(line.valid > 0 ? std::to_string(line.valid) : "");
  cells.value(line.portion);
  cells.value(line.bead);
  cells.value(line.fineness);
  code(line.fineness_method);
  for (const auto* figure : {&line.gold, &line.gold_oz, &line.silver, &line.silver_oz}) cells.interval(*figure);
  cells.add(line.silver_words);
  cells.interval(line.recovery);
  cells.interval(line.gap);
  code(line.verdict);
  code(line.basis);
  cells.value(line.head);
  cells.value(line.closure);
  cells.add(line.size);
  for (const auto* figure : {&line.p80, &line.p50, &line.sieve_loss}) cells.value(*figure);
  cells.add(line.held);
  return std::move(cells.texts);
}

}  // namespace prillbook::exchange
