// SPDX-License-Identifier: GPL-3.0-or-later
// Everything about the keeping of one sample, in one value.
#pragma once

#include <map>

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

// What the samples of one consignment share.
struct ConsignmentRecord {
  struct Marked {
    SampleId sample;
    std::string number;
  };

  Consignment consignment;
  lab::Client client;
  CommonChain chain;
  Holders holders;
  std::vector<Piece> pieces;
  std::map<std::string, std::vector<Marked>> marks;  // its samples that stand, by the client's mark, trimmed and in lower case
};

// `people` are those of the lab. Errors: not_found, damaged.
Result<ConsignmentRecord> load_consignment_record(history::Source source, ConsignmentId id, std::span<const lab::Person> people);
// `shared` is of the consignment of the sample. Errors: damaged.
Result<CustodyRecord> load_custody_record(history::Source source, const Sample& sample, const ConsignmentRecord& shared);

}  // namespace prillbook::custody
