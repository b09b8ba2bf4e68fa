// SPDX-License-Identifier: GPL-3.0-or-later
// Everything about the keeping of one sample, in one value.
#pragma once

#include "core/custody/hand_overs.h"
#include "core/custody/own_metal.h"
#include "core/custody/pieces.h"

namespace prillbook::custody {

struct CustodyRecord {
  Chain chain;
  Holders holders;
  std::vector<Piece> pieces;           // of its consignment
  std::vector<std::string> same_mark;  // lab numbers of other samples of the consignment with the same client mark
  std::vector<OwnMetal> own_metal;
  std::vector<ToldFigure> told;
};

// `people` are those of the lab. Errors: not_found, damaged.
Result<CustodyRecord> load_custody_record(store::Connection& connection, const Sample& sample, const Consignment& consignment,
                                          std::span<const lab::Person> people);

}  // namespace prillbook::custody
