// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/slips/week.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "tests/slips/dice.h"

namespace prillbook::slips {
namespace {

struct Truth {
  double grade_g_t, fineness, colour_um, recovery, rest;  // `rest`: share of the gold in the concentrate remainder
  double silver_of_ore;                                   // silver that only the fire finds, of the gold
};

double grain_mg(double size_um) { return std::numbers::pi / 6 * std::pow(size_um * 1e-4, 3) * 19.3e3; }

class Week {
 public:
  explicit Week(std::uint64_t seed)
      : dice_(seed), truth_{dice_.even(8, 40),     dice_.even(700, 880),   dice_.even(50, 100),
                            dice_.even(0.5, 0.75), dice_.even(0.03, 0.10), dice_.even(0.02, 0.12)} {}

  Json json() {
    Json consignment = {{"client", "Larch Adit Syndicate"},
                        {"arrived", moment(4, 9, 10)},
                        {"carrier", "the client"},
                        {"pieces_declared", 2},
                        {"pieces_found", 2},
                        {"received_by", "HM"},
                        {"pieces", Json::array({sealed("L-071"), sealed("L-072")})},
                        {"samples", Json::array({poor(), good()})}};
    return {{"format", "records"},
            {"version", 1},
            {"people", {{{"initials", "HM"}}, {{"initials", "TB"}}}},
            {"balances", balances()},
            {"check_weights", checks()},
            {"machines", machines()},
            {"sieves", sieves()},
            {"stacks", Json::array({{{"name", "fine"}, {"sieves", "40, 50, 70, 100, 140, 200 ASTM"}}})},
            {"lots",
             Json::array(
                 {{{"name", "litharge 26-1"}, {"kind", "litharge"}, {"silver", "0.01 mg/100 g"}, {"made_at", moment(4, 8, 0)}}})},
            {"pots", {{{"name", "K1"}, {"millilitres", 250}}, {{"name", "K2"}, {"millilitres", 250}}}},
            {"clients", Json::array({{{"name", "Larch Adit Syndicate"}}})},
            {"consignments", Json::array({consignment})}};
  }

 private:
  static Json sealed(const char* number) {
    return {{"condition", "sealed"}, {"seal_declared", number}, {"seal", number}, {"seal_state", "intact"}};
  }
  static Json balances() {
    return {{{"name", "bead balance"}, {"step", "0.001 mg"}, {"capacity", "2 g"}, {"repeatability", "0.002 mg"}},
            {{"name", "bench scale"}, {"step", "0.01 g"}, {"capacity", "2 kg"}},
            {{"name", "counter scale"}, {"step", "5 g"}, {"capacity", "30 kg"}}};
  }
  // First thing on each day.
  Json checks() {
    Json small = Json::array();
    for (int day = 4; day <= 8; ++day)
      small.push_back({{"balance", "bead balance"},
                       {"mass", typed(20 + std::round(dice_.normal(0, 2)) / 1000, 3, "mg")},
                       {"weighed_at", moment(day, 8, 5)},
                       {"weighed_by", "HM"}});
    return Json::array({{{"name", "20 mg"}, {"nominal", "20 mg"}, {"allowed", "0.02 mg"}, {"checks", small}}});
  }
  static Json machines() {
    Json jaw = {{"name", "jaw crusher"}, {"kind", "crusher"}, {"hold_up", "15 g"}};
    jaw["cleanings"] = {{{"way", "brush"}, {"cleaned_at", moment(4, 8, 30)}, {"cleaned_by", "TB"}},
                        {{"way", "brush"}, {"cleaned_at", moment(4, 11, 0)}, {"cleaned_by", "TB"}},
                        {{"way", "flush"}, {"cleaned_at", moment(4, 11, 10)}, {"cleaned_by", "TB"}, {"flush_mass", "500 g"}}};
    return {jaw, {{"name", "disc mill"}, {"kind", "pulveriser"}, {"hold_up", "1 g"}}};
  }
  static Json sieves() {
    Json list = Json::array();
    for (const int number : {40, 50, 70, 100, 140, 200})
      list.push_back({{"name", fmt::format("{} ASTM", number)}, {"diameter", "203 mm"}, {"inspect_by", moment(30, 12, 0)}});
    return list;
  }

  Json bag(const char* mark, const char* expected, double kg) {
    const double received = std::round(kg * 200) / 200, tare = 0.085;
    return {{"mark", mark},
            {"kind", "channel"},
            {"expected", expected},
            {"condition", "sealed"},
            {"mass_declared", typed(received * dice_.even(0.995, 1.01), 2, "kg")},
            {"mass_received", typed(received, 3, "kg")},
            {"gross", typed(received + tare, 3, "kg")},
            {"tare", typed(tare, 3, "kg")},
            {"due", moment(12, 12, 0)},
            {"retain_until", moment(30, 12, 0)}};
  }
  Json crushed(double kg, int hour) {
    return {{"kind", "crush"},
            {"machine", "jaw crusher"},
            {"mass_in", typed(kg, 3, "kg")},
            {"mass_out", typed(std::round(kg * dice_.even(0.994, 0.998) * 200) / 200, 3, "kg")},
            {"top_size", "1000 um"},
            {"done_at", moment(4, hour, 30)},
            {"done_by", "TB"}};
  }
  Json ground(double grams, int day, int hour) {
    return {{"kind", "pulverise"},
            {"machine", "disc mill"},
            {"mass_in", typed(grams, 2, "g")},
            {"mass_out", typed(grams * dice_.even(0.992, 0.997), 2, "g")},
            {"top_size", "150 um"},
            {"done_at", moment(day, hour, ++ground_)},
            {"done_by", "TB"}};
  }
  Json cut(const char* purpose, double grams, int day, int hour, int minute) {
    return {{"purpose", purpose},
            {"mass", typed(grams, 2, "g")},
            {"balance", "bench scale"},
            {"cut_at", moment(day, hour, minute)},
            {"cut_by", "TB"}};
  }
  Json weighed(double mg, int day, int hour, int minute) {
    const double read = std::round(mg * 1000 + dice_.normal(0, 1)) / 1000;
    return {{"mass", typed(std::max(0.001, read), 3, "mg")},
            {"balance", "bead balance"},
            {"weighed_at", moment(day, hour, minute)},
            {"weighed_by", "HM"}};
  }
  // Gold of a portion with the luck of the grains that fell into it.
  double gold_mg(double grams, double g_t) {
    const double mean = grams * g_t / 1000, grains = mean / grain_mg(0.6 * truth_.colour_um);
    return std::max(0.2 * mean, dice_.normal(mean, mean / std::sqrt(std::max(1.0, grains))));
  }
  // Gold and silver of a bead with enough silver added for parting.
  Json parted(double gold, double silver, int day, int minute) {
    const double bead = gold + silver, added = std::max(0.0, 3 * gold - silver);
    return {{"weighings", Json::array({weighed(bead, day, 15, minute), weighed(bead, day, 15, minute + 1)})},
            {"gold", Json::array({weighed(gold, day, 16, minute)})},
            {"fineness_method", "parted"},
            {"inquart", typed(added, 1, "mg")}};
  }
  Json charge(double gold, double silver, const char* pot, int day, int minute) {
    return {{"fired_at", moment(day, 9, 0)},
            {"fired_by", "TB"},
            {"pot", pot},
            {"litharge", "80 g"},
            {"litharge_lot", "litharge 26-1"},
            {"button", typed(dice_.even(26, 33), 1, "g")},
            {"cupel", "38 g"},
            {"cupel_kind", "bone_ash"},
            {"slag_look", "glassy, green"},
            {"bead", parted(gold, silver, day, minute)}};
  }
  double silver_of(double gold) { return gold * (1000 / truth_.fineness - 1); }

  Json fire(double grams, const char* pot, int minute) {
    Json portion = cut("fire", grams, 5, 8, minute);
    const double gold = gold_mg(grams, truth_.grade_g_t);
    portion["charge"] = charge(gold, silver_of(gold) + gold * truth_.silver_of_ore + 0.008, pot, 5, minute);
    return portion;
  }
  Json sieve() {
    Json portion = cut("sieve", 100, 5, 10, 0);
    const double finer = dice_.even(0.8, 1.1);
    Json cuts = Json::array();
    double left = 100 - dice_.even(0.02, 0.15);
    for (const auto& [name, grams] :
         {std::pair{"40", 0.1}, {"50", 0.5}, {"70", 3.0}, {"100", 8.0}, {"140", 11.0}, {"200", 18.0}}) {
      cuts.push_back({{"sieve", name}, {"retained", typed(grams * finer, 2, "g")}});
      left -= std::round(grams * finer * 100) / 100;
    }
    cuts.push_back({{"retained", typed(left, 2, "g")}});
    portion["sieve_analysis"] = {{"stack", "fine"},   {"sieved_at", moment(5, 11, 0)},
                                 {"sieved_by", "TB"}, {"method", "wet"},
                                 {"minutes", 12},     {"cuts", cuts}};
    return portion;
  }
  Json residue(const char* purpose, double grams, double gold_g_t, double fired_grams, const char* pot, int minute) {
    Json whole = cut(purpose, grams, 4, 16, minute);
    Json part = cut("fire", fired_grams, 6, 8, minute);
    const double gold = gold_mg(fired_grams, gold_g_t);
    part["charge"] = charge(gold, silver_of(gold) * 1.2 + 0.008, pot, 6, minute);
    whole["steps"] = Json::array({ground(grams, 5, 17)});
    whole["portions"] = Json::array({part});
    return whole;
  }
  Json pan() {
    constexpr double grams = 1000;
    Json portion = cut("pan", grams, 4, 13, 20);
    const double gold = gold_mg(grams, truth_.grade_g_t), caught = gold * truth_.recovery, rest = gold * truth_.rest;
    const double bead = caught + silver_of(caught);
    const double concentrate = dice_.even(22, 30), tail = grams - concentrate - dice_.even(1, 5);
    portion["pan_test"] = {
        {"panned_at", moment(4, 14, 0)},
        {"panned_by", "HM"},
        {"grind", "400 um"},
        {"largest_colour", typed(truth_.colour_um, 0, "um")},
        {"colours", "some thirty, fine"},
        {"black_sand", "little"},
        {"sulphides", "little"},
        {"free_gold", typed(bead * dice_.even(1.03, 1.10), 2, "mg")},
        {"bead_by", "cupelled"},
        {"pannings", Json::array({{{"kind", "first"},
                                   {"panned_at", moment(4, 14, 0)},
                                   {"panned_by", "HM"},
                                   {"concentrate", typed(concentrate * 1.5, 1, "g")}}})},
        {"bead",
         {{"weighings", {weighed(bead, 5, 8, 40), weighed(bead, 5, 8, 41)}},
          {"fineness_method", "touchstone"},
          {"fineness", typed(std::clamp(std::round(dice_.normal(truth_.fineness, 8) / 5) * 5, 400.0, 980.0), 0, "")}}}};
    portion["portions"] = {residue("remainder", concentrate, 1000 * rest / concentrate, 20, "K1", 5),
                           residue("tail", tail, 1000 * (gold - caught - rest) / tail, 50, "K2", 8)};
    return portion;
  }

  Json good() {
    const double kg = dice_.even(3.2, 5.5);
    Json sample = bag("Larch adit N", "ordinary", kg);
    const double received = number_of(sample["mass_received"]);
    sample["steps"] = Json::array({crushed(received, 11)});
    Json split = cut("split", 600, 4, 13, 0);
    split["steps"] = Json::array({ground(600, 4, 16)});
    split["portions"] = {fire(50, "K1", 10), fire(50, "K2", 14), sieve()};
    sample["portions"] = {pan(), split};
    return sample;
  }
  Json poor() {
    Json sample = bag("Brindle dump", "low", dice_.even(2.5, 4.5));
    sample["steps"] = Json::array({crushed(number_of(sample["mass_received"]), 10)});
    return sample;
  }

  Dice dice_;
  Truth truth_;
  int ground_ = 0;  // minutes: one after another
};

}  // namespace

std::string typed(double value, int decimals, const std::string& unit) {
  return unit.empty() ? fmt::format("{:.{}f}", value, decimals) : fmt::format("{:.{}f} {}", value, decimals, unit);
}

double number_of(const Json& typed) { return std::stod(typed.get<std::string>()); }

std::string moment(int day, int hour, int minute) { return fmt::format("2026-05-{:02}T{:02}:{:02}+02:00", day, hour, minute); }

Json clean_week(std::uint64_t seed) { return Week(seed).json(); }

}  // namespace prillbook::slips
