// SPDX-License-Identifier: GPL-3.0-or-later
// A sample's way drawn as a flow whose widths are masses: the tree of its reaches, and where each lies. No drawing here.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/milling/steps.h"

namespace prillbook::milling {

enum class ReachKind {
  source,  // the sample as it came in
  after,   // the same rock after a step
  part,    // a portion
  rest,    // what a cut or split left
  loss,
};

// One stretch of the flow. Parents stand before their children.
struct Reach {
  ReachKind kind = ReachKind::source;
  int parent = -1;
  int depth = 0;
  Mass mass;
  bool weighed = true;  // false: the width says nothing
  SampleId sample;      // the record it opens: one of these
  PortionId portion;
  StepId step;
  PortionId holder;           // the portion the rock belongs to here; none: the sample itself
  std::string name;           // "26-0003/2", "crush"
  std::string purpose;        // of a portion
  readings::Figure top_size;  // after a step
};

struct FlowInput {
  SampleId sample;
  std::string number;
  readings::Figure mass;
  std::vector<portions::Portion> portions;
  std::vector<Step> steps;  // in the order in which they were done
};

std::vector<Reach> flow_of(const FlowInput& input);

struct FlowStyle {
  double source_width = 64;  // of the reach at the source, across
  double least_width = 1.5;  // so that a gram beside a hundred kilograms is still seen
  double column = 150;       // from one reach to the next along the flow
  double reach = 96;         // length of a reach; the rest of the column is the bend
  double least_band = 40;    // room for the words of one reach, above and below it
  double words_inside = 32;  // a reach so wide has its words on it and needs no other room for them
  double margin = 12;
};

// Where a reach lies: its body, and the slice of its parent's end that it leaves from.
struct ReachPlace {
  double x = 0, y = 0, length = 0, width = 0;  // y: upper edge
  double from_x = 0, from_y = 0, from_width = 0;
};
struct FlowLayout {
  std::vector<ReachPlace> places;  // one a reach
  double width = 0, height = 0;
};

// Widths in proportion to masses, but for the least width; bands never overlap. Domain: parents before children.
FlowLayout lay_out(const std::vector<Reach>& reaches, const FlowStyle& style = {});

}  // namespace prillbook::milling
