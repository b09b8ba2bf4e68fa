// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/slips/slips.h"

#include <cmath>

namespace prillbook::slips {
namespace {

using Place = Json::json_pointer;

// The same figure `factor` times as large, with the unit it was typed in.
void scale(Json& week, const Place& place, double factor) {
  const std::string text = week.at(place);
  const std::size_t blank = text.find(' ');
  const std::string unit = blank == std::string::npos ? "" : text.substr(blank + 1);
  const std::size_t mark = text.find('.');
  const std::size_t end = std::min(blank, text.size());
  week.at(place) = typed(number_of(week.at(place)) * factor, mark == std::string::npos ? 0 : int(end - mark - 1), unit);
}

// Both weighings of a bead, and the gold of it.
void scale_bead(Json& week, const Place& bead, double factor) {
  for (Json& one : week.at(bead)["weighings"]) one["mass"] = typed(number_of(one["mass"]) * factor, 3, "mg");
  if (week.at(bead).contains("gold"))
    for (Json& one : week.at(bead)["gold"]) one["mass"] = typed(number_of(one["mass"]) * factor, 3, "mg");
}

// Dried in the oven before it was crushed.
Json dried(const Json& sample, double kg_after) {
  return {{"kind", "dry"},
          {"mass_in", sample["mass_received"]},
          {"mass_out", typed(kg_after, 3, "kg")},
          {"done_at", moment(4, 10, 45)},
          {"done_by", "TB"}};
}

// The bag loses this share of its mass before it comes to the crusher.
double lighten(Json& sample, double share) {
  const double kg = number_of(sample["mass_received"]) * (1 - share);
  Json& crushing = sample["steps"][0];
  crushing["mass_in"] = typed(kg, 3, "kg");
  crushing["mass_out"] = typed(kg * 0.997, 3, "kg");
  return kg;
}

// 1.234 typed as 1.324.
void exchange_digits(Json& typed_mass) {
  std::string text = typed_mass;
  const std::size_t at = text.find('.') + 1;
  std::swap(text[at], text[at + 1]);
  typed_mass = text;
}

// More silver in the bead than the ore brought.
void add_silver(Json& week, const Place& bead, double mg) {
  for (Json& one : week.at(bead)["weighings"]) one["mass"] = typed(number_of(one["mass"]) + mg, 3, "mg");
}

void swap_weighings(Json& week, const Place& one, const Place& other) {
  for (const char* what : {"weighings", "gold"}) std::swap(week.at(one)[what], week.at(other)[what]);
}

Place first_weighing(const Place& bead) { return bead / "weighings" / 0 / "mass"; }

const Place fire_one = at::bead(at::first), fire_two = at::bead(at::second), pan_test = at::pan / "pan_test",
            pan_bead = at::pan / "pan_test" / "bead", analysis = at::sieved / "sieve_analysis",
            tail_charge = at::tail / "portions" / 0 / "charge", crush = at::good / "steps" / 0,
            pulverise = at::split / "steps" / 0;

const std::vector<Slip> receiving = {
    {"a tenth of the received mass typed",
     {"net_mass_differs", "short_on_arrival", "out_of_range", "inconsistent"},
     [](Json& w) { scale(w, at::good / "mass_received", 0.1); }},
    {"ten times the received mass typed",
     {"net_mass_differs", "heavier_than_declared"},
     [](Json& w) {
       scale(w, at::good / "mass_received", 10);
       w.at(at::good).erase("gross");
     }},
    {"the tare forgotten", {"net_mass_differs"}, [](Json& w) { w.at(at::good)["mass_received"] = w.at(at::good)["gross"]; }},
    {"the tare of another bag", {"net_mass_differs"}, [](Json& w) { w.at(at::good)["tare"] = "0.285 kg"; }},
    {"a bag that leaked on the way",
     {"short_on_arrival", "leaking_bag"},
     [](Json& w) {
       w.at(at::good)["condition"] = "leaking";
       scale(w, at::good / "mass_declared", 1.12);
     }},
    {"a torn bag, mass not looked at", {"leaking_bag"}, [](Json& w) { w.at(at::good)["condition"] = "torn"; }},
    {"a bag short with no word of it", {"short_on_arrival"}, [](Json& w) { scale(w, at::good / "mass_declared", 1.08); }},
    {"the seal changed", {"seal_not_whole"}, [](Json& w) { w.at(at::consignment)["pieces"][1]["seal"] = "L-090"; }},
    {"the seal broken", {"seal_not_whole"}, [](Json& w) { w.at(at::consignment)["pieces"][1]["seal_state"] = "broken"; }},
    {"a piece that did not come", {"pieces_missing"}, [](Json& w) { w.at(at::consignment)["pieces_declared"] = 3; }},
    {"one mark on two bags", {"same_mark"}, [](Json& w) { w.at(at::good)["mark"] = w.at(at::poor)["mark"]; }},
    {"a hand-over that was not written",
     {"hand_over_gap"},
     [](Json& w) {
       w.at(at::good)["hand_overs"] =
           Json::array({{{"from", "night porter"}, {"to", "TB"}, {"handed_at", moment(4, 12, 0)}, {"written_by", "TB"}}});
     }},
    {"a seal on the way that is another",
     {"seal_not_whole"},
     [](Json& w) {
       w.at(at::good)["hand_overs"] = {
           {{"from", "HM"}, {"to", "TB"}, {"handed_at", moment(4, 10, 0)}, {"seal", "L-072"}, {"seal_state", "intact"}},
           {{"from", "TB"}, {"to", "HM"}, {"handed_at", moment(4, 12, 0)}, {"seal", "L-027"}, {"seal_state", "intact"}}};
     }},
    {"the arrival dated a day late",
     {"before_arrival", "inconsistent"},
     [](Json& w) { w.at(at::consignment)["arrived"] = moment(5, 9, 10); }},
    {"the promised day let pass",
     {"overdue"},
     [](Json& w) {
       w.at(at::good)["tests_wanted"] = "pan, fire";
       w.at(at::pan).erase("pan_test");
       w.at(at::pan).erase("portions");
     },
     moment(14, 9, 0)},
    {"rests kept beyond their day", {"retention_over"}, [](Json& w) { w.at(at::good)["retain_until"] = moment(6, 12, 0); }},
    {"what was to be refused was cut",
     {"treated_apart"},
     [](Json& w) {
       w.at(at::good)["treatment"] = "refuse";
       w.at(at::good)["treatment_reason"] = "smells of garlic";
     }},
    {"a figure told that is not the one that stands",
     {"told_differs"},
     [](Json& w) {
       w.at(at::good)["told"] = Json::array(
           {{{"what", "gold"}, {"said", "3.1 g/t"}, {"to_whom", "the client"}, {"told_at", moment(7, 9, 0)}, {"told_by", "HM"}}});
     }},
    {"the bag weighed wet and taken for dry",
     {"net_mass_differs", "moisture_not_written"},
     [](Json& w) { scale(w, at::good / "mass_received", 1.004); }},
};

const std::vector<Slip> preparation = {
    {"the flush forgotten behind a specimen",
     {"uncleaned_machine", "carry_over"},
     [](Json& w) {
       w.at(at::poor)["expected"] = "specimen";
       Json& cleanings = w["machines"][0]["cleanings"];
       cleanings.erase(2), cleanings.erase(1);
     }},
    {"only a brush behind a specimen",
     {"carry_over"},
     [](Json& w) {
       w.at(at::poor)["expected"] = "specimen";
       w["machines"][0]["cleanings"].erase(2);
     }},
    {"a good part of the rock left in the crusher", {"step_loss"}, [](Json& w) { scale(w, crush / "mass_out", 0.95); }},
    {"dust lost in the mill", {"step_loss"}, [](Json& w) { scale(w, pulverise / "mass_out", 0.95); }},
    {"more came out than went in",
     {"step_loss", "inconsistent", "out_of_range"},
     [](Json& w) { scale(w, crush / "mass_out", 1.03); }},
    {"a tenth of the mass out typed",
     {"step_loss", "inconsistent", "out_of_range"},
     [](Json& w) { scale(w, pulverise / "mass_out", 0.1); }},
    {"rock of another bag went in too",
     {"open_tree", "inconsistent", "out_of_range"},
     [](Json& w) {
       scale(w, crush / "mass_in", 1.15);
       scale(w, crush / "mass_out", 1.15);
     }},
    {"a portion larger than what was left", {"inconsistent", "out_of_range"}, [](Json& w) { scale(w, at::split / "mass", 10); }},
    {"a fire portion larger than the split",
     {"inconsistent", "out_of_range"},
     [](Json& w) { w.at(at::first)["mass"] = "560.00 g"; }},
    {"a portion cut from the crushed rock, too small for it",
     {"small_portion"},
     [](Json& w) {
       w.at(at::split).erase("steps");
       w.at(at::good)["steps"][0]["top_size"] = "10000 um";
     }},
    {"the order at the crusher turned round",
     {"out_of_order"},
     [](Json& w) {
       w["crushing_orders"] = Json::array({{{"machine", "jaw crusher"},
                                            {"made_at", moment(4, 9, 30)},
                                            {"made_by", "HM"},
                                            {"turns", {{{"sample", "26-0002"}}, {{"sample", "26-0001"}}}}}});
       std::swap(w.at(at::poor)["expected"], w.at(at::good)["expected"]);
       w.at(at::good)["steps"][0]["done_at"] = moment(4, 11, 30);
     }},
    {"the moisture taken off twice",
     {"moisture_differs"},
     [](Json& w) {
       Json& sample = w.at(at::good);
       const double kg = lighten(sample, 0.06);
       sample["steps"].insert(sample["steps"].begin(), dried(sample, kg));
       sample["moisture"] = "12 %";
     }},
    {"the moisture on the dry basis", {"moisture_not_found"}, [](Json& w) { w.at(at::good)["moisture"] = "6.4 %"; }},
};

const std::vector<Slip> pan = {
    {"the pan bead typed ten times as heavy",
     {"bead_above_free_gold", "pan_above_fire", "pan_gold_open"},
     [](Json& w) { scale_bead(w, pan_bead, 10); }},
    {"the pan bead typed a tenth as heavy", {"pan_gold_open"}, [](Json& w) { scale_bead(w, pan_bead, 0.1); }},
    {"the pan bead in g for mg",
     {"heavier than the portion", "very rich", "perhaps milligrams", "inconsistent", "out_of_range"},
     [](Json& w) {
       for (Json& one : w.at(pan_bead)["weighings"]) one["mass"] = typed(number_of(one["mass"]), 3, "g");
     }},
    {"a tenth of the panned mass typed",
     {"inconsistent", "out_of_range", "pan_above_fire", "pan_mass_open"},
     [](Json& w) { scale(w, at::pan / "mass", 0.1); }},
    {"the tail's mass with a figure lost", {"pan_mass_open", "pan_gold_open"}, [](Json& w) { scale(w, at::tail / "mass", 0.1); }},
    {"the slime poured off", {"pan_mass_open"}, [](Json& w) { scale(w, at::tail / "mass", 0.88); }},
    {"tail and portion exchanged", {"inconsistent", "out_of_range"}, [](Json& w) { scale(w, at::tail / "mass", 1.2); }},
    {"free gold noted for another pan", {"bead_above_free_gold"}, [](Json& w) { scale(w, pan_test / "free_gold", 0.4); }},
    {"the bead amalgamated, no word of the mercury",
     {"mercury_not_told"},
     [](Json& w) { w.at(pan_test)["bead_by"] = "amalgamated"; }},
    {"the fineness typed as per cent",
     {"fineness_perhaps_percent", "pan_fire_fineness"},
     [](Json& w) { scale(w, pan_bead / "fineness", 0.1); }},
    {"the fineness of the fire bead typed for the pan",
     {"pan_fire_fineness", "pan_gold_open"},
     [](Json& w) { w.at(pan_bead)["fineness"] = "450"; }},
    {"the test panned before it was cut", {"out_of_time"}, [](Json& w) { w.at(pan_test)["panned_at"] = moment(4, 12, 0); }},
    // Nothing to see: in this notebook no mill worked on what was panned, and 500 µm may well be the P80 of rock that the
    // crusher left below 1000 µm.
    {"the grind of the crusher, not of the mill", {}, [](Json& w) { w.at(pan_test)["grind"] = "500 um"; }},
};

const std::vector<Slip> furnace = {
    {"a fire bead typed ten times as heavy", {"duplicates_apart", "very rich"}, [](Json& w) { scale_bead(w, fire_one, 10); }},
    {"a fire bead typed a tenth as heavy", {"duplicates_apart"}, [](Json& w) { scale_bead(w, fire_two, 0.1); }},
    {"beads exchanged between two charges of rock and tail",
     {"duplicates_apart", "pan_gold_open"},
     [](Json& w) { swap_weighings(w, fire_one, tail_charge / "bead"); }},
    {"the duplicate of the wrong sample", {"duplicates_apart"}, [](Json& w) { scale_bead(w, fire_two, 0.04); }},
    {"the pan bead and a fire bead exchanged",
     {"duplicates_apart", "bead_above_free_gold", "silver_apart", "out_of_time"},
     [](Json& w) { std::swap(w.at(pan_bead)["weighings"], w.at(fire_one)["weighings"]); }},
    {"a tenth of the fire portion typed", {"duplicates_apart"}, [](Json& w) { scale(w, at::first / "mass", 0.1); }},
    {"five times the fire portion typed", {"duplicates_apart", "inconsistent"}, [](Json& w) { scale(w, at::first / "mass", 5); }},
    {"collector silver in one charge, not written",
     {"silver_apart", "fire_bead_pale"},
     [](Json& w) { add_silver(w, fire_one, 5); }},
    {"collector silver in both charges, not written",
     {"fire_bead_pale"},
     [](Json& w) { add_silver(w, fire_one, 5), add_silver(w, fire_two, 5); }},
    {"the blank lot exchanged for a rich one",
     {"blank_high"},
     [](Json& w) {
       w["lots"].push_back(
           {{"name", "litharge old"}, {"kind", "litharge"}, {"silver", "6 mg/100 g"}, {"made_at", moment(4, 8, 0)}});
       w.at(at::first)["charge"]["litharge_lot"] = "litharge old";
     }},
    {"a new lot with no blank yet",
     {"lot_without_blank"},
     [](Json& w) {
       w["lots"].push_back({{"name", "litharge new"}, {"kind", "litharge"}, {"made_at", moment(4, 8, 0)}});
       w.at(at::first)["charge"]["litharge_lot"] = "litharge new";
     }},
    {"the button with a figure lost", {"button_out_of_range"}, [](Json& w) { scale(w, at::first / "charge" / "button", 0.1); }},
    {"a button of too much flour",
     {"button_out_of_range", "cupel_overloaded"},
     [](Json& w) { w.at(at::first)["charge"]["button"] = "56.0 g"; }},
    {"a small cupel under a large button", {"cupel_overloaded"}, [](Json& w) { w.at(at::first)["charge"]["cupel"] = "22 g"; }},
    {"the litharge typed as a tenth", {"button_above_lead"}, [](Json& w) { scale(w, at::first / "charge" / "litharge", 0.1); }},
    {"a matte that nobody took further",
     {"fusion_doubtful"},
     [](Json& w) { w.at(at::first)["charge"]["fusion_signs"] = "matte"; }},
    {"a frozen cupel that was counted",
     {"fusion_doubtful"},
     [](Json& w) { w.at(at::first)["charge"]["cupellation_signs"] = "froze"; }},
    {"too little silver for parting", {"incomplete_parting"}, [](Json& w) { w.at(fire_one)["inquart"] = "0.1 mg"; }},
    {"flour and nitre in one pot",
     {"conflict", "missing_key"},
     [](Json& w) {
       w.at(at::first)["charge"]["flour"] = "3 g";
       w.at(at::first)["charge"]["nitre"] = "5 g";
     }},
    {"recovered from the cupel and a loss estimated besides",
     {"conflict", "figures_contradict"},
     [](Json& w) {
       w.at(at::first)["charge"]["cupel_metal"] = "0.1 mg";
       w.at(at::first)["charge"]["silver_loss"] = "2 %";
     }},
    {"a spoiled repeat that was swapped for the first", {"duplicates_apart"}, [](Json& w) { scale_bead(w, fire_one, 0.3); }},
    {"the pot used behind a rich ore",
     {"pot_after_rich"},
     [](Json& w) {
       Json rich = w.at(at::first);
       for (Json& one : rich["charge"]["bead"]["weighings"]) one["mass"] = "90.000 mg";
       for (Json& one : rich["charge"]["bead"]["gold"]) one["mass"] = "70.000 mg";
       rich["charge"]["bead"]["inquart"] = "200 mg";
       rich["charge"]["pot"] = "K2";
       w.at(at::poor)["portions"] = Json::array({rich});
     }},
};

const std::vector<Slip> weigh_room = {
    {"the gold heavier than its bead", {"inconsistent"}, [](Json& w) { w.at(fire_one)["gold"][0]["mass"] = "90.000 mg"; }},
    {"a bead weighed on the bench scale",
     {"near_step", "near the step", "off_step", "off the step"},
     [](Json& w) {
       for (Json& one : w.at(fire_one)["weighings"])
         one = {{"mass", "0.01 g"}, {"balance", "bench scale"}, {"weighed_at", moment(5, 15, 1)}};
     }},
    {"a bead with more figures than the balance has",
     {"off_step", "off the step"},
     [](Json& w) { w.at(first_weighing(fire_one)) = typed(number_of(w.at(first_weighing(fire_one))) + 0.0004, 4, "mg"); }},
    {"the check weight failed and work went on",
     {"check_weight_failed"},
     [](Json& w) { w["check_weights"][0]["checks"][1]["mass"] = "20.055 mg"; }},
    {"no check that day", {"balance_not_checked"}, [](Json& w) { w["check_weights"][0]["checks"].erase(1); }},
    {"above what the balance carries", {"over_range", "out_of_range"}, [](Json& w) { w["balances"][0]["capacity"] = "0.2 mg"; }},
    {"a bead weighed before its charge was fused",
     {"out_of_time"},
     [](Json& w) {
       for (Json& one : w.at(fire_one)["weighings"]) one["weighed_at"] = moment(5, 8, 50);
     }},
    {"a weighing dated before the sample came",
     {"before_arrival", "out_of_time"},
     [](Json& w) { w.at(fire_one)["weighings"][0]["weighed_at"] = moment(3, 15, 0); }},
    {"two figures of a bead turned round", {"repeats_apart"}, [](Json& w) { scale(w, first_weighing(fire_one), 1.02); }},
};

const std::vector<Slip> sieves = {
    {"a sieve's mass with the point moved",
     {"sieve_sum_above_portion", "sieve_loss", "out_of_range", "inconsistent"},
     [](Json& w) { scale(w, analysis / "cuts" / 4 / "retained", 10); }},
    {"a sieve's mass a tenth", {"sieve_loss"}, [](Json& w) { scale(w, analysis / "cuts" / 5 / "retained", 0.1); }},
    {"one sieve not weighed: the analysis waits for it", {"sieve_not_weighed"}, [](Json& w) { w.at(analysis)["cuts"].erase(4); }},
    {"the pan under the stack forgotten",
     {"sieve_loss", "waits"},
     [](Json& w) { w.at(analysis)["cuts"].back()["retained"] = "0 g"; }},
    {"two series in one stack",
     {"sieve_mixed_series"},
     [](Json& w) {
       w["sieves"].push_back({{"name", "80 Tyler"}, {"diameter", "203 mm"}, {"inspect_by", moment(30, 12, 0)}});
       w["stacks"][0]["sieves"] = "40 ASTM, 50 ASTM, 70 ASTM, 80 Tyler, 100 ASTM, 140 ASTM, 200 ASTM";
     }},
    {"a sieve beyond its inspection", {"sieve_overdue"}, [](Json& w) { w["sieves"][3]["inspect_by"] = moment(1, 12, 0); }},
    {"far too much on one small sieve",
     {"sieve_overload"},
     [](Json& w) {
       for (Json& one : w["sieves"]) one["diameter"] = "50 mm";
       w.at(analysis)["cuts"][5]["retained"] = "60.00 g";
       w.at(analysis)["cuts"][6]["retained"] = "17.00 g";
     }},
    {"a stack that ends above the grind",
     {"sieve_p80"},
     [](Json& w) {
       w["stacks"][0]["sieves"] = "40, 50 ASTM";
       w.at(analysis)["cuts"] = {
           {{"sieve", "40"}, {"retained", "0.10 g"}}, {{"sieve", "50"}, {"retained", "0.50 g"}}, {{"retained", "99.30 g"}}};
     }},
    {"two sieves of the stack exchanged",
     {"sieve_uneven"},
     [](Json& w) { std::swap(w.at(analysis)["cuts"][3]["retained"], w.at(analysis)["cuts"][4]["retained"]); }},
};

// The same slips where the notebook holds more to doubt them by, and two of their kind. Behind all others, whose weeks stay.
const std::vector<Slip> told_twice = {
    {"the moisture on the dry basis, beside a drying",
     {"moisture_differs"},
     [](Json& w) {
       Json& sample = w.at(at::good);
       const double kg = lighten(sample, 0.06);
       sample["steps"].insert(sample["steps"].begin(), dried(sample, kg));
       sample["moisture"] = "6.4 %";
     }},
    {"the grind of the crusher, where the mill went after it",
     {"grind_above_top_size"},
     [](Json& w) {
       w.at(at::pan)["steps"] = Json::array({{{"kind", "pulverise"},
                                              {"machine", "disc mill"},
                                              {"mass_in", "1000.00 g"},
                                              {"mass_out", "995.00 g"},
                                              {"top_size", "300 um"},
                                              {"done_at", moment(4, 13, 40)},
                                              {"done_by", "TB"}}});
     }},
    {"two digits of a bead exchanged", {"repeats_apart"}, [](Json& w) { exchange_digits(w.at(first_weighing(fire_one))); }},
    {"a wet bag, nobody wrote how wet", {"moisture_not_written"}, [](Json& w) { w.at(at::good)["condition"] = "wet"; }},
    {"a bag that dried on the shelf", {"moisture_not_written"}, [](Json& w) { lighten(w.at(at::good), 0.03); }},
};

}  // namespace

const std::vector<Slip>& all_slips() {
  static const std::vector<Slip> all = [] {
    std::vector<Slip> list;
    for (const auto* some : {&receiving, &preparation, &pan, &furnace, &weigh_room, &sieves, &told_twice})
      list.insert(list.end(), some->begin(), some->end());
    return list;
  }();
  return all;
}

}  // namespace prillbook::slips
