// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/results/control_chart.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/quality/control.h"
#include "core/quality/nelson.h"
#include "core/quality/robust.h"
#include "core/results/statements.h"
#include "core/units/units.h"

namespace prillbook::results {
namespace {

std::string_view rule_words(ControlRule rule) {
  switch (rule) {
    case ControlRule::warning_1_2s: return "beyond 2 s: a warning";
    case ControlRule::reject_1_3s: return "beyond 3 s";
    case ControlRule::reject_2_2s: return "two running beyond the same 2 s";
    case ControlRule::reject_r_4s: return "two running more than 4 s apart";
    case ControlRule::reject_4_1s: return "four running beyond the same 1 s";
    case ControlRule::reject_10x: return "ten running on one side";
  }
  return "";
}

std::string_view rule_words(NelsonRule rule) {
  switch (rule) {
    case NelsonRule::beyond_3s: return "beyond 3 s";
    case NelsonRule::nine_one_side: return "nine running on one side";
    case NelsonRule::six_monotone: return "six running that rise or fall";
    case NelsonRule::fourteen_swinging: return "fourteen running up and down by turns";
    case NelsonRule::two_of_three_2s: return "two of three beyond the same 2 s";
    case NelsonRule::four_of_five_1s: return "four of five beyond the same 1 s";
    case NelsonRule::fifteen_within_1s: return "fifteen running within 1 s: the limits are too wide";
    case NelsonRule::eight_outside_1s: return "eight running outside 1 s, on both sides";
  }
  return "";
}

// Of Nelson's tests those that speak of the value in hand or of its side; the rest warn.
bool rejects(NelsonRule rule) {
  return rule == NelsonRule::beyond_3s || rule == NelsonRule::nine_one_side || rule == NelsonRule::two_of_three_2s ||
         rule == NelsonRule::four_of_five_1s;
}

std::vector<double> gold_of(const ControlChart& chart) {
  std::vector<double> values;
  for (const SingleTest& point : chart.points) values.push_back(point.gold()->g_t());
  return values;
}

std::optional<ChartLimits> limits_of(const ControlChart& chart, const std::vector<double>& values,
                                     const lab::Settings& settings) {
  const auto certified = chart.material.certified_gold();
  std::optional<HuberEstimate> own;
  if (values.size() >= fewest_own_results) own = huber_proposal_2(values);
  if (!certified && !own) return std::nullopt;
  ChartLimits limits;
  limits.certified = certified.has_value();
  limits.target = certified ? certified->value.in(unit::gram_per_tonne) : own->mean;
  if (chart.material.gold_sd && chart.material.gold_sd->grade() > Grade()) {
    limits.sd = chart.material.gold_sd->grade().in(unit::gram_per_tonne);
  } else if (own && own->sd > 0) {
    limits.sd = own->sd;
    limits.origin = SpreadOrigin::own_results;
  } else {
    limits.sd = limits.target * settings.reference_sd_pct / 100;
    limits.origin = SpreadOrigin::setting;
  }
  return limits.sd > 0 ? std::optional(limits) : std::nullopt;
}

std::vector<ChartSignal> signals_of(const std::vector<double>& values, const ChartLimits& limits, bool nelson) {
  std::vector<ChartSignal> list;
  if (nelson) {
    if (const auto found = nelson_signals(values, limits.target, limits.sd); found.ok())
      for (const NelsonSignal& one : *found)
        list.push_back(
            {one.index, fmt::format("Nelson {}", int(one.rule)), std::string(rule_words(one.rule)), rejects(one.rule)});
    return list;
  }
  if (const auto found = control_signals(values, limits.target, limits.sd); found.ok())
    for (const ControlSignal& one : *found)
      list.push_back({one.index, std::string(contract_name(one.rule)), std::string(rule_words(one.rule)),
                      one.rule != ControlRule::warning_1_2s});
  return list;
}

std::optional<MetalBias> bias_of(const ControlChart& chart, const std::optional<controls::CertifiedValue>& certified,
                                 std::optional<MeasuredGrade> GradeResult::*metal) {
  if (!certified) return std::nullopt;
  std::vector<double> values;
  std::optional<double> u_single;
  for (const SingleTest& point : chart.points) {
    const auto& grade = (*point.grade).*metal;
    if (!grade) continue;
    values.push_back(grade->g_t());
    u_single = grade->spread ? std::optional(grade->spread->u) : std::nullopt;
  }
  if (values.empty()) return std::nullopt;
  MetalBias made;
  made.n = values.size();
  for (const double value : values) made.mean += value / double(made.n);
  double squares = 0;
  for (const double value : values) squares += (value - made.mean) * (value - made.mean);
  made.u_mean = made.n > 1 ? std::optional(std::sqrt(squares / double(made.n - 1) / double(made.n))) : u_single;
  made.certified = certified->value.in(unit::gram_per_tonne);
  if (certified->u) made.u_certified = certified->u->in(unit::gram_per_tonne);
  const auto bias = bias_against_certified({made.mean, made.certified, made.u_mean, made.u_certified});
  if (!bias.ok()) return std::nullopt;
  made.bias = *bias;
  return made;
}

}  // namespace

Result<ControlChart> control_chart(TestReader& reader, const controls::Material& material, ChargeId until, std::int64_t most) {
  ControlChart chart;
  chart.material = material;
  std::vector<ChargeId> ids;
  PRILLBOOK_TRY(reader.connection().rows(sql::charges_of_stock, {material.stock.value, until ? until.value : INT64_MAX, most},
                                         [&](const store::Row& row) {
                                           ids.push_back(ChargeId{row.integer(0)});
                                           return true;
                                         }));
  for (auto id = ids.rbegin(); id != ids.rend(); ++id) {
    PRILLBOOK_ASSIGN(SingleTest test, reader.read(*id));
    if (test.gold()) chart.points.push_back(std::move(test));
  }
  const std::vector<double> values = gold_of(chart);
  if (values.empty()) return chart;
  chart.limits = limits_of(chart, values, reader.settings());
  if (chart.limits) chart.alarms = signals_of(values, *chart.limits, reader.settings().nelson_rules);
  return chart;
}

std::optional<MetalBias> gold_bias(const ControlChart& chart) {
  return bias_of(chart, chart.material.certified_gold(), &GradeResult::gold);
}
std::optional<MetalBias> silver_bias(const ControlChart& chart) {
  return bias_of(chart, chart.material.certified_silver(), &GradeResult::silver);
}

}  // namespace prillbook::results
