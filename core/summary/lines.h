// SPDX-License-Identifier: GPL-3.0-or-later
// The tests of a sample as lines of a list: the figures that page, spreadsheet and list share.
#pragma once

#include <string_view>
#include <vector>

#include "core/summary/summary.h"

namespace prillbook::summary {

std::string_view kind_name(LineKind kind);                 // "pan_test"
std::string kind_words(LineKind kind, const Speech& say);  // "pan"

// Every test, then the mean of the charges where one counts; a single no_result line where nothing was tested.
std::vector<ResultLine> result_lines(const SummarySample& sample, const Speech& say);

// Both nullptr where the record holds no such test.
const results::PanEntry* pan_entry(const results::SampleRecord& record, PanTestId id);
const results::FireEntry* fire_entry(const results::SampleRecord& record, ChargeId id);
const weighing::Bead* bead_of(const results::SampleRecord& record, const results::TestResult& test);

// In per cent of fire; absent where fire saw no gold. An interval without an upper end has its low end alone.
std::optional<Figure> recovery_figure(const Gap& gap, const Speech& say);

// Why a test has no figure for silver; empty where it has one or none was asked.
std::string silver_words(const results::SampleRecord& record, const results::TestResult& test, const Speech& say);
// "Coarse part assayed whole, 29 % of the gold; fine part by 2 charges."; empty where it is not done.
std::string metallics_note(const results::MetallicsOf& metallics, const Speech& say);
// What an error said, after a colon; our errors speak English, so it is left out of another language.
std::string detail_of(const Error& error, const Speech& say);
// The silver that stands for a group: only where every charge that counts for gold has it.
const MeasuredGrade* common_silver(const results::Group& group);

}  // namespace prillbook::summary
