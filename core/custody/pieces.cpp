// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/custody/pieces.h"

#include <fmt/format.h>

#include "core/custody/statements.h"
#include "core/history/fields.h"
#include "core/history/record.h"

namespace prillbook::custody {
namespace {

namespace piece_fields = history::fields::piece;

}  // namespace

Result<PieceId> add_piece(history::ChangeSet& set, const NewPiece& piece) {
  using readings::cell_of;
  PRILLBOOK_ASSIGN(const Consignment whole, consignment(set.connection(), piece.consignment));
  PRILLBOOK_ASSIGN(const std::int64_t number, set.connection().integer(sql::next_piece_number, {whole.id.value}));
  PRILLBOOK_ASSIGN(const RecordId id,
                   set.make(history::Entity::piece, {{piece_fields::consignment, whole.id.value},
                                                     {piece_fields::number, number},
                                                     {piece_fields::condition, cell_of(piece.condition)},
                                                     {piece_fields::seal_declared, cell_of(piece.seal_declared)},
                                                     {piece_fields::seal, cell_of(piece.seal)},
                                                     {piece_fields::seal_state, cell_of(piece.seal_state)},
                                                     {piece_fields::remarks, cell_of(piece.remarks)}}));
  return PieceId{id};
}

Result<PieceId> add_piece(history::Journal& journal, const NewPiece& piece) {
  return journal.record_for<PieceId>("log piece", [&](history::ChangeSet& set) { return add_piece(set, piece); });
}

Result<std::vector<Piece>> pieces_of(history::Source source, ConsignmentId id) {
  PRILLBOOK_ASSIGN(const auto records, history::load_referring(source, piece_fields::consignment, id.value));
  std::vector<Piece> pieces;
  for (const history::Record& record : records)
    pieces.push_back({PieceId{record.id()}, record.reference<ConsignmentId>(piece_fields::consignment),
                      record.whole(piece_fields::number), record.optional_text(piece_fields::condition),
                      record.optional_text(piece_fields::seal_declared), record.optional_text(piece_fields::seal),
                      record.optional_text(piece_fields::seal_state), record.optional_text(piece_fields::remarks)});
  return pieces;
}

Result<ConsignmentId> consignment_by_number(store::Connection& connection, std::string_view number) {
  PRILLBOOK_ASSIGN(const std::int64_t id, connection.integer(sql::consignment_by_number, {number}));
  if (id == 0)
    return Error{ErrorCode::not_found, "consignment", fmt::format("there is no consignment {}", number), {std::string(number)}};
  return ConsignmentId{id};
}

}  // namespace prillbook::custody
