// SPDX-License-Identifier: GPL-3.0-or-later
// What stands where on a tray, on one page: the tray from above and a line a position with room for what is seen there.
#pragma once

#include <string>
#include <vector>

#include "core/trays/trays.h"
#include "ui/paper/pages.h"

namespace prillbook::paper {

struct TraySheetPlace {
  std::int64_t position = 0;
  std::string label, mark, mass;  // "26-0003/2", the client's mark, "30 g"; a control: its words alone
};

struct TraySheet {
  std::string name, run, laid_out;  // the last two may be empty
  trays::Kind kind = trays::Kind::bead;
  trays::Grid grid;
  std::vector<TraySheetPlace> places;  // by position
};

// Always one page. Up to sixty positions each has its line, also where it is empty; of a larger tray those that are taken.
Pages tray_pages(const TraySheet& sheet, PaperSize size);

}  // namespace prillbook::paper
