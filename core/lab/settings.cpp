// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/lab/settings.h"

#include <fmt/format.h>

#include <charconv>

#include "core/base/text.h"
#include "core/history/fields.h"
#include "core/history/record.h"
#include "core/lab/numbering.h"
#include "core/readings/entry.h"

namespace prillbook::lab {
namespace {

namespace fields = history::fields::setting;

// How a setting is understood, false where the text does not fit, and how it is written.
struct Rule {
  bool (*understand)(std::string_view text, Settings& settings);
  std::string (*write)(const Settings& settings);
};

struct Reader {
  SettingSpec spec;
  Rule rule;
};

template <std::string Settings::*member>
bool take_text(std::string_view text, Settings& settings) {
  settings.*member = std::string(text);
  return true;
}

template <double Settings::*member>
bool take_limit(std::string_view text, Settings& settings) {
  const auto number = parse_number(text, DecimalMark::point);
  if (!number || !number->rest.empty() || number->value <= 0) return false;
  settings.*member = number->value;
  return true;
}

bool take_exponent(std::string_view text, Settings& settings) {
  constexpr double largest = 3;  // as of the top size without liberation
  Settings trial;
  if (!take_limit<&Settings::sampling_exponent>(text, trial) || trial.sampling_exponent > largest) return false;
  settings.sampling_exponent = trial.sampling_exponent;
  return true;
}

template <std::string Settings::*member>
bool take_pattern(std::string_view text, Settings& settings) {
  return is_number_pattern(text) && take_text<member>(text, settings);
}

bool take_decimal_mark(std::string_view text, Settings& settings) {
  if (text != "." && text != ",") return false;
  settings.decimal_mark = text == "," ? DecimalMark::comma : DecimalMark::point;
  return true;
}

template <bool Settings::*member>
bool take_yes_or_no(std::string_view text, Settings& settings) {
  const std::string word = lower_ascii(text);
  if (word != "yes" && word != "no") return false;
  settings.*member = word == "yes";
  return true;
}

template <bool Settings::*member>
std::string yes_or_no_of(const Settings& settings) {
  return settings.*member ? "yes" : "no";
}

constexpr int most_often = 10000;  // more would be never

template <int Settings::*member>
bool take_count(std::string_view text, Settings& settings) {
  int number = -1;
  const auto read = std::from_chars(text.data(), text.data() + text.size(), number);
  if (read.ec != std::errc() || read.ptr != text.data() + text.size() || number < 0 || number > most_often) return false;
  settings.*member = number;
  return true;
}

template <int Settings::*member>
std::string count_of(const Settings& settings) {
  return std::to_string(settings.*member);
}

bool take_rules(std::string_view text, Settings& settings) {
  const std::string word = lower_ascii(text);
  if (word != "westgard" && word != "nelson") return false;
  settings.nelson_rules = word == "nelson";
  return true;
}

std::string rules_of(const Settings& settings) { return settings.nelson_rules ? "nelson" : "westgard"; }

template <std::string Settings::*member>
std::string words_of(const Settings& settings) {
  return settings.*member;
}

template <double Settings::*member>
std::string limit_of(const Settings& settings) {
  return shortest(settings.*member);
}

bool take_language(std::string_view text, Settings& settings) {
  const wording::LanguageName* named = wording::language_of(text);
  if (named) settings.summary_language = named->language;
  return named != nullptr;
}

std::string language_code(const Settings& settings) { return std::string(wording::name_of(settings.summary_language).code); }

std::string mark_of(const Settings& settings) { return settings.decimal_mark == DecimalMark::comma ? "," : "."; }

template <std::string Settings::*member>
constexpr Rule read_text{take_text<member>, words_of<member>};
template <double Settings::*member>
constexpr Rule read_limit{take_limit<member>, limit_of<member>};
template <std::string Settings::*member>
constexpr Rule read_pattern{take_pattern<member>, words_of<member>};
constexpr Rule read_exponent{take_exponent, limit_of<&Settings::sampling_exponent>};
constexpr Rule read_decimal_mark{take_decimal_mark, mark_of};
constexpr Rule read_language{take_language, language_code};
template <bool Settings::*member>
constexpr Rule read_yes_or_no{take_yes_or_no<member>, yes_or_no_of<member>};
template <int Settings::*member>
constexpr Rule read_count{take_count<member>, count_of<member>};
constexpr Rule read_rules{take_rules, rules_of};

constexpr Reader readers[] = {
    {{"lab.name", "name of the lab, as summaries print it", "the lab's own"}, read_text<&Settings::lab_name>},
    {{"lab.address", "address of the lab", "the lab's own"}, read_text<&Settings::lab_address>},
    {{"lab.contact", "telephone or e-mail of the lab", "the lab's own"}, read_text<&Settings::lab_contact>},
    {{"decimal_mark", "decimal mark of figures: . or ,", "the lab's own"}, read_decimal_mark},
    {{"summary.language", "language of summaries: en or es", "the lab's own"}, read_language},
    {{"sample.number_pattern", "pattern of lab numbers: {yy} year, {nnnn} running number", "common practice"},
     read_pattern<&Settings::sample_number_pattern>},
    {{"consignment.number_pattern", "pattern of consignment numbers", "common practice"},
     read_pattern<&Settings::consignment_number_pattern>},
    {{"summary.number_pattern", "pattern of the numbers of summaries", "common practice"},
     read_pattern<&Settings::summary_number_pattern>},
    {{"receiving.short_mass_limit_pct", "received mass short of the declared mass by more than this is a finding, %",
      "common practice"},
     read_limit<&Settings::short_mass_limit_pct>},
    {{"pan.product_gain_limit_pct", "remainder and tail above the portion panned by more than this are refused, %",
      "common practice"},
     read_limit<&Settings::pan_product_gain_limit_pct>},
    {{"weighing.suspicious_grade_g_t", "a bead that gives more than this is asked about, g/t", "common practice"},
     read_limit<&Settings::suspicious_grade_g_t>},
    {{"photographs.long_side_px", "longer side that a photograph is scaled down to, pixels", "common practice"},
     read_limit<&Settings::photograph_long_side_px>},
    {{"photographs.keep_original", "yes: photographs are kept as they came, with the place that the camera wrote in them",
      "the lab's own"},
     read_yes_or_no<&Settings::keep_original_photographs>},
    {{"preparation.crushing_loss_limit_pct", "loss or gain of a crushing, blending or splitting step above this is a finding, %",
      "common practice"},
     read_limit<&Settings::crushing_loss_limit_pct>},
    {{"preparation.pulverising_loss_limit_pct", "the same of a pulverising step, %", "common practice"},
     read_limit<&Settings::pulverising_loss_limit_pct>},
    {{"preparation.screening_loss_limit_pct", "the same of a screening step, %", "ASTM C136 asks for 0.3 % of a sieve analysis"},
     read_limit<&Settings::screening_loss_limit_pct>},
    {{"preparation.carry_over_limit_pct",
      "estimated carry-over above this share of the sample's own grade owes a flush and is a finding, %",
      "from memory, common practice"},
     read_limit<&Settings::carry_over_limit_pct>},
    {{"preparation.carry_over_floor_g_t", "for samples below this grade the limit is taken of this grade, g/t",
      "common practice, no source"},
     read_limit<&Settings::carry_over_floor_g_t>},
    {{"preparation.hold_up_g", "what stays in a machine that has no hold-up of its own and no assayed flush, g",
      "common practice, no source"},
     read_limit<&Settings::hold_up_g>},
    {{"preparation.flush_g", "barren rock of one flush in a crushing order, g", "common practice, no source"},
     read_limit<&Settings::flush_g>},
    {{"preparation.brush_leaves_pct", "of what a machine holds, left by brushing, %", "common practice, no source"},
     read_limit<&Settings::brush_leaves_pct>},
    {{"preparation.air_leaves_pct", "left by blowing with air, %", "common practice, no source"},
     read_limit<&Settings::air_leaves_pct>},
    {{"preparation.wipe_leaves_pct", "left by wiping, %", "common practice, no source"}, read_limit<&Settings::wipe_leaves_pct>},
    {{"preparation.barren_g_t", "gold taken for a sample expected to be barren, g/t", "common practice, no source"},
     read_limit<&Settings::barren_g_t>},
    {{"preparation.low_g_t", "taken for the expected class low, g/t", "common practice, no source"},
     read_limit<&Settings::low_g_t>},
    {{"preparation.ordinary_g_t", "taken for the expected class ordinary, and where none is known, g/t",
      "common practice, no source"},
     read_limit<&Settings::ordinary_g_t>},
    {{"preparation.rich_g_t", "taken for the expected class rich, g/t", "common practice, no source"},
     read_limit<&Settings::rich_g_t>},
    {{"preparation.specimen_g_t", "taken for the expected class specimen, g/t", "common practice, no source"},
     read_limit<&Settings::specimen_g_t>},
    {{"preparation.liberation_um", "size of the gold where no colour was measured, µm", "common practice, no source"},
     read_limit<&Settings::liberation_um>},
    {{"preparation.sampling_limit_pct",
      "a portion whose fundamental error is above this is a finding, % relative standard deviation",
      "common practice, no source"},
     read_limit<&Settings::sampling_limit_pct>},
    {{"preparation.sampling_exponent", "exponent of the top size in Gy's formula, up to 3; 2.5 is the square-root form",
      "Minnitt, AusIMM 2017 (abstract): default of the trade"},
     read_exponent},
    {{"preparation.coarse_gold_um", "colours from this size up call for a riffle or rotary splitter, µm",
      "common practice, no source"},
     read_limit<&Settings::coarse_gold_um>},
    {{"sieve.loss_limit_pct", "loss or gain of a sieve analysis above this is a finding, %", "ASTM C136, 0.3 % of the portion"},
     read_limit<&Settings::sieve_loss_limit_pct>},
    {{"sieve.usual_diameter_mm", "diameter of a sieve where none is said, for the check on overload, mm", "common practice"},
     read_limit<&Settings::usual_sieve_diameter_mm>},
    {{"findings.duplicate_limit_pct", "two charges of one rock further apart than this share of their mean are a finding, %",
      "common practice, no source"},
     read_limit<&Settings::duplicate_limit_pct>},
    {{"findings.heavier_limit_pct", "received mass above the declared mass by more than this is a finding, %",
      "common practice, no source"},
     read_limit<&Settings::heavier_limit_pct>},
    {{"findings.pan_loss_limit_pct", "what remainder and tail leave open of the portion panned, above this, is a finding, %",
      "common practice, no source"},
     read_limit<&Settings::pan_loss_limit_pct>},
    {{"findings.moisture_apart_pct",
      "moisture by drying and moisture entered further apart than this are a finding, % of the mass",
      "common practice, no source"},
     read_limit<&Settings::moisture_apart_pct>},
    {{"findings.least_button_g", "a lead button below this is a finding, g", "Beringer p. 90, 18 to 25 g for 20 g of ore"},
     read_limit<&Settings::least_button_g>},
    {{"findings.most_button_g", "a lead button above this is a finding, g", "Beringer p. 116, the largest printed"},
     read_limit<&Settings::most_button_g>},
    {{"findings.blank_share_pct", "silver of litharge and lead above this share of the bead is a finding, %",
      "common practice, no source"},
     read_limit<&Settings::blank_share_pct>},
    {{"findings.coarse_share_pct", "gold in the coarse part of metallics above this is a finding, %",
      "common practice, no source"},
     read_limit<&Settings::coarse_share_pct>},
    {{"findings.pot_richer_times", "a pot that held a rich ore is a finding where that was so many times richer",
      "common practice, no source"},
     read_limit<&Settings::pot_richer_times>},
    {{"findings.panned_coarser_pct", "a portion panned coarser than the sieves found by more than this is a finding, %",
      "common practice, no source"},
     read_limit<&Settings::panned_coarser_pct>},
    {{"quality.blank_one_in", "a rock blank is due after so many charges; 0: never", "common practice, no source"},
     read_count<&Settings::blank_one_in>},
    {{"quality.reference_one_in", "a reference material is due after so many charges; 0: never", "common practice, no source"},
     read_count<&Settings::reference_one_in>},
    {{"quality.reference_every_days", "and after so many days in which charges were made; 0: never",
      "common practice, no source"},
     read_count<&Settings::reference_every_days>},
    {{"quality.duplicate_one_in", "a duplicate is due after so many charges; 0: never", "common practice, no source"},
     read_count<&Settings::duplicate_one_in>},
    {{"quality.flux_blank_per_lot", "yes: every lot of flux and litharge is due a flux blank", "common practice, no source"},
     read_yes_or_no<&Settings::flux_blank_per_lot>},
    {{"quality.blank_limit_g_t", "gold of a rock blank above this is a finding, g/t",
      "from memory: 5 times what can be told from nothing, here 0.001 mg in 50 g"},
     read_limit<&Settings::blank_limit_g_t>},
    {{"quality.flux_blank_limit_mg", "gold of a flux blank above this is a finding, mg", "from memory: 5 steps of 0.001 mg"},
     read_limit<&Settings::flux_blank_limit_mg>},
    {{"quality.reference_sd_pct",
      "standard deviation of charges of a reference material where neither it nor eight results of the lab tell, % of its gold",
      "common practice, no source"},
     read_limit<&Settings::reference_sd_pct>},
    {{"quality.duplicate_field_limit_pct", "field duplicates further apart than this are a finding, % of their mean",
      "from memory, common practice"},
     read_limit<&Settings::duplicate_field_limit_pct>},
    {{"quality.duplicate_coarse_limit_pct", "the same of coarse duplicates, %", "from memory, common practice"},
     read_limit<&Settings::duplicate_coarse_limit_pct>},
    {{"quality.duplicate_pulp_limit_pct", "the same of pulp duplicates, %", "from memory, common practice"},
     read_limit<&Settings::duplicate_pulp_limit_pct>},
    {{"quality.control_rules", "rules of the control charts: westgard or nelson", "the lab's own"}, read_rules},
};

const Reader* find_reader(std::string_view name) {
  for (const Reader& reader : readers)
    if (reader.spec.name == name) return &reader;
  return nullptr;
}

}  // namespace

std::span<const SettingSpec> setting_specs() {
  static const auto specs = [] {
    std::vector<SettingSpec> list;
    for (const Reader& reader : readers) list.push_back(reader.spec);
    return list;
  }();
  return specs;
}

Result<Settings> settings(store::Connection& connection) {
  PRILLBOOK_ASSIGN(const auto records, history::load_all(connection, history::Entity::setting));
  Settings settings;
  for (const history::Record& record : records) {
    const Reader* reader = find_reader(record.text(fields::name));
    const auto value = record.optional_text(fields::value);
    if (reader && value) reader->rule.understand(*value, settings);
  }
  return settings;
}

std::string setting_text(const Settings& settings, std::string_view name) {
  const Reader* reader = find_reader(name);
  return reader ? reader->rule.write(settings) : std::string();
}

Result<void> set_setting(history::ChangeSet& set, std::string_view name, std::string_view value) {
  const Reader* reader = find_reader(name);
  if (!reader) return Error{ErrorCode::unknown_key, std::string(name), fmt::format("there is no setting {}", name), {}};
  value = trimmed(value);
  Settings trial;
  if (!value.empty() && !reader->rule.understand(value, trial))
    return Error{
        ErrorCode::out_of_range, std::string(name), fmt::format("'{}' is no value for {}", value, name), {std::string(value)}};
  PRILLBOOK_ASSIGN(const auto records, history::load_all(set.connection(), history::Entity::setting));
  const history::Value cell = readings::cell_of(std::optional(std::string(value)));
  for (const history::Record& record : records)
    if (record.text(fields::name) == name) return set.set(fields::value, record.id(), cell);
  auto made = set.make(history::Entity::setting, {{fields::name, std::string(name)}, {fields::value, cell}});
  if (!made) return made.error();
  return {};
}

Result<void> set_setting(history::Journal& journal, std::string_view name, std::string_view value) {
  return journal.record(fmt::format("set {}", name), [&](history::ChangeSet& set) { return set_setting(set, name, value); });
}

}  // namespace prillbook::lab
