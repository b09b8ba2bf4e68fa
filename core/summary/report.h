// SPDX-License-Identifier: GPL-3.0-or-later
// The client summary as a neutral document: the same figures and words for paper, spreadsheet and list.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "core/base/clock.h"
#include "core/results/reading_lines.h"
#include "core/summary/figure.h"

namespace prillbook::summary {

struct Heading {
  int level = 1;  // 1: a sample, or the part that all share; 2: one question and its answer
  std::string text;
};

enum class Tone { plain, lead, quiet };

struct Paragraph {
  std::string text;
  Tone tone = Tone::plain;
};

// A text, or figures under one another; neither where nothing was measured.
using Cell = std::variant<std::string, std::vector<Figure>>;

struct Column {
  std::string title;
  bool figures = true;  // aligned on the decimal say, each with its unit behind it
};

struct TableRow {
  std::vector<Cell> cells;  // as many as there are columns
  std::string note;         // under the row, over its whole width
  bool mean = false;        // stands out
  bool left_out = false;    // spoiled, excluded or waiting
};

struct Table {
  std::vector<Column> columns;
  std::vector<TableRow> rows;
};

enum class Metal { gold, silver };

// One line of the picture: a dot with its whisker, and a longer thin one with the sampling error. All in g/t.
struct PictureRow {
  std::string label;
  Metal metal = Metal::gold;
  Figure figure;
  std::optional<double> sampling_lo, sampling_hi;
  std::vector<double> dots = {};  // the charges behind a mean, g/t
};

struct IntervalPicture {
  std::vector<PictureRow> rows;
  std::optional<double> gap_from, gap_to;  // shaded
  std::string gap_label;
};

// Per cent passing over size in µm on a logarithmic axis, one curve a sieve analysis.
struct SieveCurve {
  std::string label;                              // "26-0003/4"
  std::vector<std::pair<double, double>> points;  // µm and per cent, coarse to fine
  std::optional<double> p80_um, p50_um;           // absent where they lie outside the sieves
};

struct SievePicture {
  std::vector<SieveCurve> curves;
};

// A photograph, as its file holds it.
struct Photograph {
  std::string bytes, caption, hash;
  std::int64_t width = 0, height = 0;  // pixels
};

struct Cautions {
  std::vector<std::string> sentences;
};

struct Signature {
  std::string label;
};

struct EndMark {
  std::string text;
  std::string notebook_state;  // end of the history chain, as hex; may be empty
};

using Block = std::variant<Heading, Paragraph, Table, IntervalPicture, SievePicture, Photograph, Cautions, Signature, EndMark>;

enum class LineKind {
  pan_test,
  charge,
  charge_of_remainder,
  charge_of_tail,
  mean_of_charges,
  no_result,
  sieve_analysis,
  test_of_fraction,  // pan test or charge of one sieve size
  metallics,         // both parts of a portion screened, by mass
};

// One test, or the mean of the charges of one sample with what its comparison says: a line of the lists.
struct ResultLine {
  std::string sample, mark, client;
  std::string test;  // "26-0003/2"; empty for a mean
  LineKind kind = LineKind::no_result;
  std::string state;                              // done, waiting, spoiled, excluded, refused
  std::string reason;                             // of a state other than done
  int valid = 0;                                  // charges behind a mean
  std::optional<Figure> portion, bead, fineness;  // g, mg, ‰
  std::string fineness_method;                    // parted, density, touchstone, colour, stated
  std::optional<Figure> gold, gold_oz, silver, silver_oz;
  std::string silver_words;                            // why there is no figure
  std::optional<Figure> recovery, gap, head, closure;  // %, g/t, g/t, %; on the mean only
  std::string note;                                    // said beneath a line that is done
  std::string held;                                    // the furnace loads of a charge that are held, and why
  std::string verdict, basis;                          // names of the batch contract
  std::string size;                                    // "−850 µm +250 µm", of a sieve fraction
  std::optional<Figure> p80, p50, sieve_loss;          // µm, µm, %; of a sieve analysis
};

using results::ReadingLine;

struct Report {
  std::string title;
  std::vector<std::string> letterhead;  // name of the lab first
  std::vector<std::string> client;      // name first
  std::string foot;                     // at the foot of every page
  std::string issued;                   // local date, "2026-05-04"
  std::string number;                   // "26-S01"; empty where it has none
  bool draft = false, preliminary = false;
  Instant now;
  Speech say;  // language and decimal mark of its words
  std::vector<Block> blocks;
  std::vector<ResultLine> lines;
  std::vector<ReadingLine> readings;
};

}  // namespace prillbook::summary
