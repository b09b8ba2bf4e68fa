// SPDX-License-Identifier: GPL-3.0-or-later
// What a lab can set, each with its default and where the default comes from.
#pragma once

#include <span>
#include <string>
#include <string_view>

#include "core/base/number.h"
#include "core/history/journal.h"
#include "core/wording/language.h"

namespace prillbook::lab {

struct Settings {
  std::string lab_name;
  std::string lab_address;
  std::string lab_contact;
  DecimalMark decimal_mark = DecimalMark::point;
  wording::Language summary_language = wording::Language::english;
  std::string sample_number_pattern = "{yy}-{nnnn}";
  std::string consignment_number_pattern = "{yy}-C{nn}";
  std::string summary_number_pattern = "{yy}-S{nn}";
  double short_mass_limit_pct = 2;        // declared against received
  double pan_product_gain_limit_pct = 2;  // remainder and tail may weigh this much more than the portion panned
  double suspicious_grade_g_t = 5000;     // a bead that gives more is asked about
  double photograph_long_side_px = 2000;  // a photograph is scaled down to this
  bool keep_original_photographs = false;
  // preparation: losses of a step, carry-over, sampling
  double crushing_loss_limit_pct = 1, pulverising_loss_limit_pct = 2, screening_loss_limit_pct = 0.3;
  double carry_over_limit_pct = 1;                                          // of the sample's own grade
  double carry_over_floor_g_t = 0.1;                                        // below this grade the limit is taken of this
  double hold_up_g = 20;                                                    // of a machine that has none of its own
  double flush_g = 500;                                                     // barren rock of one flush
  double brush_leaves_pct = 50, air_leaves_pct = 30, wipe_leaves_pct = 20;  // of what was held
  double barren_g_t = 0.05, low_g_t = 1, ordinary_g_t = 5, rich_g_t = 30, specimen_g_t = 300;
  double liberation_um = 100;            // size of gold where no colour was measured
  double sampling_limit_pct = 20;        // relative standard deviation of a portion wanted
  double sampling_exponent = 1.5;        // of the top size in Gy's formula
  double coarse_gold_um = 100;           // colours from this size up are coarse
  double sieve_loss_limit_pct = 0.3;     // loss of a sieve analysis
  double usual_sieve_diameter_mm = 203;  // of a sieve whose diameter is not said
  // limits of findings
  double duplicate_limit_pct = 30;                     // two charges of one rock, of their mean
  double heavier_limit_pct = 25;                       // received above declared
  double pan_loss_limit_pct = 5;                       // of the portion panned, not in remainder and tail
  double moisture_apart_pct = 1;                       // by drying against entered, of the mass
  double least_button_g = 18, most_button_g = 50;      // of lead
  double blank_share_pct = 20, coarse_share_pct = 10;  // of the bead; of the gold, in metallics
  double pot_richer_times = 5, panned_coarser_pct = 25;
  // quality: how often controls go in, 0: never; what is let pass
  int blank_one_in = 20, reference_one_in = 20, duplicate_one_in = 20;  // charges
  int reference_every_days = 7;
  bool flux_blank_per_lot = true;
  double blank_limit_g_t = 0.1;        // gold of a rock blank
  double flux_blank_limit_mg = 0.005;  // gold of a flux blank
  double reference_sd_pct = 5;         // of the certified value, where no other spread is known
  double duplicate_field_limit_pct = 30, duplicate_coarse_limit_pct = 20, duplicate_pulp_limit_pct = 10;  // |a - b| of the mean
  bool nelson_rules = false;                                                                              // else Westgard's
};

struct SettingSpec {
  std::string_view name;  // as stored
  std::string_view meaning;
  std::string_view origin;  // source of the default, or "common practice"
};

std::span<const SettingSpec> setting_specs();

// Defaults for whatever the notebook does not say. A stored text that can't be understood counts as not said.
Result<Settings> settings(store::Connection& connection);

// The value in force, as set_setting takes it; empty for a name that is no setting.
std::string setting_text(const Settings& settings, std::string_view name);

// Errors: unknown_key for a name that is no setting; out_of_range, not_a_number for a value it can't take. Empty text
// goes back to the default.
Result<void> set_setting(history::Journal& journal, std::string_view name, std::string_view value);
Result<void> set_setting(history::ChangeSet& set, std::string_view name, std::string_view value);

}  // namespace prillbook::lab
