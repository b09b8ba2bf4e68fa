// SPDX-License-Identifier: GPL-3.0-or-later
// Sieves as people name them: "200 ASTM", "75 µm", "1,18 mm", "20, 60, 100 ASTM". A mesh number alone is never guessed.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/number.h"
#include "core/base/result.h"
#include "core/sieving/series.h"

namespace prillbook {

struct NamedSieve {
  std::string name;                   // "200", or the opening: "75 µm"
  std::optional<SieveSeries> series;  // always there beside a mesh number
  Opening opening;                    // > 0
};

// `series` is taken where the text names none. Errors, fields sieve.name and sieve.series: missing_key (no text),
// not_a_number, ambiguous_mark, out_of_range (not above 0), wrong_type (more than one sieve); ambiguous (a mesh number without
// its series; arguments: the number, what it may be); not_found (the series has no such number, or names none at all).
Result<NamedSieve> read_sieve_name(std::string_view text, std::optional<SieveSeries> series, DecimalMark preferred);

// Several, in the order typed, apart by blanks, ", " or ";". A unit or a series counts for all
// like ones before it that have none; a series in front for all. Errors as above; conflict where one opening stands twice.
Result<std::vector<NamedSieve>> read_sieve_names(std::string_view text, std::optional<SieveSeries> series, DecimalMark preferred);

std::string_view contract_name(SieveSeries series);  // "astm_e11"
std::string_view series_words(SieveSeries series);   // "ASTM E11"

// "150 µm", "1.18 mm": millimetres from 1 mm up, as sieves are marked.
std::string opening_in_words(Opening opening, DecimalMark mark = DecimalMark::point);

// The same with three digits, for sizes that were computed: "212 µm", "37.5 µm".
std::string size_in_words(Opening size, DecimalMark mark = DecimalMark::point);

// "75 µm (200 ASTM E11)", "75 µm (ISO 3310-1)", "75 µm".
std::string sieve_in_words(std::string_view name, std::optional<SieveSeries> series, Opening opening,
                           DecimalMark mark = DecimalMark::point);

// What mesh `number` may be: "2 mm in ASTM E11 or 1.7 mm in Tyler"; empty where neither series has it.
std::string mesh_meanings(std::string_view number, DecimalMark mark = DecimalMark::point);

// Sizes of `series` between `finer` and `coarser`, both left out, coarse to fine: what would help in a gap of the curve.
std::vector<Opening> sizes_between(SieveSeries series, Opening finer, Opening coarser);

}  // namespace prillbook
