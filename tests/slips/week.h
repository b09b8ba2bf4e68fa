// SPDX-License-Identifier: GPL-3.0-or-later
// Plausible weeks of a small lab as the JSON of `notebook load`, from a truth that is known: grade, fineness, size of the
// gold, what the pan recovers. All of it is invented; the same seed gives the same week.
#pragma once

#include <cstdint>
#include <nlohmann/json.hpp>
#include <string>

namespace prillbook::slips {

using Json = nlohmann::json;

// Where things stand in a week. The poor sample is crushed before the good one, with a brush and a flush between.
namespace at {
inline const Json::json_pointer consignment("/consignments/0");
inline const Json::json_pointer poor = consignment / "samples" / 0;
inline const Json::json_pointer good = consignment / "samples" / 1;
inline const Json::json_pointer pan = good / "portions" / 0;      // panned, with remainder and tail
inline const Json::json_pointer split = good / "portions" / 1;    // pulverised, and cut for fire and sieves
inline const Json::json_pointer first = split / "portions" / 0;   // fire
inline const Json::json_pointer second = split / "portions" / 1;  // fire
inline const Json::json_pointer sieved = split / "portions" / 2;
inline const Json::json_pointer remainder = pan / "portions" / 0;
inline const Json::json_pointer tail = pan / "portions" / 1;
inline const Json::json_pointer bead(const Json::json_pointer& fire) { return fire / "charge" / "bead"; }
}  // namespace at

Json clean_week(std::uint64_t seed);
// A week with no slip either, and nearer to crying wolf: the bag came wet and was dried, its moisture written in every other
// week; the rock was weighed by itself on a scale that moves by fives, and what waited grew a little lighter in the air; beads
// scatter by all that is said of their balance; what was panned went through the mill first.
Json harder_week(std::uint64_t seed);

// "12.34 g": a figure as a person types it.
std::string typed(double value, int decimals, const std::string& unit);
// The number at the beginning of a typed figure.
double number_of(const Json& typed);
// A moment of the week: day 4 is Monday, 4 May 2026.
std::string moment(int day, int hour, int minute);

}  // namespace prillbook::slips
