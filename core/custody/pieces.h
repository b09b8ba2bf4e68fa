// SPDX-License-Identifier: GPL-3.0-or-later
// The boxes and bags of a consignment, each with its condition and its seal.
#pragma once

#include "core/custody/custody.h"

namespace prillbook::custody {

struct Piece {
  PieceId id;
  ConsignmentId consignment;
  std::int64_t number = 0;
  std::optional<std::string> condition, seal_declared, seal, seal_state, remarks;
};

struct NewPiece {
  ConsignmentId consignment;
  std::optional<std::string> condition, seal_declared, seal, seal_state, remarks;
};

// Numbers the piece within its consignment. Errors: not_found, out_of_range (a word that is none of the choice).
Result<PieceId> add_piece(history::Journal& journal, const NewPiece& piece);
Result<PieceId> add_piece(history::ChangeSet& set, const NewPiece& piece);
Result<std::vector<Piece>> pieces_of(history::Source source, ConsignmentId id);
// Errors: not_found.
Result<ConsignmentId> consignment_by_number(store::Connection& connection, std::string_view number);

}  // namespace prillbook::custody
