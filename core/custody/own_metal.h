// SPDX-License-Identifier: GPL-3.0-or-later
// What stays the client's: metal and rests that are returned, kept for them or used up; and figures told to them before
// they were written.
#pragma once

#include "core/custody/custody.h"

namespace prillbook::custody {

struct OwnMetal {
  OwnMetalId id;
  SampleId sample;
  std::string what, fate;
  readings::Figure mass;
  Instant at;
  std::optional<std::string> to_whom, remarks;
  PersonId written_by;
};

struct NewOwnMetal {
  SampleId sample;
  std::string what, fate;
  readings::Figure mass;
  std::optional<Instant> at;  // absent: now
  std::optional<std::string> to_whom, remarks;
  PersonId written_by;
};

// Errors: missing_key (what, fate; who took it, where it is returned), out_of_range, inconsistent (no such sample).
Result<OwnMetalId> give_back(history::Journal& journal, const NewOwnMetal& metal);
Result<OwnMetalId> give_back(history::ChangeSet& set, const NewOwnMetal& metal);
Result<std::vector<OwnMetal>> own_metal_of(history::Source source, SampleId sample);

struct ToldFigure {
  ToldFigureId id;
  SampleId sample;
  std::string what, said, to_whom;
  Instant at;
  PersonId told_by;
  std::optional<std::string> remarks;
};

struct NewToldFigure {
  SampleId sample;
  std::string what, said, to_whom;
  std::optional<Instant> at;  // absent: now
  PersonId told_by;
  std::optional<std::string> remarks;
};

// Errors: missing_key (what, the figure, who was told), out_of_range, inconsistent (no such sample).
Result<ToldFigureId> tell_figure(history::Journal& journal, const NewToldFigure& told);
Result<ToldFigureId> tell_figure(history::ChangeSet& set, const NewToldFigure& told);
Result<std::vector<ToldFigure>> told_figures_of(history::Source source, SampleId sample);

}  // namespace prillbook::custody
