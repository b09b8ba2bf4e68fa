// SPDX-License-Identifier: GPL-3.0-or-later
// What a lab can set, each with its default and where the default comes from.
#pragma once

#include <span>
#include <string>
#include <string_view>

#include "core/base/number.h"
#include "core/history/journal.h"

namespace prillbook::lab {

struct Settings {
  std::string lab_name;
  std::string lab_address;
  std::string lab_contact;
  DecimalMark decimal_mark = DecimalMark::point;
  std::string sample_number_pattern = "{yy}-{nnnn}";
  std::string consignment_number_pattern = "{yy}-C{nn}";
  double short_mass_limit_pct = 2;        // declared against received
  double pan_product_gain_limit_pct = 2;  // remainder and tail may weigh this much more than the portion panned
  double suspicious_grade_g_t = 5000;     // a bead that gives more is asked about
  double photograph_long_side_px = 2000;  // a photograph is scaled down to this
  bool keep_original_photographs = false;
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
