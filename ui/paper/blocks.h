// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/summary/report.h"
#include "ui/paper/flow.h"

namespace prillbook::paper {

void lay_out_table(Flow& flow, const summary::Table& table);
void lay_out_picture(Flow& flow, const summary::IntervalPicture& picture, DecimalMark mark);

// One after another at half the width; a file that is no picture is named, not left out.
void lay_out_photograph(Flow& flow, const summary::Photograph& photograph, const summary::Speech& say);

void lay_out_sieve_curves(Flow& flow, const summary::SievePicture& picture, const summary::Speech& say);

}  // namespace prillbook::paper
